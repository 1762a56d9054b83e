import type { Edition, Lexicon } from "../../flows/edition.ts";
import { type Flow, openFlow } from "../../flows/flow.ts";

/** A bundle of its own, fetched when somebody first types: reads what was typed, here in the browser. */
export { asksAlone, propose } from "../../flows/understand/propose.ts";
export { SayView } from "../views/say-view.tsx";

/** The same edition with its lexicon. */
export function addLexicon(edition: Edition, lexicon: Lexicon): Flow {
  return openFlow({ ...edition, lexicon });
}
