import type { Proposal } from "../../flows/understand/propose.ts";
import { Card, PlanLink } from "../../widget/check/card.tsx";
import type { CheckState } from "../../widget/check/decide.ts";
import { makeReport } from "../../widget/check/make-report.ts";
import { makePageWays } from "../../widget/check/page-ways.ts";
import { PlannedVerdict } from "../../widget/check/planned-verdict.tsx";
import { describeAnswers } from "../../widget/views/describe-answer.ts";
import { Notices } from "../../widget/views/notices.tsx";
import { sayVerdict } from "../../widget/views/report.ts";
import { SayField } from "../../widget/views/say-field.tsx";
import { SayView } from "../../widget/views/say-view.tsx";
import { isThatRight } from "../../widget/views/say-words.ts";
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
  /** What was understood of something typed, to be agreed to. */
  proposal?: Proposal | undefined;
}

/** One page of the check: the answers so far, then the question in hand or the verdict. */
export function CheckPage({ state, origin, page, banner, proposal }: CheckPageProps) {
  const { flow, case: kase, reopened, next } = state;
  const ways = { ...makePageWays(flow, kase, state.aside, page), pictures: picturesOf(flow.edition) };
  const report =
    reopened === null && next === null ? makeReport(flow, kase, { base: `${origin}/`, ...state }) : null;
  const asked = reopened ?? next;
  const saying = proposal !== undefined;
  const isFirst = kase.answers.length === 0;
  // Only the shop's own check has somewhere to send the words.
  const field = page === undefined && !saying && reopened === null && <SayField ways={ways} />;
  const title = saying
    ? isThatRight
    : report
      ? sayVerdict(flow, report.verdict)
      : (asked?.prompt ?? words.check);
  return (
    <Page title={title} shop={flow.edition.shop} skipTo={ways.id("now")} {...(banner && { banner })}>
      {isFirst && <p class="lt-lead">{words.intro}</p>}
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
      {isFirst && field}
      {proposal && <SayView {...{ flow, proposal, state, ways }} />}
      {!saying && reopened === null && next !== null && <Card state={state} question={next} ways={ways} />}
      {!saying && report && <PlannedVerdict {...{ state, report, ways }} />}
      {!isFirst && field}
    </Page>
  );
}
