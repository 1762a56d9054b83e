import type { Question } from "../../flows/edition.ts";
import { NOT_SURE } from "../../flows/flow.ts";
import { Prose } from "./prose.tsx";
import { follows, type Pair, submits, type Ways } from "./ways.ts";
import * as words from "./words.ts";

interface QuestionCardProps {
  question: Question;
  ways: Ways;
  /** Shown above the prompt: which question of the conversation this is. */
  number: number;
  /** The answer given before, when the question is reopened. */
  given?: string | undefined;
  reopened?: boolean | undefined;
}

/** One question as a form of radio buttons. "I'm not sure" is always the last of them. */
export function QuestionCard({ question, ways, number, given, reopened = false }: QuestionCardProps) {
  const many = question.options.length > 8;
  const { press, thumbs } = usesOf(question);
  const idOf = (option: string) => ways.id(`${question.id}-${option}`);
  return (
    <form
      class="lt-card"
      part="question"
      method="get"
      action={ways.action}
      data-lt={reopened ? "change" : "answer"}
      data-to={question.id}
      {...submits(ways)}
    >
      <Hidden pairs={ways.carried} />
      {reopened && <input type="hidden" name="change" value={question.id} />}
      <fieldset class="lt-fieldset">
        <legend class="lt-legend" id={ways.id("now")} tabindex={-1}>
          <span class="lt-eyebrow">{reopened ? words.changing : words.question(number)}</span>
          <span class="lt-prompt">{question.prompt}</span>
        </legend>
        <Asides question={question} ways={ways} />
        {press && (
          <>
            <p class="lt-hint">{words.pressHint}</p>
            <div class="lt-press">{ways.pictures?.press(question, idOf)}</div>
          </>
        )}
        <div class={many ? "lt-options lt-options-many" : "lt-options"}>
          {[...question.options, { id: NOT_SURE, label: words.notSure }].map((option) => (
            <label key={option.id} class="lt-option" part="option">
              <input
                type="radio"
                id={press ? idOf(option.id) : undefined}
                name={reopened ? "to" : question.id}
                value={option.id}
                checked={option.id === given}
                required
              />
              <span>{option.label}</span>
              {thumbs && <i class="lt-thumb">{ways.pictures?.option(question, option.id)}</i>}
            </label>
          ))}
        </div>
      </fieldset>
      <CardActions ways={ways} reopened={reopened} label={reopened ? words.saveAnswer : words.next} />
    </form>
  );
}

/** Where drawings go. Their places are kept from the start; a picture to press does the work of the small ones. */
function usesOf({ pictures = [] }: Question) {
  const press = pictures.includes("press");
  return { press, thumbs: !press && pictures.includes("options"), check: pictures.includes("check") };
}

/** Why we ask, how to check, and the answers in pictures, folded away until wanted. */
export function Asides({ question, ways }: { question: Question; ways: Ways }) {
  const { thumbs, check } = usesOf(question);
  return (
    <>
      {question.why !== "" && (
        <details class="lt-aside">
          <summary>{words.whyWeAsk}</summary>
          <p>{question.why}</p>
        </details>
      )}
      {question.howToCheck.length > 0 && (
        <details class="lt-aside">
          <summary>{words.howToCheck}</summary>
          {check && <div class="lt-shown">{ways.pictures?.check(question)}</div>}
          <Prose of={question.howToCheck} />
        </details>
      )}
      {thumbs && (
        <details class="lt-aside">
          <summary>{words.inPictures}</summary>
          {ways.pictures?.figures(question)}
        </details>
      )}
    </>
  );
}

export function Hidden({ pairs }: { pairs: readonly Pair[] }) {
  return (
    <>
      {pairs.map(([name, value]) => (
        <input type="hidden" name={name} value={value} />
      ))}
    </>
  );
}

interface CardActionsProps {
  ways: Ways;
  reopened: boolean;
  label: string;
}

export function CardActions({ ways, reopened, label }: CardActionsProps) {
  return (
    <div class="lt-actions">
      <button class="lt-button" part="button" type="submit">
        {label}
      </button>
      {reopened && (
        <a class="lt-link" href={ways.hrefToKeep} data-lt="keep" {...follows(ways)}>
          {words.keepAnswer}
        </a>
      )}
      {!reopened && ways.hrefBack !== null && (
        <a
          class="lt-link"
          href={ways.hrefBack}
          data-lt="back"
          aria-keyshortcuts={ways.onFollow && "Backspace"}
          {...follows(ways)}
        >
          {words.back}
        </a>
      )}
    </div>
  );
}
