import type { Child } from "hono/jsx";
import { remarkNames } from "../../flows/case-link.ts";
import type { Flow } from "../../flows/flow.ts";
import type { Chip, HalfTold, Proposal } from "../../flows/understand/propose.ts";
import type { Typed } from "../check/read-request.ts";
import { Hidden } from "./question-card.tsx";
import { sayChip } from "./say-chip.ts";
import * as words from "./say-words.ts";
import { follows, submits, type Ways } from "./ways.ts";

interface SayViewProps {
  flow: Flow;
  proposal: Proposal;
  /** What was told beside the case before. */
  state: { typed: Typed };
  ways: Ways;
}

/** What was understood of something typed, as boxes with ticks that can be taken away. Agreeing gives it as answers. */
export function SayView({ flow, proposal, state, ways }: SayViewProps) {
  const { reply, plants, present, absent, home, halfTold, theories, asks, rest } = proposal;
  const chips = [...(reply ? [reply] : []), ...plants, ...present, ...absent, ...home];
  const heard = chips.length + halfTold.length + theories.length + asks.length > 0;
  const meant = theories.filter(({ denied }) => !denied);
  return (
    <form
      class="lt-card"
      part="question"
      method="get"
      action={ways.action}
      data-lt="answer"
      {...submits(ways)}
    >
      <Hidden pairs={ways.carried.filter(([name]) => !replaces(name, proposal))} />
      <Hidden
        pairs={remarkNames.flatMap((name) => (state.typed[name] ? [[name, state.typed[name]] as const] : []))}
      />
      <h2 class="lt-legend" id={ways.id("now")} tabindex={-1}>
        <span class="lt-prompt">{heard ? words.isThatRight : words.nothingHeard}</span>
      </h2>
      {heard && <p class="lt-hint">{words.untick}</p>}
      {reply && <Group title={words.yourReply} chips={[reply]} {...{ flow }} />}
      <Plants {...{ flow, plants, ways }} />
      <Group title={words.youSee} chips={present} flow={flow} />
      <Group title={words.youDoNotSee} chips={absent} flow={flow} />
      <Group title={words.yourHome} chips={home} flow={flow} />
      {halfTold.map((told) => (
        <HalfToldView told={told} />
      ))}
      {meant.length > 0 && (
        <Choices title={words.yourIdea} hint={words.ideaHint}>
          {meant.map(({ conditions, said }) => (
            <Tick
              name="thought"
              value={conditions.join(".")}
              label={words.perhaps(nameAll(flow, conditions))}
              note={words.from(said)}
            />
          ))}
        </Choices>
      )}
      {theories.flatMap(({ conditions, denied }) =>
        denied ? <p class="lt-hint">{words.ruledOut(nameAll(flow, conditions))}</p> : [],
      )}
      {asks.length > 0 && (
        <Choices title={words.yourQuestions} hint={words.questionsHint}>
          {asks.map((ask) => (
            <Tick name="asked" value={ask} label={words.asked[ask]} />
          ))}
        </Choices>
      )}
      <Rest rest={rest} cut={proposal.cut} />
      <div class="lt-actions">
        <button class="lt-button" part="button" type="submit">
          {heard ? words.agree : words.goOn}
        </button>
        {heard && (
          <a class="lt-link" href={ways.hrefToKeep} data-lt="keep" {...follows(ways)}>
            {words.without}
          </a>
        )}
      </div>
    </form>
  );
}

/** A plant that was "not sure" before is named now. */
function replaces(name: string, { plants }: Proposal): boolean {
  return plants.some(({ to }) => to === name);
}

function nameAll(flow: Flow, conditions: readonly string[]): string {
  return conditions.flatMap((id) => flow.condition(id)?.name ?? []).join(", ");
}

function Plants({ flow, plants, ways }: { flow: Flow; plants: readonly Chip[]; ways: Ways }) {
  if (plants.length < 2) return <Group title={words.yourPlant} chips={plants} flow={flow} />;
  return (
    <Choices title={words.whichPlant}>
      {[...plants.map((chip) => [chip.is, sayChip(flow, chip)] as const), ["", words.notThese] as const].map(
        ([is, label], at) => (
          <Radio
            name={plants[0]?.to ?? ""}
            value={is}
            label={label}
            checked={at === 0}
            id={ways.id(`plant-${at}`)}
          />
        ),
      )}
    </Choices>
  );
}

function HalfToldView({ told: { question, fits, said } }: { told: HalfTold }) {
  const options = question.options.filter(({ id }) => fits.includes(id));
  return (
    <Choices title={question.prompt} hint={words.from(said)}>
      {[...options, { id: "", label: words.askLater }].map(({ id, label }) => (
        <Radio name={question.id} value={id} label={label} checked={id === ""} />
      ))}
    </Choices>
  );
}

function Group({ title, chips, flow }: { title: string; chips: readonly Chip[]; flow: Flow }) {
  if (chips.length === 0) return null;
  return (
    <Choices title={title}>
      {chips.map((chip) => (
        <Tick
          name={chip.to}
          value={chip.is}
          label={sayChip(flow, chip)}
          note={chip.unsure ? `${words.from(chip.said)} ${words.unsure}` : words.from(chip.said)}
        />
      ))}
    </Choices>
  );
}

function Choices({ title, hint, children }: { title: string; hint?: string; children?: Child }) {
  return (
    <div class="lt-field">
      <fieldset class="lt-fieldset">
        <legend class="lt-label">{title}</legend>
        {hint !== undefined && <p class="lt-hint">{hint}</p>}
        <div class="lt-options">{children}</div>
      </fieldset>
    </div>
  );
}

interface TickProps {
  name: string;
  value: string;
  label: string;
  note?: string;
}

function Tick({ name, value, label, note }: TickProps) {
  return (
    <label class="lt-option" part="option">
      <input type="checkbox" name={name} value={value} checked />
      <span>
        {label}
        {note !== undefined && <small> {note}</small>}
      </span>
    </label>
  );
}

function Radio({
  name,
  value,
  label,
  checked,
  id,
}: Omit<TickProps, "note"> & { checked: boolean; id?: string }) {
  return (
    <label class="lt-option" part="option">
      <input type="radio" {...{ name, value, checked, id }} />
      <span>{label}</span>
    </label>
  );
}

function Rest({ rest, cut }: { rest: readonly string[]; cut: boolean }) {
  return (
    <>
      {rest.length > 0 && (
        <div class="lt-field">
          <p class="lt-hint">{words.rest}</p>
          <ul>
            {rest.map((piece) => (
              <li>“{piece}”</li>
            ))}
          </ul>
        </div>
      )}
      {cut && <p class="lt-hint">{words.cut}</p>}
    </>
  );
}
