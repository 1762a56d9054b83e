import type { Fact, Host, Remedy } from "../edition.ts";
import { facts, methods, phases } from "../edition.ts";
import type { Flow, Prompt } from "../flow.ts";
import { cautionKinds, type FactState, factPromptsFor, factState, forbids, remediesFor } from "../plan.ts";
import {
  type Editions,
  repliesFor,
  type SharedHost,
  type SharedPrompt,
  type SideName,
  sharePrompts,
} from "./merge.ts";
import type { SideEnd } from "./side.ts";

type Stated = Partial<Record<Fact, "yes" | "no">>;

/** One way in which a shopper answers what both editions ask about the household. */
export interface HouseholdPair {
  live: { stated: Stated; asked: readonly number[] };
  draft: { stated: Stated; asked: readonly number[] };
  /** Places of the replies given, by shared prompt. */
  told: Record<SideName, ReadonlyMap<number, number>>;
}

/** What one edition makes of an ending: the remedies it calls for, in the order in which steps are shown. */
interface Wanted {
  remedies: readonly Remedy[];
  /** The same number for all that call for the same, with all that bears on a plan, whichever the edition. */
  key: number;
  /** Which facts they turn on, by the traits of the plant. */
  needs: Map<string, string>;
}

export interface Household {
  prompts: readonly SharedPrompt[];
  wanted(side: SideName, end: SideEnd): Wanted;
  /** Every way to answer about the household, for a plant and the remedies that both call for. */
  pairs(live: SideEnd, draft: SideEnd, host: SharedHost): readonly HouseholdPair[];
  /** Endings and plants with the same key ask the same about the household. */
  pairsKey(live: SideEnd, draft: SideEnd, host: SharedHost): string;
  /** The steps of a plan, each with all that bears on it. */
  steps(side: SideName, end: SideEnd, host: SharedHost, stated: Stated): readonly Step[];
  /** Plants that no plan of either edition tells apart have the same key. */
  traitsOf(host: SharedHost): string;
  /** Whether both editions ask about the household in the same words of the program, and know the same of the plant. */
  isAlike(host: SharedHost): boolean;
}

export interface Step {
  id: string;
  key: string;
}

export function openHousehold(editions: Editions): Household {
  const prompts = sharePrompts(editions.live.factPrompts, editions.draft.factPrompts);
  const wants = { live: new Map<SideEnd, Wanted>(), draft: new Map<SideEnd, Wanted>() };
  const known = new Map<string, readonly HouseholdPair[]>();
  const shown = { live: new Map<string, string>(), draft: new Map<string, string>() };
  const hostOf = (side: SideName, host: SharedHost) => {
    const id = host[side];
    return id === null ? undefined : editions[side].host(id);
  };
  const keys = new Map<string, number>();
  const wanted = (side: SideName, end: SideEnd): Wanted => {
    const found = wants[side].get(end) ?? wantedFor(editions[side], end, keys);
    wants[side].set(end, found);
    return found;
  };
  const asksAlike = isAskedAlike(editions);
  const needsOf = (side: SideName, end: SideEnd, host: SharedHost): string => {
    const plant = hostOf(side, host);
    const want = wanted(side, end);
    const traits = traitsOfHost(plant);
    const found = want.needs.get(traits) ?? needs(want.remedies, plant);
    want.needs.set(traits, found);
    return found;
  };
  const pairsKey = (live: SideEnd, draft: SideEnd, host: SharedHost) =>
    `${needsOf("live", live, host)} ${needsOf("draft", draft, host)}`;
  return {
    prompts,
    wanted,
    pairsKey,
    pairs: (live, draft, host) => {
      const [a, b] = [hostOf("live", host), hostOf("draft", host)];
      const [was, is] = [wanted("live", live).remedies, wanted("draft", draft).remedies];
      const key = pairsKey(live, draft, host);
      const found =
        known.get(key) ?? listPairs(editions, prompts, { live: was, draft: is }, { live: a, draft: b });
      known.set(key, found);
      return found;
    },
    steps: (side, end, host, stated) => {
      const plant = hostOf(side, host);
      const states = statesOf(plant, stated);
      const traits = `${traitsOfHost(plant)}|${facts.map((fact) => states.get(fact)).join()}`;
      return wanted(side, end).remedies.flatMap((remedy): Step[] => {
        const at = `${remedy.id}|${traits}`;
        let key = shown[side].get(at);
        if (key === undefined) {
          key = stepKey(remedy, plant, states);
          shown[side].set(at, key);
        }
        return key === "" ? [] : [{ id: remedy.id, key }];
      });
    },
    isAlike: (host) =>
      asksAlike && traitsOfHost(hostOf("live", host)) === traitsOfHost(hostOf("draft", host)),
    traitsOf: (host) => `${traitsOfHost(hostOf("live", host))} ${traitsOfHost(hostOf("draft", host))}`,
  };
}

function isAskedAlike({ live, draft }: Editions): boolean {
  const key = ({ factPrompts }: Flow) =>
    JSON.stringify(
      factPrompts.map(({ question, replies }) => [question.id, replies.map(({ id, facts }) => [id, facts])]),
    );
  return key(live) === key(draft);
}

function traitsOfHost(host: Host | undefined): string {
  return host ? `${host.eaten}/${[...host.harmedBy].sort().join()}/${host.keepDry}` : "";
}

function statesOf(host: Host | undefined, stated: Stated): Map<Fact, FactState> {
  const knowledge = {
    known: new Uint8Array(),
    host: host?.id ?? null,
    facts: stated,
    answered: new Set<string>(),
  };
  return new Map(facts.map((fact) => [fact, factState(fact, knowledge, host)]));
}

function wantedFor(flow: Flow, { standing, causes }: SideEnd, keys: Map<string, number>): Wanted {
  const all = causes.flatMap((cause, i) => remediesFor(flow, standing, cause, i === 0));
  const place = ({ phase, method }: Remedy) =>
    phases.indexOf(phase) * methods.length + methods.indexOf(method);
  const remedies = [...new Set(all)].sort((a, b) => place(a) - place(b));
  const text = JSON.stringify(remedies.map(planKey));
  const key = keys.get(text) ?? keys.size;
  keys.set(text, key);
  return { remedies, key, needs: new Map() };
}

/** All of a remedy that a plan looks at. */
function planKey(remedy: Remedy): unknown {
  const { id, method, toxicity, product, forFoodPlants, phase, neverWhen, cautions } = remedy;
  const counts = [cautions.always.length, ...facts.map((fact) => cautions[fact].length)];
  return [id, method, toxicity, product, forFoodPlants, phase, neverWhen, counts, remedy.lastResort === true];
}

/** A step as it is shown, or "" where it must not be. Wording aside, this is all that a reader can see change. */
function stepKey(remedy: Remedy, host: Host | undefined, states: ReadonlyMap<Fact, FactState>): string {
  if (forbids(remedy, host, states) !== undefined) return "";
  const { id, method, toxicity, product, phase } = remedy;
  return [
    id,
    method,
    toxicity,
    product,
    phase,
    remedy.lastResort === true,
    cautionKinds(remedy, states),
  ].join("|");
}

/** Which facts the remedies turn on for a plant: two sets with the same key ask the same questions. */
function needs(remedies: readonly Remedy[], host: Host | undefined): string {
  const traits = host ? { harms: host.harmedBy, dry: host.keepDry } : undefined;
  const fit = remedies.filter(
    ({ neverWhen }) =>
      !traits ||
      !neverWhen.some((when) =>
        when === "succulent-kept-dry"
          ? traits.dry
          : traits.harms.some((harm) => when === `harmed-by-${harm}`),
      ),
  );
  const turn = facts.filter((fact) =>
    fit.some(({ neverWhen, cautions }) => neverWhen.includes(fact) || cautions[fact].length > 0),
  );
  return `${host?.eaten ?? ""}:${turn.join()}`;
}

/** Both editions ask about the household side by side, as they did about the plant. */
function listPairs(
  editions: Editions,
  prompts: readonly SharedPrompt[],
  remedies: Record<SideName, readonly Remedy[]>,
  hosts: Record<SideName, Host | undefined>,
): HouseholdPair[] {
  const pairs: HouseholdPair[] = [];
  const due = (side: SideName, told: ReadonlyMap<number, number>): number => {
    const stated = stateOf(prompts, side, told);
    const answered = new Set([...told.keys()].map((prompt) => prompts[prompt]?.id ?? ""));
    const knowledge = { known: new Uint8Array(), host: hosts[side]?.id ?? null, facts: stated, answered };
    const next = factPromptsFor(editions[side], knowledge, remedies[side])[0];
    return next ? prompts.findIndex(({ id }) => id === next.question.id) : -1;
  };
  const follow = (live: ReadonlyMap<number, number>, draft: ReadonlyMap<number, number>): void => {
    const [a, b] = [due("live", live), due("draft", draft)];
    if (a < 0 && b < 0) {
      pairs.push({
        live: { stated: stateOf(prompts, "live", live), asked: [...live.keys()] },
        draft: { stated: stateOf(prompts, "draft", draft), asked: [...draft.keys()] },
        told: { live, draft },
      });
      return;
    }
    const prompt = prompts[a < 0 ? b : a];
    if (!prompt) return;
    if (a === b) {
      for (const reply of prompt.replies) follow(add(live, a, reply.live), add(draft, b, reply.draft));
    } else if (a >= 0) {
      for (const reply of repliesFor(prompt, "live", draft.get(a))) follow(add(live, a, reply), draft);
    } else {
      for (const reply of repliesFor(prompt, "draft", live.get(b))) follow(live, add(draft, b, reply));
    }
  };
  follow(new Map(), new Map());
  return pairs;
}

function add(told: ReadonlyMap<number, number>, prompt: number, reply: number): Map<number, number> {
  return new Map(told).set(prompt, reply);
}

function stateOf(
  prompts: readonly SharedPrompt[],
  side: SideName,
  told: ReadonlyMap<number, number>,
): Stated {
  const stated: Stated = {};
  for (const [prompt, reply] of told) {
    const of: Prompt | undefined = prompts[prompt]?.[side];
    Object.assign(stated, of?.replies[reply]?.facts);
  }
  return stated;
}
