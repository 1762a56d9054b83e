import { answerTo } from "../../../flows/case.ts";
import { groupOf } from "../../../flows/desk/groups.ts";
import type { DeskState } from "./desk-state.ts";
import type { DeskWays } from "./desk-ways.ts";
import * as words from "./desk-words.ts";
import { QuestionView } from "./question-view.tsx";

interface QuestionsViewProps {
  state: DeskState;
  ways: DeskWays;
}

/** Every other open question, by group, and below them all that a caller may tell unasked. */
export function QuestionsView({ state, ways }: QuestionsViewProps) {
  const { live } = ways;
  const holds = live && {
    onPointerMove: () => live.hold("questions", true),
    onPointerLeave: () => live.hold("questions", false),
  };
  return (
    <section class="desk-open" aria-labelledby="desk-open" {...holds}>
      <h2 class="desk-h2" id="desk-open">
        {words.open}
      </h2>
      <OpenList state={state} ways={ways} />
      <OthersView state={state} ways={ways} />
    </section>
  );
}

function OpenList({ state, ways }: QuestionsViewProps) {
  const { flow, desk, case: kase } = state;
  const ids = desk.open.flatMap(({ questions }) => questions.map(({ id }) => id));
  const places = ways.live?.questions ?? ids.map((id) => ({ id, isGone: false }));
  if (places.length === 0) return <p class="desk-quiet">{words.nothingOpen}</p>;
  const groups = places.map(({ id }) => groupOf(flow, id));
  return (
    <ul class="desk-list">
      {places.map(({ id, isGone }, i) => {
        const question = flow.question(id);
        const group = groups[i];
        return (
          question && (
            <li key={id} class={isGone ? "desk-item desk-gone" : "desk-item"}>
              {group !== undefined && group !== groups[i - 1] && (
                <p class="desk-eyebrow">{words.groups[group]}</p>
              )}
              <QuestionView
                question={question}
                ways={ways}
                keyed={ways.live ? (desk.keys.keyOf.get(id) ?? "") : ""}
                given={answerTo(kase, id)}
                isChosen={ways.live?.chosen === id}
              />
            </li>
          )
        );
      })}
    </ul>
  );
}

/** Questions that nothing asks for yet. Choosing one by its letter opens it. */
function OthersView({ state, ways }: QuestionsViewProps) {
  const { flow, desk } = state;
  const { live } = ways;
  const count = desk.others.reduce((sum, { questions }) => sum + questions.length, 0);
  const held = new Set(live?.questions.map(({ id }) => id));
  const chosen = live?.chosen ? flow.question(live.chosen) : undefined;
  const isOther = desk.others.some(({ questions }) => questions.some(({ id }) => id === chosen?.id));
  return (
    <>
      {chosen && isOther && (
        <QuestionView question={chosen} ways={ways} keyed={desk.keys.keyOf.get(chosen.id) ?? ""} isChosen />
      )}
      {count > 0 && (
        <details class="desk-fold">
          <summary>{words.others(count)}</summary>
          {desk.others.map(({ group, questions }) => (
            <div key={group}>
              <p class="desk-eyebrow">{words.groups[group]}</p>
              {questions
                .filter(({ id }) => !held.has(id) && id !== chosen?.id)
                .map((question) => (
                  <QuestionView
                    key={question.id}
                    question={question}
                    ways={ways}
                    keyed={live ? (desk.keys.keyOf.get(question.id) ?? "") : ""}
                  />
                ))}
            </div>
          ))}
        </details>
      )}
    </>
  );
}
