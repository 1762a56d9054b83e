import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import { answerTo, isDayId } from "../../flows/case.ts";
import type { Question } from "../../flows/edition.ts";
import { HostQuestion } from "../views/host-question.tsx";
import { QuestionCard } from "../views/question-card.tsx";
import { follows, type Ways } from "../views/ways.ts";
import * as words from "../views/words.ts";
import type { CheckState } from "./decide.ts";

interface CardProps {
  state: CheckState;
  question: Question;
  ways: Ways;
}

/** The card of a question, whichever kind it is. */
export function Card({ state, question, ways: given }: CardProps) {
  const { flow, case: kase, search, looking } = state;
  const ways = looking === null ? given : noteLook(given, looking);
  const reopened = state.reopened !== null;
  const number = kase.answers.filter(({ to }) => !isDayId(to)).length + 1;
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

/** The answer to a look goes with its day. */
function noteLook(ways: Ways, day: CivilDate): Ways {
  return { ...ways, carried: [...ways.carried.filter(([name]) => name !== "looked"), ["looked", day]] };
}

/** The way past a look that nobody asked for. */
export function PlanLink({ state, ways }: Pick<CardProps, "state" | "ways">) {
  return (
    <p>
      {state.byCode && `${words.treated} `}
      <a class="lt-link" href={ways.hrefToKeep} data-lt="look" {...follows(ways)}>
        {words.showPlan}
      </a>
    </p>
  );
}
