import { Hidden } from "../question-card.tsx";
import type { FailedTakeOver, GuessInWords } from "./desk-state.ts";
import type { DeskWays } from "./desk-ways.ts";
import * as words from "./desk-words.ts";

interface TakeOverViewProps {
  failed: FailedTakeOver | null;
  ways: DeskWays;
}

/** A code that a caller reads out. One that is not right is pointed at; the call in hand stays as it is. */
export function TakeOverView({ failed, ways }: TakeOverViewProps) {
  const { live } = ways;
  return (
    <div class="desk-take-over">
      <form class="desk-code-form" method="get" action={ways.action} {...(live && { onSubmit: live.onCode })}>
        {!live && <Hidden pairs={ways.carried} />}
        <label class="desk-label" for="desk-open-code">
          {words.codeField}
        </label>
        <p class="desk-quiet" id="desk-code-hint">
          {words.codeHint}
        </p>
        <div class="desk-actions">
          <input
            class="lt-input desk-input desk-code-input"
            id="desk-open-code"
            type="text"
            name="code"
            value={failed?.typed ?? ""}
            maxlength={200}
            autocomplete="off"
            autocapitalize="characters"
            spellcheck={false}
            aria-describedby={failed ? "desk-code-problem" : "desk-code-hint"}
            aria-invalid={failed ? "true" : undefined}
          />
          <button class="desk-button" type="submit">
            {words.openCode}
          </button>
        </div>
      </form>
      {failed && <CodeProblem failed={failed} ways={ways} />}
    </div>
  );
}

function CodeProblem({ failed, ways }: TakeOverViewProps & { failed: FailedTakeOver }) {
  const { live } = ways;
  return (
    <div class="desk-problem">
      <p class="lt-problem" id="desk-code-problem">
        {failed.sentences.join(" ")} {words.codeKept}
      </p>
      {failed.guesses.length > 0 && <p>{words.guesses}</p>}
      <GuessesView guesses={failed.guesses} hrefTo={ways.hrefToCode} open={live?.openCode} />
    </div>
  );
}

interface GuessesViewProps {
  guesses: readonly GuessInWords[];
  hrefTo(code: string): string;
  /** Opens a code in place, where a script can. */
  open?: ((code: string) => void) | undefined;
}

/** Codes that may have been meant, each with the case it leads to. */
export function GuessesView({ guesses, hrefTo, open }: GuessesViewProps) {
  if (guesses.length === 0) return null;
  const follow = (code: string) => (event: Event) => {
    event.preventDefault();
    open?.(code);
  };
  return (
    <ul class="lt-guesses">
      {guesses.map(({ code, slip, about }) => (
        <li key={code}>
          <a class="lt-guess" href={hrefTo(code)} {...(open && { onClick: follow(code) })}>
            <strong class="lt-guess-code">{code}</strong> {slip}: {about}
          </a>
        </li>
      ))}
    </ul>
  );
}
