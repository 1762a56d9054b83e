import { sumsSheet } from "../views/sums-sheet.ts";
import { verdictSheet } from "../views/verdict-sheet.ts";

/** A bundle of its own, fetched with the prose behind the first questions. */
export { PlannedVerdict } from "../check/planned-verdict.tsx";
export { printCheck } from "./print-check.ts";
export { saveCalendar } from "./save-file.ts";
export { settleAt } from "./settle-at.ts";
export { startCounting } from "./start-counting.ts";

/** How these views look. */
export const partSheet = verdictSheet + sumsSheet;
