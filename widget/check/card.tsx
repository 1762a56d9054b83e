import { answerTo } from "../../flows/case.ts";
import type { Question } from "../../flows/edition.ts";
import { HostQuestion } from "../views/host-question.tsx";
import { QuestionCard } from "../views/question-card.tsx";
import type { Ways } from "../views/ways.ts";
import type { CheckState } from "./decide.ts";

interface CardProps {
  state: CheckState;
  question: Question;
  ways: Ways;
}

/** The card of a question, whichever kind it is. */
export function Card({ state, question, ways }: CardProps) {
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
