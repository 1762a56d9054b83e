import type { Separation } from "../../../flows/desk/best-question.ts";
import type { DifferentialRow } from "../../../flows/desk/desk.ts";
import type { Flow } from "../../../flows/flow.ts";
import { ReasonsView } from "../reasons-view.tsx";
import type { DeskState } from "./desk-state.ts";
import type { DeskWays } from "./desk-ways.ts";
import * as words from "./desk-words.ts";

interface DifferentialViewProps {
  state: DeskState;
  ways: DeskWays;
}

/** Scale of the bars: a case that is clear weighs about this much, in decibans. */
const FULL = 40;
/** Candidates whose reasons stand in view; the others' unfold. */
const MOST_EXPLAINED = 2;

/** What the case could be, as it stands now. Rows have one height and hold still while they are pointed at. */
export function DifferentialView({ state, ways }: DifferentialViewProps) {
  const { flow, desk } = state;
  const { live } = ways;
  const places = live?.rows ?? desk.rows.map(({ condition: id }) => ({ id, isGone: false }));
  const holds = live && {
    onPointerMove: () => live.hold("rows", true),
    onPointerLeave: () => live.hold("rows", false),
  };
  return (
    <section class="desk-could" aria-labelledby="desk-could" {...holds}>
      <h2 class="desk-h2" id="desk-could">
        {words.differential}
      </h2>
      {places.length === 0 && <p class="desk-quiet">{words.nothingStands}</p>}
      <ol class="desk-rows">
        {places.map(({ id, isGone }) => (
          <RowView
            key={id}
            name={flow.condition(id)?.name ?? id}
            row={isGone ? undefined : desk.rows.find(({ condition }) => condition === id)}
          />
        ))}
      </ol>
      <ApartView flow={flow} separation={desk.separation} state={state} ways={ways} />
      {desk.rows.slice(0, MOST_EXPLAINED).map((row) => (
        <div class="desk-reasons" key={row.condition}>
          <h3 class="desk-h3">{flow.condition(row.condition)?.name}</h3>
          <ReasonsView flow={flow} candidate={row.candidate} level={4} />
        </div>
      ))}
      {desk.rows.slice(MOST_EXPLAINED).map((row) => (
        <details class="desk-fold" key={row.condition}>
          <summary>{flow.condition(row.condition)?.name}</summary>
          <ReasonsView flow={flow} candidate={row.candidate} level={4} />
        </details>
      ))}
    </section>
  );
}

function RowView({ name, row }: { name: string; row: DifferentialRow | undefined }) {
  if (row === undefined) {
    return (
      <li class="desk-row desk-gone">
        <span class="desk-name">{name}</span> <span class="desk-standing">{words.gone}</span>
      </li>
    );
  }
  const weight = Math.max(0, Math.min(FULL, row.weight));
  return (
    <li class={row.rank === 1 ? "desk-row desk-leader" : "desk-row"} data-condition={row.condition}>
      <span class="desk-name">{words.row(row.rank, name)}</span>
      <meter class="desk-meter" min={0} max={FULL} value={weight} aria-label={words.weight(name, row.weight)}>
        {row.weight}
      </meter>
      <span class="desk-standing">{sayStanding(row)}</span>
    </li>
  );
}

function sayStanding({ standing, isBeside, behind }: DifferentialRow): string {
  if (standing !== null) return words.standings[standing];
  return isBeside ? words.beside : words.behind(behind);
}

interface ApartViewProps extends DifferentialViewProps {
  flow: Flow;
  separation: Separation | null;
}

/** Which open question would tell the top two apart. */
function ApartView({ flow, separation, state, ways }: ApartViewProps) {
  const isSettled = state.desk.best === null && state.report.verdict.standing === "suspected";
  if (isSettled) return null;
  if (separation === null) {
    return state.desk.rows.length < 2 ? null : <p class="desk-quiet">{words.noneApart}</p>;
  }
  const { first, second, question, forFirst, forSecond } = separation;
  const name = (id: string) => flow.condition(id)?.name ?? id;
  const label = (is: string) => question.options.find(({ id }) => id === is)?.label ?? words.notSure;
  const key = ways.live ? state.desk.keys.keyOf.get(question.id) : undefined;
  return (
    <div class="desk-apart">
      <p>{words.apart(name(first), name(second))}</p>
      <p class="desk-apart-ask">
        {key && <kbd class="desk-key">{key}</kbd>} {question.prompt}
      </p>
      <p class="desk-quiet">
        {words.speaksFor(label(forFirst), name(first))}
        <br />
        {words.speaksFor(label(forSecond), name(second))}
      </p>
    </div>
  );
}
