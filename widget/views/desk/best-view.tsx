import type { Because, Outcome } from "../../../flows/desk/best-question.ts";
import type { Flow } from "../../../flows/flow.ts";
import { HouseholdView } from "../outlook-view.tsx";
import { PlanView } from "../plan-view.tsx";
import { Prose } from "../prose.tsx";
import { namedCondition, sayVerdict } from "../report.ts";
import { SampleView } from "../sample-view.tsx";
import { AnswersView, ThoughtView } from "../thought-view.tsx";
import type { DeskState } from "./desk-state.ts";
import type { DeskWays } from "./desk-ways.ts";
import * as words from "./desk-words.ts";
import { QuestionView } from "./question-view.tsx";

interface BestViewProps {
  state: DeskState;
  ways: DeskWays;
}

/** The sentence to say next and why; or the verdict, when nothing is left to ask. */
export function BestView({ state, ways }: BestViewProps) {
  const { flow, desk } = state;
  const { best } = desk;
  if (best === null) return <DueView state={state} />;
  const { question, because } = best;
  return (
    <section class="desk-best" aria-labelledby="desk-say">
      <p class="desk-eyebrow">{words.askNext}</p>
      <h2 class="desk-say" id="desk-say">
        “{question.prompt}”
      </h2>
      <p class="desk-why">{sayBecause(flow, question.id, because)}</p>
      <QuestionView
        key={question.id}
        question={question}
        ways={ways}
        keyed={ways.live ? (desk.keys.keyOf.get(question.id) ?? "") : ""}
        isChosen={ways.live?.chosen === question.id}
        isBest
      />
      {question.howToCheck.length > 0 && (
        <details class="desk-fold" key={`how ${question.id}`}>
          <summary>{words.howToSay}</summary>
          <Prose of={question.howToCheck} />
        </details>
      )}
    </section>
  );
}

/** Days and amounts are for whoever does the steps: they stand where the caller opens the case. */
const noSums = { step: () => null, hasDays: () => false };

/** The verdict as staff say it, and the plan. */
function DueView({ state: { report, remarks } }: { state: DeskState }) {
  const { flow, verdict } = report;
  const wanted = verdict.bringSample || namedCondition(report) === null;
  return (
    <section class="desk-best desk-due" aria-labelledby="desk-say">
      <p class="desk-eyebrow">{words.sayAloud}</p>
      <h2 class="desk-say" id="desk-say">
        {sayVerdict(flow, verdict)}
      </h2>
      <p class="desk-why">{words.noQuestion}</p>
      <AnswersView report={report} asked={remarks.asked} />
      <ThoughtView report={report} thought={remarks.thought} />
      {wanted && <SampleView flow={flow} branch={report.branch} wanted />}
      <PlanView report={report} sums={noSums} />
      <HouseholdView report={report} />
    </section>
  );
}

function sayBecause(flow: Flow, question: string, because: Because): string {
  const name = (id: string) => flow.condition(id)?.name ?? id;
  switch (because.kind) {
    case "separates": {
      const [first = "", ...others] = because.conditions.map(name);
      return `${words.separates(first, others.join(words.or))} ${saySettles(flow, question, because.settles)}`;
    }
    case "weighs":
      return `${words.weighs(name(because.condition))} ${saySettles(flow, question, because.settles)}`;
    case "checks":
      return words.checks(name(because.condition));
    default:
      return words.because[because.kind];
  }
}

function saySettles(flow: Flow, question: string, settles: Outcome | null): string {
  const option = flow.question(question)?.options.find(({ id }) => id === settles?.is);
  if (!option || settles?.leader == null) return "";
  return words.settles(option.label, flow.condition(settles.leader)?.name ?? settles.leader);
}
