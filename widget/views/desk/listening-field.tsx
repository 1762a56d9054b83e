import { describeAnswer } from "../describe-answer.ts";
import type { DeskState } from "./desk-state.ts";
import { type DeskWays, type LiveDesk, onPress } from "./desk-ways.ts";
import * as words from "./desk-words.ts";

/** The only place where keys do something: a plain text field, so that no key of browser or screen reader is taken. */
export function ListeningField({ ways, state }: { ways: DeskWays; state: DeskState }) {
  const { live } = ways;
  if (!live) return null;
  const { found, at } = live;
  return (
    <div class="desk-listen">
      <div class="desk-listen-row">
        <label class="desk-label" for="desk-keys">
          {words.fieldLabel}
        </label>
        <input
          class="lt-input desk-input desk-keys"
          id="desk-keys"
          type="text"
          autocomplete="off"
          autocapitalize="none"
          spellcheck={false}
          role="combobox"
          aria-expanded={found.length > 0 ? "true" : "false"}
          aria-controls="desk-found"
          aria-autocomplete="list"
          aria-activedescendant={found[at] ? `desk-found-${at}` : undefined}
          aria-describedby="desk-keys-hint"
          onInput={live.onType}
          onKeyDown={live.onKey}
        />
        <button class="desk-small" type="button" {...onPress(() => live.beginWords())}>
          <kbd class="desk-key">/</kbd> {words.inWords}
        </button>
        <button class="desk-small" type="button" {...onPress(() => live.show("hand-over"))}>
          <kbd class="desk-key">.</kbd> {words.handOver}
        </button>
        <button class="desk-small" type="button" {...onPress(() => live.show("take-over"))}>
          <kbd class="desk-key">,</kbd> {words.takeOver}
        </button>
        <button class="desk-small" type="button" {...onPress(() => live.show("keys"))}>
          <kbd class="desk-key">?</kbd> {words.keys}
        </button>
      </div>
      <p class="desk-quiet" id="desk-keys-hint">
        {live.hint || words.fieldHint}
      </p>
      <FoundList live={live} state={state} />
      <p class="desk-said" role="status">
        {live.said}
      </p>
    </div>
  );
}

function FoundList({ live, state }: { live: LiveDesk; state: DeskState }) {
  return (
    <div class="desk-found" id="desk-found" role="listbox" aria-label={words.suggestions}>
      {live.found.map((answer, i) => {
        const { prompt, answer: label } = describeAnswer(state.flow, answer);
        return (
          // biome-ignore lint/a11y/useFocusableInteractive: the focus stays in the field, which names the active option
          <div
            key={`${answer.to}=${answer.is}`}
            class={i === live.at ? "desk-option desk-at" : "desk-option"}
            id={`desk-found-${i}`}
            role="option"
            aria-selected={i === live.at ? "true" : "false"}
            {...onPress(() => live.answer(answer.to, answer.is))}
          >
            <strong>{label}</strong> <span class="desk-quiet">{prompt}</span>
          </div>
        );
      })}
    </div>
  );
}

export function KeysView() {
  return (
    <>
      <p class="desk-quiet">{words.keysHint}</p>
      <dl class="desk-keylist">
        {words.keyList.map(([key, does]) => (
          <div key={key}>
            <dt>
              <kbd class="desk-key">{key}</kbd>
            </dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}
