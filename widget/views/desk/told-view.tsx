import { describeAnswers } from "../describe-answer.ts";
import type { DeskState } from "./desk-state.ts";
import { type DeskWays, onPress } from "./desk-ways.ts";
import * as words from "./desk-words.ts";

/** What the caller has told, each answer to be taken back. */
export function ToldView({ state, ways }: { state: DeskState; ways: DeskWays }) {
  const told = describeAnswers(state.flow, state.case);
  const { live } = ways;
  return (
    <section class="desk-told" aria-labelledby="desk-told">
      <h2 class="desk-h2" id="desk-told">
        {words.told}
      </h2>
      {told.length === 0 && <p class="desk-quiet">{words.nothingTold}</p>}
      <ol class="desk-lines">
        {told.map(({ to, prompt, answer }) => (
          <li class="desk-line" key={to}>
            <span>
              <span class="desk-quiet">{prompt}</span> <strong>{answer}</strong>
            </span>
            {live ? (
              <button
                class="desk-small"
                type="button"
                aria-label={words.takeBackThis(prompt)}
                {...onPress(() => live.takeBack(to))}
              >
                {words.takeBack}
              </button>
            ) : (
              <a class="desk-small" href={ways.hrefWithout(to)} aria-label={words.takeBackThis(prompt)}>
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
