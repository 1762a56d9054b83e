/** A bundle of its own, fetched when somebody first types: reads what was typed, here in the browser. */
export { addLexicon } from "../../flows/understand/add-lexicon.ts";
export { asksAlone, propose } from "../../flows/understand/propose.ts";
export { SayView } from "../views/say-view.tsx";
