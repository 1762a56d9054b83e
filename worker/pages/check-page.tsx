import { Card, PlanLink } from "../../widget/check/card.tsx";
import type { CheckState } from "../../widget/check/decide.ts";
import { makeReport } from "../../widget/check/make-report.ts";
import { makePageWays } from "../../widget/check/page-ways.ts";
import { PlannedVerdict } from "../../widget/check/planned-verdict.tsx";
import { describeAnswers } from "../../widget/views/describe-answer.ts";
import { Notices } from "../../widget/views/notices.tsx";
import { sayVerdict } from "../../widget/views/report.ts";
import { Transcript } from "../../widget/views/transcript.tsx";
import * as words from "../../widget/views/words.ts";
import { Page } from "./page.tsx";
import { picturesOf } from "./pictures-of.ts";

interface CheckPageProps {
  state: CheckState;
  origin: string;
  /** Where the check is, when it is not the shop's own; and what stands above everything then. */
  page?: string;
  banner?: string;
}

/** One page of the check: the answers so far, then the question in hand or the verdict. */
export function CheckPage({ state, origin, page, banner }: CheckPageProps) {
  const { flow, case: kase, reopened, next } = state;
  const ways = { ...makePageWays(flow, kase, state.aside, page), pictures: picturesOf(flow.edition) };
  const report =
    reopened === null && next === null ? makeReport(flow, kase, { base: `${origin}/`, ...state }) : null;
  const asked = reopened ?? next;
  const title = report ? sayVerdict(flow, report.verdict) : (asked?.prompt ?? words.check);
  return (
    <Page title={title} shop={flow.edition.shop} skipTo={ways.id("now")} {...(banner && { banner })}>
      {kase.answers.length === 0 && <p class="lt-lead">{words.intro}</p>}
      <Notices sentences={state.notices} />
      <Transcript
        answers={describeAnswers(flow, kase)}
        ways={ways}
        reopened={
          reopened
            ? { to: reopened.id, card: <Card state={state} question={reopened} ways={ways} /> }
            : undefined
        }
      />
      {state.looking && <PlanLink {...{ state, ways }} />}
      {reopened === null && next !== null && <Card state={state} question={next} ways={ways} />}
      {report && <PlannedVerdict {...{ state, report, ways }} />}
    </Page>
  );
}
