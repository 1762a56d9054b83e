import type { Child } from "hono/jsx";
import type { AnswerInWords } from "./describe-answer.ts";
import { follows, type Ways } from "./ways.ts";
import { words } from "./words.ts";

interface TranscriptProps {
  answers: readonly AnswerInWords[];
  ways: Ways;
  /** The reopened question, shown in the place of its line. */
  reopened?: { to: string; card: Child } | undefined;
}

/** The answers so far, one line each; a line can be reopened and changed in place. */
export function Transcript({ answers, ways, reopened }: TranscriptProps) {
  if (answers.length === 0) return null;
  return (
    <section class="lt-transcript" part="transcript" aria-labelledby={ways.id("so-far")}>
      <h2 class="lt-eyebrow" id={ways.id("so-far")}>
        {words.soFar}
      </h2>
      <ol class="lt-lines">
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
    </section>
  );
}

function AnsweredLine({ line, ways }: { line: AnswerInWords; ways: Ways }) {
  return (
    <li class="lt-line">
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
