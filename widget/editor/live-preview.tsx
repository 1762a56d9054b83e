/** What a shopper reads, kept up to date while it is typed: the same reader of prose and the same views as everywhere. */
import { render } from "hono/jsx/dom";
import { readProse } from "../../flows/content/prose.ts";
import { ProsePreview, QuestionPreview } from "../views/editor/entry-preview.tsx";
import { readFields, type Texts } from "./form-fields.ts";

const blocksOf = (text: string) => readProse(text, (line, column) => ({ file: "", line, column })).blocks;

/** Gives what to call when a script changed the fields. */
export function openPreviews(form: HTMLFormElement): () => void {
  const pieces = [...document.querySelectorAll<HTMLElement>("[data-preview]")];
  const card = document.querySelector<HTMLElement>("[data-preview-card]");
  const shown = new Map<HTMLElement, string>();
  let isDue = false;

  function draw(): void {
    isDue = false;
    const texts = readFields(form);
    for (const piece of pieces) {
      const text = texts[piece.dataset.preview ?? ""] ?? "";
      if (shown.get(piece) === text) continue;
      shown.set(piece, text);
      render(<ProsePreview of={blocksOf(text)} />, piece);
    }
    if (card) drawCard(card, texts);
  }

  function drawCard(place: HTMLElement, texts: Texts): void {
    const { prompt = "", why = "", body = "" } = texts;
    const options = Object.entries(texts).flatMap(([name, label]) => {
      const [, id] = /^options\.(.+)\.label$/.exec(name) ?? [];
      return id === undefined ? [] : [{ id, label }];
    });
    const key = JSON.stringify([prompt, why, body, options]);
    if (shown.get(place) === key) return;
    shown.set(place, key);
    render(<QuestionPreview {...{ prompt, why, options }} howToCheck={blocksOf(body)} />, place);
  }

  // One drawing a frame, however fast the keys come.
  const plan = () => {
    if (isDue) return;
    isDue = true;
    requestAnimationFrame(draw);
  };
  form.addEventListener("input", plan);
  return plan;
}
