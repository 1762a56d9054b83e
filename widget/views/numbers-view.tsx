import type { Child } from "hono/jsx";
import { usualBottle } from "../../flows/amounts/mix.ts";
import { bottleUnits, formatQuantity } from "../../flows/amounts/units.ts";
import { DEFAULT_ROOM_CELSIUS, nameRoom } from "../../flows/calendar/room.ts";
import type { NumberName } from "../../flows/case-link.ts";
import { unitSystems } from "../../flows/edition.ts";
import type { Figures, MixLine } from "../check/make-figures.ts";
import { nameDay } from "./name-day.ts";
import { Hidden } from "./question-card.tsx";
import * as words from "./sum-words.ts";
import { submits, type Ways } from "./ways.ts";

interface FormProps {
  ways: Ways;
  /** Id of the form and of the place its answer stands. */
  name: string;
  /** The numbers that this form asks for; all others are carried along. */
  asks: readonly NumberName[];
  children: Child;
}

/** A form that changes some numbers and keeps all else. */
export function NumbersForm({ ways, name, asks, children }: FormProps) {
  const carried = ways.carried.filter(([key]) => !(asks as readonly string[]).includes(key));
  return (
    <form
      class="lt-numbers-form"
      method="get"
      action={ways.actionAt(name)}
      data-lt="numbers"
      {...submits(ways)}
    >
      <Hidden pairs={carried} />
      {children}
      <div class="lt-actions">
        <button class="lt-button lt-button-plain" type="submit">
          {words.work}
        </button>
      </div>
    </form>
  );
}

interface NumberFieldProps {
  ways: Ways;
  name: NumberName;
  label: string;
  value: string | undefined;
  hint?: string;
  problem?: string | null;
}

/** A field for a number: what was typed stays in it, with the sentence on what is wrong. */
export function NumberField({ ways, name, label, value, hint, problem = null }: NumberFieldProps) {
  const notes = [problem && ways.id(`${name}-problem`), hint && ways.id(`${name}-hint`)].filter(Boolean);
  return (
    <div class="lt-field">
      <label class="lt-label" for={ways.id(name)}>
        {label}
      </label>
      {hint && (
        <p class="lt-hint" id={ways.id(`${name}-hint`)}>
          {hint}
        </p>
      )}
      {problem && (
        <p class="lt-problem" id={ways.id(`${name}-problem`)}>
          {problem}
        </p>
      )}
      <input
        class="lt-input lt-number"
        type="text"
        inputmode="decimal"
        name={name}
        id={ways.id(name)}
        value={value ?? ""}
        maxlength={40}
        autocomplete="off"
        aria-describedby={notes.length > 0 ? notes.join(" ") : undefined}
        aria-invalid={problem ? "true" : undefined}
      />
    </div>
  );
}

/** Units, room, first day and bottle: told once, used everywhere on the page. */
export function NumbersView({ figures, ways }: { figures: Figures; ways: Ways }) {
  const { typed, system, room, start, bottle } = figures;
  const problems = [room, start, bottle].some(({ problem }) => problem !== null);
  const usual = nameRoom(DEFAULT_ROOM_CELSIUS, system);
  return (
    <details class="lt-aside lt-numbers" id={ways.id("numbers")} open={problems}>
      <summary>
        {words.yourNumbers}: {words.systems[system]}, {nameRoom(room.value, system)},{" "}
        {nameDay(start.value, system)}
      </summary>
      <p class="lt-hint">{words.numbersHint}</p>
      <NumbersForm ways={ways} name="numbers" asks={["units", "room", "start", "bottle", "bottle-unit"]}>
        <div class="lt-fields">
          <Choice
            {...{ ways, name: "units", label: words.units, value: system }}
            options={unitSystems.map((one) => [one, words.systems[one]])}
          />
          <NumberField
            {...{ ways, name: "room", label: words.room, problem: room.problem }}
            value={typed.room}
            hint={words.without(usual)}
          />
          <div class="lt-field">
            <label class="lt-label" for={ways.id("start")}>
              {words.start}
            </label>
            {start.problem && <p class="lt-problem">{start.problem}</p>}
            <input class="lt-input" type="date" name="start" id={ways.id("start")} value={start.value} />
          </div>
          <NumberField
            {...{ ways, name: "bottle", label: words.bottle, problem: bottle.problem }}
            value={typed.bottle}
            hint={words.without(formatQuantity(usualBottle(system), figures.locale))}
          />
          <Choice
            {...{ ways, name: "bottle-unit", label: words.bottleUnit }}
            value={typed["bottle-unit"] ?? (system === "us" ? "fl-oz" : "ml")}
            options={bottleUnits.map((unit) => [unit, words.bottleUnits[unit]])}
          />
        </div>
      </NumbersForm>
    </details>
  );
}

interface OwnBottleProps {
  ways: Ways;
  /** Remedy id. */
  step: string;
  line: MixLine;
  figures: Figures;
}

/** A bottle for one product type alone. */
export function OwnBottleView({ ways: given, step, line: { product, bottle }, figures }: OwnBottleProps) {
  const { typed } = figures;
  const form = `${step}-${product}`;
  // One product may be mixed for two steps.
  const ways = { ...given, id: (name: string) => given.id(`${form}-${name}`) };
  const names = [`bottle.${product}`, `bottle-unit.${product}`] as const;
  const own = typed[names[0]];
  return (
    <details class="lt-aside lt-own-bottle" id={given.id(form)} open={own !== undefined}>
      <summary>{words.ownBottle}</summary>
      <NumbersForm ways={given} name={form} asks={names}>
        <div class="lt-fields">
          <NumberField
            {...{ ways, name: names[0], label: words.ownBottleSize }}
            value={own}
            problem={own === undefined ? null : bottle.problem}
            hint={words.without(formatQuantity(figures.bottle.value, figures.locale))}
          />
          <Choice
            {...{ ways, name: names[1], label: words.ownBottleUnit }}
            value={typed[names[1]] ?? bottle.value.unit}
            options={bottleUnits.map((unit) => [unit, words.bottleUnits[unit]])}
          />
        </div>
      </NumbersForm>
    </details>
  );
}

interface ChoiceProps {
  ways: Ways;
  name: NumberName;
  label: string;
  value: string;
  options: readonly (readonly [value: string, label: string])[];
}

function Choice({ ways, name, label, value, options }: ChoiceProps) {
  return (
    <div class="lt-field">
      <label class="lt-label" for={ways.id(name)}>
        {label}
      </label>
      <select class="lt-input" name={name} id={ways.id(name)}>
        {options.map(([option, text]) => (
          <option value={option} selected={option === value}>
            {text}
          </option>
        ))}
      </select>
    </div>
  );
}
