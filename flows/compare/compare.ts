import type { Edition } from "../edition.ts";
import { openFlow } from "../flow.ts";
import type { Progress } from "../progress.ts";
import { bearsSame } from "./bearing.ts";
import { diffSteps, type EndCase, sameEnd, sameSteps, viewCase, viewEnd } from "./end-views.ts";
import { type Household, type HouseholdPair, openHousehold } from "./household.ts";
import type { Editions, SharedHost } from "./merge.ts";
import { type AskedDifference, type PairEnd, type PairWalk, walkPairs } from "./pair-walk.ts";
import type { ChangeGroup, ChangeKind, Comparison } from "./report.ts";
import type { SideEnd } from "./side.ts";

/**
 * Compares two editions over every pair of conversations, exactly; see `Comparison` for what a pair is. A generator, so that
 * whoever runs it can show how far it is, and stop. Throws only on editions whose cross-references are broken.
 */
export function* compareEditions(live: Edition, draft: Edition): Generator<Progress, Comparison> {
  if (bearsSame(live, draft)) return nothing(true);
  return yield* compareFlows({ live: openFlow(live), draft: openFlow(draft) });
}

export function* compareFlows(editions: Editions): Generator<Progress, Comparison> {
  const walked = yield* walkPairs(editions);
  const household = openHousehold(editions);
  const tally: Tally = {
    editions,
    walked,
    household,
    kinds: listKinds(walked, household),
    groups: new Map(),
    report: nothing(false),
    longer: undefined,
    rows: new Map(),
    // The host plant is asked for once, under each edition that has the question.
    hostQuestions: { live: editions.live.hostQuestion ? 1 : 0, draft: editions.draft.hostQuestion ? 1 : 0 },
  };
  for (const [i, end] of walked.ends.entries()) {
    countEnd(tally, end);
    if (i % 50 === 49) yield { share: 1, points: 0 };
  }
  return finish(tally);
}

function nothing(same: boolean): Comparison {
  return {
    same,
    pairs: 0,
    differ: { verdict: 0, plan: 0, questions: 0 },
    longer: 0,
    shorter: 0,
    longest: { live: 0, draft: 0 },
    longerExample: null,
    groups: [],
  };
}

interface Tally {
  editions: Editions;
  walked: PairWalk;
  household: Household;
  kinds: readonly PlantKind[];
  groups: Map<string, GroupTally>;
  report: Comparison;
  longer: { by: number; example: Example } | undefined;
  rows: Map<string, readonly Row[]>;
  hostQuestions: { live: number; draft: number };
}

/** Plants that no plan tells apart, with the host classes they are in and how many of each. */
interface PlantKind {
  traits: string;
  host: SharedHost;
  classes: { class: number; plants: number; host: SharedHost }[];
}

/** Ways of answering about the household that differ alike between the editions. */
interface Row {
  ways: number;
  asked: AskedDifference | undefined;
  plan: PlanDifference | undefined;
  most: { live: number; draft: number };
  shortest: HouseholdPair;
}

interface PlanDifference {
  key: string;
  steps: ChangeGroup["steps"];
}

interface GroupTally {
  group: Omit<ChangeGroup, "example" | "causes">;
  example: Example;
}

/** A pair that can be shown. */
interface Example {
  length: number;
  live: EndCase;
  draft: EndCase;
}

function listKinds({ classes }: PairWalk, household: Household): PlantKind[] {
  const kinds = new Map<string, PlantKind>();
  classes.forEach(({ hosts }, k) => {
    for (const host of hosts) {
      const traits = household.traitsOf(host);
      const kind = kinds.get(traits) ?? { traits, host, classes: [] };
      kinds.set(traits, kind);
      const of = kind.classes.find((one) => one.class === k);
      if (of) of.plants++;
      else kind.classes.push({ class: k, plants: 1, host });
    }
  });
  return [...kinds.values()];
}

/** Counts all pairs that end in one way about the plant, with every plant and every household. */
function countEnd(tally: Tally, end: PairEnd): void {
  const live = tally.walked.live.ends[end.live];
  const draft = tally.walked.draft.ends[end.draft];
  if (!live || !draft) return;
  const isSame = sameEnd(live, draft);
  const ends = isSame ? "" : JSON.stringify([viewEnd(live), viewEnd(draft)]);
  for (const kind of tally.kinds) {
    let ways = 0;
    let nearest: PlantKind["classes"][number] | undefined;
    let length = Number.POSITIVE_INFINITY;
    for (const of of kind.classes) {
      const count = end.counts[of.class] ?? 0;
      if (count === 0) continue;
      ways += count * of.plants;
      const path = end.shortest[of.class];
      const steps = path ? path.live.depth + path.draft.depth : length;
      if (steps >= length) continue;
      length = steps;
      nearest = of;
    }
    if (!nearest) continue;
    const found: Found = { end, live, draft, isSame, ends, nearest, length };
    for (const row of rowsFor(tally, live, draft, kind, isSame)) countRow(tally, found, row, ways * row.ways);
  }
}

/** Pairs about the plant for one kind of plant, and the nearest of them. */
interface Found {
  end: PairEnd;
  live: SideEnd;
  draft: SideEnd;
  isSame: boolean;
  ends: string;
  nearest: PlantKind["classes"][number];
  length: number;
}

function rowsFor(
  { household, rows }: Tally,
  live: SideEnd,
  draft: SideEnd,
  { traits, host }: PlantKind,
  isSame: boolean,
): readonly Row[] {
  const [was, is] = [household.wanted("live", live).key, household.wanted("draft", draft).key];
  // Under another verdict the plan is not told apart, and the same steps for the same household are the same plan.
  const mayDiffer = isSame && !(was === is && household.isAlike(host));
  const key = mayDiffer ? `${was} ${is} ${traits}` : household.pairsKey(live, draft, host);
  const known = rows.get(key);
  if (known) return known;
  const pairs = household.pairs(live, draft, host);
  const made = new Map<string, Row>();
  for (const pair of pairs) {
    const plan = mayDiffer ? comparePlans(household, live, draft, host, pair) : undefined;
    const asked = compareHousehold(household, pair);
    const at = `${plan?.key ?? ""}|${asked ? JSON.stringify(asked) : ""}`;
    const row = made.get(at) ?? { ways: 0, asked, plan, most: { live: 0, draft: 0 }, shortest: pair };
    made.set(at, row);
    row.ways++;
    row.most.live = Math.max(row.most.live, pair.live.asked.length);
    row.most.draft = Math.max(row.most.draft, pair.draft.asked.length);
    if (countAsked(pair) < countAsked(row.shortest)) row.shortest = pair;
  }
  const list = [...made.values()];
  rows.set(key, list);
  return list;
}

function countAsked({ live, draft }: HouseholdPair): number {
  return live.asked.length + draft.asked.length;
}

function comparePlans(
  household: Household,
  live: SideEnd,
  draft: SideEnd,
  host: SharedHost,
  pair: HouseholdPair,
): PlanDifference | undefined {
  const from = household.steps("live", live, host, pair.live.stated);
  const to = household.steps("draft", draft, host, pair.draft.stated);
  if (sameSteps(from, to)) return undefined;
  const steps = diffSteps(from, to);
  return { key: JSON.stringify(steps), steps };
}

function countRow(tally: Tally, found: Found, row: Row, ways: number): void {
  const { report, hostQuestions } = tally;
  const { end, isSame, ends, live, draft } = found;
  const asked = joinAsked(end.asked, row.asked);
  const by = asked ? asked.added.length - asked.dropped.length : 0;
  const { longest } = report;
  report.pairs += ways;
  longest.live = Math.max(longest.live, end.longest.live + hostQuestions.live + row.most.live);
  longest.draft = Math.max(longest.draft, end.longest.draft + hostQuestions.draft + row.most.draft);
  if (by > 0) report.longer += ways;
  if (by < 0) report.shorter += ways;
  const kind: ChangeKind | undefined = !isSame
    ? "verdict"
    : row.plan
      ? "plan"
      : asked
        ? "questions"
        : undefined;
  if (!kind) return;
  report.differ[kind] += ways;
  const example = showExample(found, row);
  if (!example) return;
  if (by > 0 && by >= (tally.longer?.by ?? 0)) keepLonger(tally, by, example);
  const from = ends || JSON.stringify(viewEnd(live));
  const key = `${kind}${from}${kind === "verdict" ? "" : kind === "plan" ? row.plan?.key : JSON.stringify(asked)}`;
  let made = tally.groups.get(key);
  if (!made) {
    made = makeGroup(kind, { from: viewEnd(live), to: viewEnd(draft) }, row.plan, asked, example);
    tally.groups.set(key, made);
  }
  made.group.pairs += ways;
  if (by > 0) made.group.longer += ways;
  if (by < 0) made.group.shorter += ways;
  if (example.length < made.example.length) made.example = example;
}

function showExample(
  { end, live, draft, nearest, length }: Found,
  { shortest: pair }: Row,
): Example | undefined {
  const path = end.shortest[nearest.class];
  if (!path) return undefined;
  const { host } = nearest;
  return {
    length: length + countAsked(pair),
    live: { end: live, point: path.live, host: host.live, pair },
    draft: { end: draft, point: path.draft, host: host.draft, pair },
  };
}

function keepLonger(tally: Tally, by: number, example: Example): void {
  const before = tally.longer;
  if (before && before.by === by && before.example.length <= example.length) return;
  tally.longer = { by, example };
}

function makeGroup(
  kind: ChangeKind,
  ends: Pick<ChangeGroup, "from" | "to">,
  plan: PlanDifference | undefined,
  asked: AskedDifference | undefined,
  example: Example,
): GroupTally {
  return {
    group: {
      kind,
      ...ends,
      pairs: 0,
      longer: 0,
      shorter: 0,
      steps: (kind === "plan" && plan?.steps) || { added: [], dropped: [], otherwise: false },
      questions: (kind === "questions" && asked) || { added: [], dropped: [], order: false },
    },
    example,
  };
}

/** What only one edition asked about the household. Undefined when both asked the same in the same order. */
function compareHousehold(
  { prompts }: Household,
  { live, draft }: HouseholdPair,
): AskedDifference | undefined {
  const names = (places: readonly number[]) => places.map((place) => prompts[place]?.id ?? "");
  const added = names(draft.asked.filter((prompt) => !live.asked.includes(prompt)));
  const dropped = names(live.asked.filter((prompt) => !draft.asked.includes(prompt)));
  const both = live.asked.filter((prompt) => draft.asked.includes(prompt)).join();
  const order = both !== draft.asked.filter((prompt) => live.asked.includes(prompt)).join();
  const asked = { added, dropped, order };
  return isNothing(asked) ? undefined : asked;
}

function joinAsked(plant: AskedDifference, home: AskedDifference | undefined): AskedDifference | undefined {
  if (!home) return isNothing(plant) ? undefined : plant;
  return {
    added: [...plant.added, ...home.added],
    dropped: [...plant.dropped, ...home.dropped],
    order: plant.order || home.order,
  };
}

function isNothing({ added, dropped, order }: AskedDifference): boolean {
  return added.length + dropped.length === 0 && !order;
}

function finish({ editions, household, groups, report, longer }: Tally): Comparison {
  const show = ({ live, draft }: Example) => ({
    live: viewCase(editions, household, "live", live),
    draft: viewCase(editions, household, "draft", draft),
  });
  const list = [...groups.values()].map(
    ({ group, example }): ChangeGroup => ({
      ...group,
      example: show(example),
      causes: null,
    }),
  );
  list.sort((a, b) => b.pairs - a.pairs);
  return {
    ...report,
    groups: list,
    longerExample: longer ? { by: longer.by, ...show(longer.example) } : null,
  };
}
