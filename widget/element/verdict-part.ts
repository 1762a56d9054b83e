/** A bundle of its own, fetched with the prose behind the first questions. */
export { VerdictView } from "../views/verdict-view.tsx";
