import { type Answer, type Case, giveAnswer, newCase } from "../../../flows/case.ts";
import { type Desk, layDesk } from "../../../flows/desk/desk.ts";
import { findPlants } from "../../../flows/desk/find-replies.ts";
import { NOT_SURE_KEY, optionKey, type Reading, readKeys } from "../../../flows/desk/keys.ts";
import { type Flow, NOT_SURE } from "../../../flows/flow.ts";
import { judge } from "../../../flows/verdict.ts";

/** The desk of a case. */
export function deskOf(flow: Flow, kase: Case): Desk {
  return layDesk(flow, kase, judge(flow, kase));
}

/** Key presses of staff who know the keys: the fewest that give an answer. Enter is "⏎". */
export function pressesFor(flow: Flow, desk: Desk, { to, is }: Answer): string[] {
  const key = desk.keys.keyOf.get(to) ?? "";
  if (to === flow.hostQuestion?.id && is !== NOT_SURE) return [...key, ...plantKeys(flow, is), "⏎"];
  const place = flow.question(to)?.options.findIndex(({ id }) => id === is) ?? -1;
  const option = is === NOT_SURE ? NOT_SURE_KEY : optionKey(place);
  return desk.best?.question.id === to && /\d/.test(option) ? [option] : [...key, option];
}

/** The shortest beginning of one of the plant's names that finds it first. */
function plantKeys(flow: Flow, id: string): string {
  const host = flow.host(id);
  const names = [host?.name ?? "", ...(host?.alsoCalled ?? [])];
  for (let length = 1; length < 30; length++) {
    for (const name of names) {
      const typed = name.slice(0, length).toLowerCase();
      if (findPlants(flow, typed)[0] === id) return typed;
    }
  }
  throw new Error(`${id} cannot be reached by its name.`);
}

/** What the presses come to, read as the field reads them, one after the other. */
export function readPresses(flow: Flow, desk: Desk, presses: readonly string[]): Answer | null {
  let typed = "";
  for (const [i, press] of presses.entries()) {
    const before: Reading = readKeys(flow, desk.keys, desk.best?.question.id ?? null, typed);
    if (press === "⏎" && before.kind === "plant") {
      const is = findPlants(flow, before.name)[before.pick ?? 0];
      return is === undefined ? null : { to: before.to, is };
    }
    typed += press;
    const reading = readKeys(flow, desk.keys, desk.best?.question.id ?? null, typed);
    if (reading.kind === "answer")
      return i === presses.length - 1 ? { to: reading.to, is: reading.is } : null;
    if (reading.kind === "unknown") return null;
  }
  return null;
}

/** Types the answers of a case in the order given and counts the presses of each. */
export function typeCase(
  flow: Flow,
  answers: readonly Answer[],
): { counts: number[]; case: Case; failed: Answer[] } {
  let kase = newCase(flow);
  const counts: number[] = [];
  const failed: Answer[] = [];
  for (const answer of answers) {
    const desk = deskOf(flow, kase);
    const presses = pressesFor(flow, desk, answer);
    const read = readPresses(flow, desk, presses);
    if (read?.to !== answer.to || read.is !== answer.is) failed.push(answer);
    counts.push(presses.length);
    kase = giveAnswer(flow, kase, answer.to, answer.is).case;
  }
  return { counts, failed, case: kase };
}

/** The same answers in an order of no sense, as callers tell them; always the same for the same answers. */
export function blurt(answers: readonly Answer[]): Answer[] {
  const hash = ({ to, is }: Answer) =>
    [...`${to}=${is}`].reduce((sum, c) => (sum * 31 + c.charCodeAt(0)) % 9973, 7);
  return answers.toSorted((a, b) => hash(a) - hash(b));
}

export function median(numbers: readonly number[]): number {
  return numbers.toSorted((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? 0;
}
