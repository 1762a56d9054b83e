import { checkConditions } from "./check-conditions.ts";
import { checkDrawings } from "./check-drawings.ts";
import { checkFindings } from "./check-findings.ts";
import { checkIds } from "./check-ids.ts";
import { checkLexicon } from "./check-lexicon.ts";
import { checkQuestions } from "./check-questions.ts";
import { checkReferences } from "./check-references.ts";
import { checkRemedies, checkSources } from "./check-remedies.ts";
import type { Content } from "./content.ts";
import type { Problem } from "./problems.ts";

const checks = [
  checkIds,
  checkReferences,
  checkFindings,
  checkQuestions,
  checkConditions,
  checkRemedies,
  checkSources,
  checkLexicon,
  checkDrawings,
];

/** What can only be seen with all files side by side. Works on what could be read, so that one bad file hides little. */
export function crossCheck(content: Content): Problem[] {
  return checks.flatMap((check) => check(content));
}
