import type { Child } from "hono/jsx";
import type { AnswerInWords } from "./describe-answer.ts";
import { follows, type Ways } from "./ways.ts";
import * as words from "./words.ts";

interface TranscriptProps {
  answers: readonly AnswerInWords[];
  ways: Ways;
  /** The reopened question, shown in the place of its line. */
  reopened?: { to: string; card: Child } | undefined;
  /**
   * Makes it a live region, which must be in place before the first answer. It is silent while a line is reopened, so
   * that the card is read once only, by the focus that moves to it.
   */
  live?: boolean | undefined;
  /** What else belongs into the log. */
  children?: Child;
}

/** The answers so far, one line each; a line can be reopened and changed in place. */
export function Transcript({ answers, ways, reopened, live = false, children }: TranscriptProps) {
  if (answers.length === 0 && !live) return null;
  return (
    <section class="lt-transcript" part="transcript">
      {answers.length > 0 && <h2 class="lt-eyebrow">{words.soFar}</h2>}
      <div
        {...(live
          ? { role: "log", "aria-live": reopened ? "off" : "polite", "aria-label": words.soFar }
          : {})}
      >
        <ol class="lt-lines" role={answers.length > 0 ? undefined : "none"}>
          {answers.map((line) =>
            line.to === reopened?.to ? (
              <li key={line.to} class="lt-line-open">
                {reopened.card}
              </li>
            ) : (
              <AnsweredLine key={line.to} line={line} ways={ways} />
            ),
          )}
        </ol>
        {children}
      </div>
    </section>
  );
}

function AnsweredLine({ line, ways }: { line: AnswerInWords; ways: Ways }) {
  return (
    <li class="lt-line" part="answer">
      <span class="lt-line-text">
        <span class="lt-line-prompt">{line.prompt}</span> <span class="lt-line-answer">{line.answer}</span>
      </span>
      <a
        class="lt-link lt-change"
        href={ways.hrefToChange(line.to)}
        data-lt="change"
        data-to={line.to}
        aria-label={words.changeThis(line.prompt)}
        {...follows(ways)}
      >
        {words.change}
      </a>
    </li>
  );
}
