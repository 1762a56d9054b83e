/** A bundle of its own, fetched when the caller's own words are first wanted. */
export { addLexicon } from "../../flows/understand/add-lexicon.ts";
export { propose } from "../../flows/understand/propose.ts";
