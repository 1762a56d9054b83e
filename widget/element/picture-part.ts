import type { DrawingGroup, DrawingIndex } from "../../flows/parcel/drawing-shape.ts";
import { type DrawingBody, showPictures } from "../views/pictures-view.tsx";
import type { PictureViews } from "../views/ways.ts";

/** A bundle of its own, fetched behind the first question. */
export { pictureSheet } from "../views/picture-sheet.ts";

/** Drawings that come in when a view asks for them. */
export interface PictureBook {
  views: PictureViews;
  /** Fetches what is still missing, a group at a time: after that a lost connection loses no drawing. */
  fetchRest(): Promise<void>;
}

/** `readGroup` fetches a group by its number; `changed` is called when further drawings can be shown. */
export function openPictureBook(
  { entries, groups }: DrawingIndex,
  readGroup: (at: number) => Promise<unknown>,
  changed: () => void,
): PictureBook {
  const bodies = new Map<string, DrawingBody>();
  const asked = new Map<number, Promise<void>>();
  const fetchGroup = (at: number): Promise<void> => {
    const request =
      asked.get(at) ??
      readGroup(at).then((group) => {
        for (const [id, body] of Object.entries(group as DrawingGroup)) bodies.set(id, body);
        changed();
      });
    asked.set(at, request);
    return request;
  };
  // A group that could not be had leaves the words; the next view that wants it asks again.
  const ask = (at: number) => fetchGroup(at).catch(() => asked.delete(at));
  const bodyOf = (id: string) => {
    const body = bodies.get(id);
    if (body === undefined) void ask(groups.findIndex((ids) => ids.includes(id)));
    return body;
  };
  return {
    views: showPictures(entries, bodyOf),
    async fetchRest() {
      for (const at of groups.keys()) await ask(at);
    },
  };
}
