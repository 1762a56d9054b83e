import type { Lexicon } from "../../flows/edition.ts";
import { type Flow, openFlow } from "../../flows/flow.ts";
import type { DrawingIndex } from "../../flows/parcel/drawing-shape.ts";
import type { FirstParcel, ProseParcel } from "../../flows/parcel/shape.ts";
import { addProse, unpackFirst } from "../../flows/parcel/unpack.ts";
import { importWhole } from "./import-whole.ts";

/** Where the two parcels of the live edition lie, seen from the server. */
export interface LiveEdition {
  number: number;
  hash: string;
}

/** The live edition on its way: first what the conversation needs, then the prose. */
export interface LoadedEdition {
  first: Flow;
  /** Starts the second request, or takes up the one that runs; a failed one is tried again with the next call. */
  loadWhole(): Promise<Whole>;
  /** The drawings, each of which comes when it is first shown. `changed` is called when one has come. */
  loadPictures(changed: () => void): Promise<LoadedPictures>;
  /** What reads typed words, and the whole edition with its lexicon. */
  loadSay(): Promise<Say>;
}

type PicturePart = typeof import("./picture-part.ts");
/** The drawings and how they look. */
export type LoadedPictures = ReturnType<PicturePart["openPictureBook"]> & Pick<PicturePart, "pictureSheet">;

type VerdictPart = typeof import("./verdict-part.ts");

/** What a verdict needs to be told in full. */
export interface Whole extends VerdictPart {
  flow: Flow;
}

type SayPart = typeof import("./say-part.ts");

/** What reading typed words needs. */
export interface Say extends SayPart {
  flow: Flow;
}

/** Throws when the server cannot be reached or does not answer as it should. */
export async function loadEdition(base: string, live: LiveEdition): Promise<LoadedEdition> {
  const folder = `${base}embed/editions/${live.number}-${live.hash}`;
  const first = unpackFirst((await readJson(fetch(`${folder}/first.json`))) as FirstParcel);
  let whole: Promise<Whole> | undefined;
  let failed = false;
  let say: Promise<Say> | undefined;
  let unsaid = false;
  const loaded: LoadedEdition = {
    first: openFlow(first),
    loadWhole() {
      whole ??= Promise.all([
        readJson(fetch(`${folder}/prose.json`)),
        importWhole<VerdictPart>(import.meta.url, VERDICT, failed),
      ])
        .then(([prose, part]) => ({
          ...part,
          flow: openFlow(addProse(first, prose as ProseParcel)),
        }))
        .catch((error: unknown) => {
          failed = true;
          whole = undefined;
          throw error;
        });
      return whole;
    },
    async loadPictures(changed) {
      const read = (name: string) => readJson(fetch(`${folder}/drawings${name}.json`));
      const [index, { openPictureBook, pictureSheet }] = await Promise.all([
        read(""),
        importWhole<PicturePart>(import.meta.url, PICTURES, false),
      ]);
      const book = openPictureBook(index as DrawingIndex, (at) => read(`-${at}`), changed);
      return { ...book, pictureSheet };
    },
    loadSay() {
      say ??= Promise.all([
        loaded.loadWhole(),
        readJson(fetch(`${folder}/lexicon.json`)),
        importWhole<SayPart>(import.meta.url, SAY, unsaid),
      ]).then(([{ flow }, lexicon, part]) => ({
        ...part,
        flow: part.addLexicon(flow.edition, lexicon as Lexicon),
      }));
      return say.catch((error: unknown) => {
        unsaid = true;
        say = undefined;
        throw error;
      });
    },
  };
  return loaded;
}

/** An edition other than the live one, as far as it judges; undefined when it is gone. */
export async function loadOldEdition(base: string, number: number): Promise<Flow | undefined> {
  try {
    const found = (await readJson(fetch(`${base}embed/live.json?e=${number}`))) as LiveEdition;
    return found.number === number ? (await loadEdition(base, found)).first : undefined;
  } catch {
    return undefined;
  }
}

export async function readJson(request: Promise<Response>): Promise<unknown> {
  const response = await request;
  if (!response.ok) throw new Error(`The server answered ${response.status}.`);
  return response.json();
}
