import type { Host, Question } from "../../flows/edition.ts";
import { NOT_SURE } from "../../flows/flow.ts";
import { Asides, CardActions, Hidden } from "./question-card.tsx";
import { submits, type Ways } from "./ways.ts";
import * as words from "./words.ts";

/** What came of looking for the name that was typed. */
export interface HostSearch {
  typed: string;
  /** Best first; empty when nothing is near. */
  found: readonly Host[];
}

interface HostQuestionProps {
  question: Question;
  hosts: readonly Host[];
  ways: Ways;
  number: number;
  search?: HostSearch | undefined;
  reopened?: boolean | undefined;
}

/** Which plant it is: typed, then picked from near matches where the name is not clear. Never a dead end. */
export function HostQuestion(props: HostQuestionProps) {
  const { search, ways, question, reopened = false } = props;
  return (
    <div class="lt-card" part="question">
      {search !== undefined && search.found.length > 0 ? (
        <PickForm {...props} search={search} />
      ) : (
        <TypeForm {...props} />
      )}
      <form
        class="lt-unknown"
        method="get"
        action={ways.action}
        data-lt={reopened ? "change" : "answer"}
        data-to={question.id}
        {...submits(ways)}
      >
        <Hidden pairs={ways.carried} />
        {reopened && <input type="hidden" name="change" value={question.id} />}
        <input type="hidden" name={reopened ? "to" : question.id} value={NOT_SURE} />
        <button class="lt-button lt-button-plain" part="button" type="submit">
          {search === undefined ? words.plantUnknown : words.goOnWithout}
        </button>
      </form>
    </div>
  );
}

function Heading({ number, reopened, text }: { number: number; reopened: boolean; text: string }) {
  return (
    <>
      <span class="lt-eyebrow">{reopened ? words.changing : words.question(number)}</span>
      <span class="lt-prompt">{text}</span>
    </>
  );
}

function TypeForm({ question, hosts, ways, number, search, reopened = false }: HostQuestionProps) {
  const unknown = search !== undefined;
  return (
    <form method="get" action={ways.action} data-lt="plant" data-to={question.id} {...submits(ways)}>
      <Hidden pairs={ways.carried} />
      {reopened && <input type="hidden" name="change" value={question.id} />}
      <h2 class="lt-legend" id={ways.id("now")} tabindex={-1}>
        <Heading number={number} reopened={reopened} text={question.prompt} />
      </h2>
      <Asides question={question} ways={ways} />
      {unknown && (
        <p class="lt-problem" id={ways.id("plant-problem")}>
          {words.typedUnknown(search.typed)}
        </p>
      )}
      <div class="lt-field">
        <label class="lt-label" for={ways.id("plant")}>
          {words.plantName}
        </label>
        <p class="lt-hint" id={ways.id("plant-hint")}>
          {words.plantHint}
        </p>
        <input
          class="lt-input"
          type="text"
          name="plant"
          id={ways.id("plant")}
          list={ways.id("plants")}
          value={search?.typed ?? ""}
          maxlength={80}
          required
          autocomplete="off"
          autocapitalize="none"
          aria-describedby={
            unknown ? `${ways.id("plant-problem")} ${ways.id("plant-hint")}` : ways.id("plant-hint")
          }
          aria-invalid={unknown ? "true" : undefined}
        />
        <datalist id={ways.id("plants")}>
          {hosts.map((host) => (
            <option value={host.name} />
          ))}
        </datalist>
      </div>
      <CardActions ways={ways} reopened={reopened} label={words.findPlant} />
    </form>
  );
}

function PickForm({
  question,
  ways,
  number,
  search,
  reopened = false,
}: HostQuestionProps & { search: HostSearch }) {
  return (
    <form
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
          <Heading number={number} reopened={reopened} text={words.didYouMean(search.typed)} />
        </legend>
        <div class="lt-options">
          {search.found.map((host) => (
            <label class="lt-option">
              <input type="radio" name={reopened ? "to" : question.id} value={host.id} required />
              <span>
                {host.name}
                {host.botanical !== null && <i class="lt-botanical"> {host.botanical}</i>}
              </span>
            </label>
          ))}
          <label class="lt-option">
            <input type="radio" name={reopened ? "to" : question.id} value="" required />
            <span>{words.noneOfThese}</span>
          </label>
        </div>
      </fieldset>
      <CardActions ways={ways} reopened={reopened} label={words.thisPlant} />
    </form>
  );
}
