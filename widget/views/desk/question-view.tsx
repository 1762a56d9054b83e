import { NOT_SURE_KEY, optionKey } from "../../../flows/desk/keys.ts";
import type { Question } from "../../../flows/edition.ts";
import { NOT_SURE } from "../../../flows/flow.ts";
import { type DeskWays, onPress } from "./desk-ways.ts";
import * as words from "./desk-words.ts";

interface QuestionViewProps {
  question: Question;
  ways: DeskWays;
  /** Presses that choose the question; empty when a digit alone answers it. */
  keyed: string;
  given?: string | undefined;
  isChosen?: boolean;
  /** The prompt is said elsewhere. */
  isBest?: boolean;
}

/** A question with all its answers in view. With a script an answer is a button, without one a radio button. */
export function QuestionView(props: QuestionViewProps) {
  const { question, keyed, isChosen = false, isBest = false } = props;
  return (
    <fieldset class={isChosen ? "desk-question desk-chosen" : "desk-question"} data-question={question.id}>
      <legend class={isBest ? "desk-legend lt-unseen" : "desk-legend"}>
        <Key of={keyed} /> {question.prompt}
      </legend>
      {question.kind === "host" ? <PlantField {...props} /> : <Options {...props} />}
    </fieldset>
  );
}

/** The keys to press, shown where a script listens for them. */
function Key({ of }: { of: string }) {
  return of === "" ? null : <kbd class="desk-key">{of}</kbd>;
}

function Options({ question, ways, keyed, given, isBest }: QuestionViewProps) {
  const options = question.options.map(({ id, label }, place) => ({ id, label, key: optionKey(place) }));
  const all = [...options, { id: NOT_SURE, label: words.notSure, key: NOT_SURE_KEY }];
  // Only digits answer the best question without its letter.
  const keyOf = (key: string) => (isBest && /\d/.test(key) ? key : keyed + key);
  return (
    <ul class="desk-options">
      {all.map(({ id, label, key }) => (
        <li key={id}>
          <OptionView {...{ ways, to: question.id, id, label }} keyed={keyOf(key)} isGiven={id === given} />
        </li>
      ))}
    </ul>
  );
}

interface OptionViewProps {
  ways: DeskWays;
  to: string;
  id: string;
  label: string;
  keyed: string;
  isGiven: boolean;
}

function OptionView({ ways, to, id, label, keyed, isGiven }: OptionViewProps) {
  const { live } = ways;
  if (!live) {
    return (
      <label class="desk-option">
        <input type="radio" name={to} value={id} checked={isGiven} />
        <span>{label}</span>
      </label>
    );
  }
  return (
    <button
      class="desk-option"
      type="button"
      data-answer={`${to}=${id}`}
      aria-pressed={isGiven ? "true" : undefined}
      {...onPress(() => live.answer(to, id))}
    >
      <Key of={keyed} /> <span>{label}</span>
    </button>
  );
}

function PlantField({ question, ways, keyed }: QuestionViewProps) {
  const { live } = ways;
  const field = (
    <>
      <label class="desk-label" for="desk-plant">
        {words.plantField}
      </label>
      <input
        class="lt-input desk-input"
        id="desk-plant"
        name="plant"
        type="text"
        maxlength={80}
        autocomplete="off"
      />
    </>
  );
  if (!live) {
    return (
      <div class="desk-plant">
        {field}
        <label class="desk-option">
          <input type="radio" name={question.id} value={NOT_SURE} />
          <span>{words.unknownPlant}</span>
        </label>
      </div>
    );
  }
  return (
    <form class="desk-plant" onSubmit={live.onPlant}>
      {field}
      <button class="desk-button" type="submit">
        {words.setPlant}
      </button>
      <OptionView
        {...{ ways, to: question.id, id: NOT_SURE, label: words.unknownPlant, isGiven: false }}
        keyed={`${keyed}${NOT_SURE_KEY}`}
      />
    </form>
  );
}
