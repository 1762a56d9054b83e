import { html } from "hono/html";
import type { Child } from "hono/jsx";
import type { Drawing, Edition } from "../../flows/edition.ts";
import { showPictures } from "../../widget/views/pictures-view.tsx";
import type { PictureViews } from "../../widget/views/ways.ts";

const shown = new WeakMap<readonly Drawing[], PictureViews>();

/** The drawings of an edition, all at hand; undefined in editions from before there were any. */
export function picturesOf({ drawings }: Edition): PictureViews | undefined {
  if (drawings === undefined) return undefined;
  const found = shown.get(drawings);
  if (found) return found;
  const bodies = new Map(drawings.map((drawing) => [drawing.id, drawing]));
  const pictures = keepRendered(showPictures(drawings, (id) => bodies.get(id)));
  shown.set(drawings, pictures);
  return pictures;
}

/**
 * Drawings are most of what a page is made of, and the same on every page: they are rendered when they are first
 * wanted, and kept with the question they belong to, which never changes.
 */
function keepRendered(pictures: PictureViews): PictureViews {
  const kept = new WeakMap<object, Map<string, Child>>();
  function keep(of: object, name: string, draw: () => Child): Child {
    const views = kept.get(of) ?? new Map<string, Child>();
    kept.set(of, views);
    const found = views.get(name);
    if (found !== undefined) return found;
    const child = draw();
    const view = child === null ? null : html`${child}`;
    views.set(name, view);
    return view;
  }
  return {
    option: (question, id) => keep(question, `option ${id}`, () => pictures.option(question, id)),
    figures: (question) => keep(question, "figures", () => pictures.figures(question)),
    check: (question) => keep(question, "check", () => pictures.check(question)),
    press: (question, idOf) => keep(question, `press ${idOf("")}`, () => pictures.press(question, idOf)),
    condition: (condition) =>
      keep(pictures, `condition ${condition.id} ${condition.name}`, () => pictures.condition(condition)),
    areApart: pictures.areApart,
  };
}
