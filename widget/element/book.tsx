import type { Child } from "hono/jsx";
import { useState } from "hono/jsx/dom";
import { Card, PlanLink } from "../check/card.tsx";
import type { CheckState } from "../check/decide.ts";
import { describeAnswers } from "../views/describe-answer.ts";
import { Notices } from "../views/notices.tsx";
import type { Report } from "../views/report.ts";
import { SayField } from "../views/say-field.tsx";
import { Transcript } from "../views/transcript.tsx";
import type { Ways } from "../views/ways.ts";
import * as words from "../views/words.ts";
import { EarlyVerdict } from "./early-verdict.tsx";
import type { Whole } from "./load-editions.ts";

/** All that the element shows at one moment. */
export interface Showing {
  state: CheckState;
  ways: Ways;
  /** Present when the verdict is due and nothing is reopened. */
  report: Report | null;
  /** The view of a verdict in full; null while it or its prose is still on the way. */
  PlannedVerdict: Whole["PlannedVerdict"] | null;
  /** The rest could not be fetched. */
  missing: boolean;
  retry: () => void;
  /** What was understood of something typed, to be agreed to. */
  heard: Child;
}

interface BookProps {
  first: Showing;
  /** Receives the function that shows the next moment. */
  connect: (show: (next: Showing) => void) => void;
}

/** The conversation: the answers so far in a log that grows downwards, then the question in hand or the verdict. */
export function Book({ first, connect }: BookProps) {
  const [showing, show] = useState(first);
  connect(show);
  const { state, ways, report, PlannedVerdict, missing, retry, heard } = showing;
  const { flow, case: kase, reopened, next, notices } = state;
  const isFirst = kase.answers.length === 0;
  const field = !heard && reopened === null && <SayField ways={ways} />;
  return (
    <div class="lt-book" part="book">
      {isFirst && <p class="lt-lead">{words.intro}</p>}
      <Transcript
        live
        answers={describeAnswers(flow, kase)}
        ways={ways}
        reopened={
          reopened
            ? {
                to: reopened.id,
                card: <Card key={reopened.id} state={state} question={reopened} ways={ways} />,
              }
            : undefined
        }
      >
        <Notices sentences={notices} />
        {ways.tools?.said && <p class="lt-unseen">{ways.tools.said}</p>}
      </Transcript>
      {isFirst && field}
      {state.looking && <PlanLink {...{ state, ways }} />}
      {heard}
      {!heard && reopened === null && next !== null && (
        <Card key={`${kase.answers.length} ${next.id}`} state={state} question={next} ways={ways} />
      )}
      {!heard &&
        report &&
        (PlannedVerdict ? (
          <PlannedVerdict key={report.code} {...{ state, report, ways }} />
        ) : (
          <EarlyVerdict report={report} ways={ways} missing={missing} retry={retry} />
        ))}
      {!isFirst && field}
    </div>
  );
}
