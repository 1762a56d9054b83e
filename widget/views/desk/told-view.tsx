import { type RemarkName, readIds } from "../../../flows/case-link.ts";
import { askIds } from "../../../flows/edition.ts";
import { describeAnswers } from "../describe-answer.ts";
import { asked as questions } from "../say-words.ts";
import type { DeskState } from "./desk-state.ts";
import { type DeskWays, onPress } from "./desk-ways.ts";
import * as words from "./desk-words.ts";

/** What the caller has told, each answer to be taken back. */
export function ToldView({ state, ways }: { state: DeskState; ways: DeskWays }) {
  const told = [
    ...describeAnswers(state.flow, state.case).map(({ to, prompt, answer }) => ({
      key: to,
      prompt,
      answer,
      href: ways.hrefWithout(to),
      takeBack: () => ways.live?.takeBack(to),
    })),
    ...describeRemarks(state).map(({ name, id, prompt, answer }) => ({
      key: `${name} ${id}`,
      prompt,
      answer,
      href: ways.hrefWithoutRemark(name, id),
      takeBack: () => ways.live?.takeBackRemark(name, id),
    })),
  ];
  const { live } = ways;
  return (
    <section class="desk-told" aria-labelledby="desk-told">
      <h2 class="desk-h2" id="desk-told">
        {words.told}
      </h2>
      {told.length === 0 && <p class="desk-quiet">{words.nothingTold}</p>}
      <ol class="desk-lines">
        {told.map(({ key, prompt, answer, href, takeBack }) => (
          <li class="desk-line" key={key}>
            <span>
              <span class="desk-quiet">{prompt}</span> <strong>{answer}</strong>
            </span>
            {live ? (
              <button
                class="desk-small"
                type="button"
                aria-label={words.takeBackThis(prompt)}
                {...onPress(takeBack)}
              >
                {words.takeBack}
              </button>
            ) : (
              <a class="desk-small" href={href} aria-label={words.takeBackThis(prompt)}>
                {words.takeBack}
              </a>
            )}
          </li>
        ))}
      </ol>
      {live
        ? told.length > 0 && (
            <button class="desk-small" type="button" {...onPress(() => live.undo())}>
              <kbd class="desk-key">⌫</kbd> {words.undo}
            </button>
          )
        : ways.hrefBack && (
            <a class="desk-small" href={ways.hrefBack}>
              {words.undo}
            </a>
          )}
    </section>
  );
}

interface RemarkInWords {
  name: RemarkName;
  id: string;
  prompt: string;
  answer: string;
}

/** The caller's own ideas and questions. They weigh nothing, and go along to the verdict. */
function describeRemarks({ flow, remarks }: DeskState): RemarkInWords[] {
  const ideas = readIds(remarks.thought).flatMap((id) => {
    const condition = flow.condition(id);
    return condition
      ? [{ name: "thought" as const, id, prompt: words.ideaTold, answer: condition.name }]
      : [];
  });
  const asks = readIds(remarks.asked).flatMap((id) => {
    const ask = askIds.find((one) => one === id);
    return ask ? [{ name: "asked" as const, id, prompt: words.askTold, answer: questions[ask] }] : [];
  });
  return [...ideas, ...asks];
}
