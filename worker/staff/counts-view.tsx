import type { CivilDate } from "../../flows/calendar/civil-date.ts";
import { type Standing, standings } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import type { Sum } from "../counts/read-counts.ts";
import type { CountName } from "../counts/visit.ts";
import { figuresWords } from "./figures-words.ts";
import { sayDay } from "./say-day.ts";
import { sayShare } from "./say-share.ts";
import { Table } from "./table.tsx";

interface CountsViewProps {
  live: Flow;
  sums: readonly Sum[];
  /** The first day that is counted here, and the last; null for today. */
  from: CivilDate;
  to: CivilDate | null;
}

/** How many checks were started, finished and left, and where. */
export function CountsView({ live, sums, from, to }: CountsViewProps) {
  const sumOf = (name: CountName) => sums.filter((sum) => sum.name === name);
  const total = (name: CountName) => sumOf(name).reduce((all, { count }) => all + count, 0);
  return (
    <section class="lt-section">
      <h2>{figuresWords.counts}</h2>
      {live.edition.shop.countVisits === false && <p>{figuresWords.countsOff}</p>}
      {sums.length === 0 ? (
        <p>{figuresWords.noCounts}</p>
      ) : (
        <>
          <p>{figuresWords.countsLead(sayDay(from), to && sayDay(to))}</p>
          <Table
            caption={figuresWords.counts}
            heads={[figuresWords.what, figuresWords.howOften]}
            numbersFrom={1}
            rows={[
              [figuresWords.started, String(total("started"))],
              [figuresWords.finished, String(total("finished"))],
            ]}
          />
          <h3>{figuresWords.questions}</h3>
          <Table
            caption={figuresWords.questions}
            heads={[
              figuresWords.question,
              ...[figuresWords.shown, figuresWords.stopped, figuresWords.unsure, figuresWords.unsureShare],
            ]}
            numbersFrom={1}
            rows={listQuestions(live, sums)}
          />
          <h3>{figuresWords.verdicts}</h3>
          <Table
            caption={figuresWords.verdicts}
            heads={[figuresWords.verdict, figuresWords.standing, figuresWords.howOften]}
            numbersFrom={2}
            rows={sumOf("verdict").map(({ what, count }) => [...sayVerdict(live, what), String(count)])}
          />
        </>
      )}
    </section>
  );
}

/** The question that leaves most people unsure comes first; one that nobody answered has no share. */
function listQuestions(live: Flow, sums: readonly Sum[]): string[][] {
  const count = (name: CountName, id: string) =>
    sums.find((sum) => sum.name === name && sum.what === id)?.count ?? 0;
  const ids = [
    ...new Set(sums.filter(({ name }) => name === "shown" || name === "answered").map(({ what }) => what)),
  ];
  return ids
    .map((id) => ({
      id,
      shown: count("shown", id),
      answered: count("answered", id),
      unsure: count("unsure", id),
    }))
    .sort((a, b) => b.unsure - a.unsure || b.shown - a.shown)
    .map(({ id, shown, answered, unsure }) => [
      live.question(id)?.prompt ?? id,
      ...[shown, Math.max(0, shown - answered), unsure].map(String),
      answered === 0 ? "" : sayShare(unsure / answered),
    ]);
}

function sayVerdict(live: Flow, what: string): [string, string] {
  const [first = "", condition] = what.split(" ");
  const standing: Standing | undefined = standings.find((one) => one === first);
  const name =
    condition === undefined ? figuresWords.noneNamed : (live.condition(condition)?.name ?? condition);
  return [name, standing === undefined ? first : figuresWords.standings[standing]];
}
