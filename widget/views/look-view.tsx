import type { LookOutcome } from "../../flows/second-look.ts";
import type { Report } from "./report.ts";
import { follows, type Ways } from "./ways.ts";
import * as words from "./words.ts";

/** What the latest look leads to. */
export function OutcomeView({ report }: { report: Report }) {
  const said = sayOutcome(report, report.look.outcome);
  if (said.length === 0) return null;
  return (
    <section class="lt-section lt-check lt-outcome">
      <h3>{words.lookTitle}</h3>
      {said.map((sentence) => (
        <p>{sentence}</p>
      ))}
    </section>
  );
}

function sayOutcome({ flow, look }: Report, outcome: LookOutcome): string[] {
  switch (outcome.kind) {
    case "none":
      return [];
    case "finish":
      return [words.lookFinish];
    case "reopen":
      return [words.lookReopen];
    case "sample":
      return [words.lookSample[outcome.because]];
    case "step-up":
      return [words.lookStepUp(look.remedies.map((id) => flow.remedy(id)?.name ?? id).join(", "))];
    case "continue": {
      const options = flow.looks?.technique.question.options ?? [];
      const mend = options.find(({ id }) => id === outcome.mend);
      return [
        words.lookContinue,
        ...(mend ? [words.lookMend(mend.label)] : []),
        ...(outcome.checkTechnique && !mend ? [words.lookTechnique] : []),
      ];
    }
  }
}

/** The way to the next look. */
export function LookAgainView({ ways }: { ways: Ways }) {
  return (
    <section class="lt-section lt-look-again">
      <h3>{words.lookAgain}</h3>
      <p>{words.lookAgainHint}</p>
      <div class="lt-actions">
        <a class="lt-link" href={ways.hrefToLook} data-lt="look" {...follows(ways)}>
          {words.lookAgain}
        </a>
      </div>
    </section>
  );
}
