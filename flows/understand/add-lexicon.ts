import type { Edition, Lexicon } from "../edition.ts";
import { type Flow, openFlow } from "../flow.ts";

/** The same edition with its lexicon, which comes by itself when somebody first types. */
export function addLexicon(edition: Edition, lexicon: Lexicon): Flow {
  return openFlow({ ...edition, lexicon });
}
