/** A bundle of its own, fetched with the prose behind the first questions. */
export { verdictSheet } from "../views/verdict-sheet.ts";
export { VerdictView } from "../views/verdict-view.tsx";
