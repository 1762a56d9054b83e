import { Card } from "../../widget/check/card.tsx";
import type { CheckState } from "../../widget/check/decide.ts";
import { makeReport } from "../../widget/check/make-report.ts";
import { makePageWays } from "../../widget/check/page-ways.ts";
import { describeAnswer } from "../../widget/views/describe-answer.ts";
import { Notices } from "../../widget/views/notices.tsx";
import { sayVerdict } from "../../widget/views/report.ts";
import { Transcript } from "../../widget/views/transcript.tsx";
import { VerdictView } from "../../widget/views/verdict-view.tsx";
import { words } from "../../widget/views/words.ts";
import { Page } from "./page.tsx";

/** One page of the check: the answers so far, then the question in hand or the verdict. */
export function CheckPage({ state, origin }: { state: CheckState; origin: string }) {
  const { flow, case: kase, reopened, next } = state;
  const ways = makePageWays(flow, kase);
  const report = reopened === null && next === null ? makeReport(flow, kase, `${origin}/`) : null;
  const asked = reopened ?? next;
  const title = report ? sayVerdict(flow, report.verdict) : (asked?.prompt ?? words.check);
  return (
    <Page title={title} shop={flow.edition.shop} skipTo={ways.id("now")}>
      {kase.answers.length === 0 && <p class="lt-lead">{words.intro}</p>}
      <Notices sentences={state.notices} />
      <Transcript
        answers={kase.answers.map((answer) => describeAnswer(flow, answer))}
        ways={ways}
        reopened={
          reopened
            ? { to: reopened.id, card: <Card state={state} question={reopened} ways={ways} /> }
            : undefined
        }
      />
      {reopened === null && next !== null && <Card state={state} question={next} ways={ways} />}
      {report && <VerdictView report={report} ways={ways} />}
    </Page>
  );
}
