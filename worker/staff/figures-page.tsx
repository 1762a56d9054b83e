import type { Child } from "hono/jsx";
import type { Flow } from "../../flows/flow.ts";
import { type Agreement, binByLead } from "../../flows/statistics/agreement.ts";
import type { SignedIn } from "../people/person.ts";
import { PrivatePage } from "../people/private-page.tsx";
import { type ConditionRow, type Sampled, tallyConditions, tallyStandings } from "./agreement-rows.ts";
import { counterWords } from "./counter-words.ts";
import { COUNTS_FILE, deskLinks, FIGURES, FINDINGS_FILE, SIGN_OUT } from "./desk-links.ts";
import { type Filter, type FilterRead, writeFilter } from "./figures-filter.ts";
import { figuresWords } from "./figures-words.ts";
import { FilterForm } from "./filter-form.tsx";
import { ReliabilityPlot } from "./reliability-plot.tsx";
import { sayDay } from "./say-day.ts";
import { sayRange, sayShare } from "./say-share.ts";
import { staffWords } from "./staff-words.ts";
import { Table } from "./table.tsx";

interface FiguresPageProps {
  live: Flow;
  person: SignedIn;
  /** Null when the records are out of reach. */
  sampled: readonly Sampled[] | null;
  read: FilterRead;
  children: Child;
}

/** How far the check can be trusted, by what the bench saw. */
export function FiguresPage({ live, person, sampled, read, children }: FiguresPageProps) {
  const { filter } = read;
  const isAll = writeFilter(filter) === "";
  return (
    <PrivatePage
      title={figuresWords.title}
      room={staffWords.room}
      links={deskLinks}
      here={FIGURES}
      signOut={SIGN_OUT}
      shop={live.edition.shop}
      person={person}
    >
      {sampled === null ? (
        <p class="lt-problem" role="alert">
          {figuresWords.outOfReach}
        </p>
      ) : (
        <>
          <FilterForm shop={live.edition.shop} read={read} />
          {!isAll && <p role="status">{figuresWords.about(sayFilter(live, filter))}</p>}
          <p class="lt-lead">
            {sampled.length > 0 ? figuresWords.lead : isAll ? figuresWords.none : figuresWords.noneHere}
          </p>
          {sampled.length > 0 && <Agreements live={live} sampled={sampled} />}
          {children}
          <Files hasFindings={sampled.length > 0} filter={filter} />
        </>
      )}
    </PrivatePage>
  );
}

function Agreements({ live, sampled }: { live: Flow; sampled: readonly Sampled[] }) {
  return (
    <>
      <section class="lt-section">
        <h2>{figuresWords.byStanding}</h2>
        <p>{figuresWords.howToRead}</p>
        <Table
          caption={figuresWords.byStanding}
          heads={[figuresWords.standing, ...agreementHeads]}
          numbersFrom={1}
          rows={tallyStandings(sampled).map((line) => [
            figuresWords.standings[line.key],
            ...agreementCells(line),
          ])}
        />
      </section>
      <Reliability sampled={sampled} />
      <section class="lt-section">
        <h2>{figuresWords.byCondition}</h2>
        <Table
          caption={figuresWords.byCondition}
          heads={[figuresWords.condition, figuresWords.standing, ...agreementHeads, figuresWords.sawInstead]}
          numbersFrom={2}
          rows={tallyConditions(sampled).map((row) => [
            live.condition(row.condition)?.name ?? row.condition,
            figuresWords.standings[row.standing],
            ...agreementCells(row),
            sayInstead(live, row),
          ])}
        />
      </section>
    </>
  );
}

function sayFilter({ edition: { shop } }: Flow, { branch, from, to }: Filter): string {
  const name = shop.branches.find(({ id }) => id === branch)?.name ?? figuresWords.allBranches;
  return [
    name,
    ...(from === null ? [] : [figuresWords.since(sayDay(from))]),
    ...(to === null ? [] : [figuresWords.until(sayDay(to))]),
  ].join(", ");
}

function Files({ hasFindings, filter }: { hasFindings: boolean; filter: Filter }) {
  const query = writeFilter(filter);
  return (
    <section class="lt-section">
      <h2>{figuresWords.download}</h2>
      <p>{figuresWords.filesFollow}</p>
      <p class="lt-actions">
        {hasFindings && (
          <a class="lt-link" href={`${FINDINGS_FILE}${query}`}>
            {figuresWords.findingsFile}
          </a>
        )}
        <a class="lt-link" href={`${COUNTS_FILE}${query}`}>
          {figuresWords.countsFile}
        </a>
      </p>
    </section>
  );
}

function Reliability({ sampled }: { sampled: readonly Sampled[] }) {
  const bins = binByLead(sampled.filter(({ condition }) => condition !== null));
  if (bins.length === 0) return null;
  return (
    <section class="lt-section">
      <h2>{figuresWords.reliability}</h2>
      <p>{figuresWords.reliabilityHint}</p>
      <div class="st-beside">
        <ReliabilityPlot bins={bins} />
        <Table
          caption={figuresWords.reliability}
          heads={[figuresWords.lead_, figuresWords.promised, ...agreementHeads]}
          numbersFrom={1}
          rows={bins.map((bin) => [
            figuresWords.leadFrom(bin.from, bin.to),
            sayShare(bin.promised),
            ...agreementCells(bin),
          ])}
        />
      </div>
    </section>
  );
}

const { samples, agreed, share, range } = figuresWords;
const agreementHeads = [samples, agreed, share, range];

function agreementCells(line: Agreement): string[] {
  return [String(line.all), String(line.agreed), sayShare(line.agreed / line.all), sayRange(line)];
}

function sayInstead(live: Flow, { instead }: ConditionRow): string {
  return instead
    .map(({ what, isListed, count }) => {
      if (!isListed) return figuresWords.times(figuresWords.nothing, count);
      const name = what === null ? counterWords.notListed : (live.condition(what)?.name ?? what);
      return figuresWords.times(name, count);
    })
    .join(", ");
}
