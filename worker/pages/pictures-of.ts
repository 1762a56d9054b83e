import type { Drawing, Edition } from "../../flows/edition.ts";
import { showPictures } from "../../widget/views/pictures-view.tsx";
import type { PictureViews } from "../../widget/views/ways.ts";

const shown = new WeakMap<readonly Drawing[], PictureViews>();

/** The drawings of an edition, all at hand; undefined in editions from before there were any. */
export function picturesOf({ drawings }: Edition): PictureViews | undefined {
  if (drawings === undefined) return undefined;
  const bodies = new Map(drawings.map((drawing) => [drawing.id, drawing]));
  const pictures = shown.get(drawings) ?? showPictures(drawings, (id) => bodies.get(id));
  shown.set(drawings, pictures);
  return pictures;
}
