import { answerTo } from "../../flows/case.ts";
import { writeCode } from "../../flows/case-code.ts";
import { writeLink } from "../../flows/case-link.ts";
import type { Question } from "../../flows/edition.ts";
import { makePlan } from "../../flows/plan.ts";
import { judge } from "../../flows/verdict.ts";
import { describeAnswer } from "../../widget/views/describe-answer.ts";
import { HostQuestion } from "../../widget/views/host-question.tsx";
import { Notices } from "../../widget/views/notices.tsx";
import { QuestionCard } from "../../widget/views/question-card.tsx";
import { hostOf, type Report, sayVerdict } from "../../widget/views/report.ts";
import { Transcript } from "../../widget/views/transcript.tsx";
import { VerdictView } from "../../widget/views/verdict-view.tsx";
import type { Ways } from "../../widget/views/ways.ts";
import { words } from "../../widget/views/words.ts";
import type { CheckState } from "../check/decide.ts";
import { makePageWays } from "../check/page-ways.ts";
import { Page } from "./page.tsx";

/** One page of the check: the answers so far, then the question in hand or the verdict. */
export function CheckPage({ state, origin }: { state: CheckState; origin: string }) {
  const { flow, case: kase, reopened, next } = state;
  const ways = makePageWays(flow, kase);
  const report = reopened === null && next === null ? makeReport(state, origin) : null;
  const asked = reopened ?? next;
  const title = report ? sayVerdict(flow, report.verdict) : (asked?.prompt ?? words.check);
  return (
    <Page title={title} shop={flow.edition.shop} skipTo={ways.id("now")}>
      {kase.answers.length === 0 && <p class="lt-lead">{words.intro}</p>}
      <Notices sentences={state.notices} ways={ways} />
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

function Card({ state, question, ways }: { state: CheckState; question: Question; ways: Ways }) {
  const { flow, case: kase, search } = state;
  const reopened = state.reopened !== null;
  const number = kase.answers.length + 1;
  return question.kind === "host" ? (
    <HostQuestion
      question={question}
      hosts={flow.edition.hosts}
      ways={ways}
      number={number}
      search={search}
      reopened={reopened}
    />
  ) : (
    <QuestionCard
      question={question}
      ways={ways}
      number={number}
      given={answerTo(kase, question.id)}
      reopened={reopened}
    />
  );
}

function makeReport({ flow, case: kase }: CheckState, origin: string): Report {
  const verdict = judge(flow, kase);
  return {
    flow,
    verdict,
    plan: makePlan(flow, kase, verdict),
    host: hostOf(flow, kase),
    link: `${origin}/check?${writeLink(flow, kase)}`,
    code: writeCode(flow, kase),
  };
}
