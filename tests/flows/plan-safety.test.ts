import fc from "fast-check";
import { beforeAll, describe, expect, it, vi } from "vitest";
import { type Case, know } from "../../flows/case.ts";
import { type Fact, facts, type Host, type NeverWhen, type Remedy } from "../../flows/edition.ts";
import { PRESENT } from "../../flows/finding-table.ts";
import { makePlan, type Plan } from "../../flows/plan.ts";
import { judge, type Verdict } from "../../flows/verdict.ts";
import { caseOf } from "../support/cases.ts";
import { arbitraryCase, arbitraryConversation } from "../support/random-case.ts";
import { shippedFlow } from "../support/shipped-flow.ts";

// Slow machines may take their time.
vi.setConfig({ testTimeout: 60_000 });

// What must hold in every plan, told from the content and the answers alone and not from the functions of flows/plan.ts.

interface Outcome {
  kase: Case;
  verdict: Verdict;
  plan: Plan;
  host: Host | undefined;
  remedies: Remedy[];
}

const flow = shippedFlow();
const outcomes: Outcome[] = [];

beforeAll(() => {
  const cases = fc.sample(fc.oneof(arbitraryCase(flow), arbitraryConversation(flow)), {
    numRuns: 1000,
    seed: 7,
  });
  for (const kase of [...cases, ...sureCases()]) {
    const verdict = judge(flow, kase);
    const plan = makePlan(flow, kase, verdict);
    const named = kase.answers.find(({ to }) => to === flow.hostQuestion?.id)?.is;
    const host = flow.edition.hosts.find(({ id }) => id === named);
    const remedies = plan.steps.flatMap((step) => flow.remedy(step.remedy) ?? []);
    outcomes.push({ kase, verdict, plan, host, remedies });
  }
}, 60_000);

/** Random answers seldom suspect the rarer conditions: here each has all that marks it, on many plants and in many homes. */
function sureCases(): Case[] {
  const plants = ["not-sure", ...flow.edition.hosts.map(({ id }) => id)];
  const homes = [
    [],
    ["eaten=yes", "household=both", "flowering-or-outdoors=yes"],
    ["eaten=no", "household=neither", "flowering-or-outdoors=no"],
    ["eaten=not-sure", "household=pets"],
  ];
  return flow.edition.conditions.flatMap(({ evidence: { hallmark, supports } }, c) =>
    Array.from({ length: 36 }, (_, i) => {
      const plant = plants[(c * 36 + i) % plants.length];
      const some =
        i % 2 === 0 ? supports.slice(0, i % 6) : [...supports.slice(i % 8), ...supports].slice(0, 5);
      return caseOf(flow, `host=${plant}`, ...hallmark, ...some, ...(homes[i % homes.length] ?? []));
    }),
  );
}

/** Whether a fact has been ruled out, by the answers or by the plant. */
function isRuledOut(fact: Fact, { kase, host }: Outcome): boolean {
  if (fact === "eaten" && host && host.eaten !== "sometimes") return host.eaten === "never";
  return kase.answers.some(({ to, is }) => {
    const question = flow.question(to);
    return question?.options.some((option) => option.id === is && option.facts[fact] === "no") ?? false;
  });
}

/** Passes when no outcome breaks the rule. `breaks` names what breaks it: remedy ids, or whatever tells most. */
function expectNone(breaks: (outcome: Outcome) => readonly (string | undefined)[]): void {
  const broken = outcomes.flatMap((outcome) => {
    const answers = outcome.kase.answers.map(({ to, is }) => `${to}=${is}`).join("&");
    return breaks(outcome).map((what) => `${what}: ${answers}`);
  });
  expect(broken).toEqual([]);
}

const ids = (remedies: readonly Remedy[]) => remedies.map(({ id }) => id);

describe("thousands of plans from the shipped content", () => {
  it("are thousands, of every standing, with every remedy and every leader among them", () => {
    expect(outcomes.length).toBeGreaterThanOrEqual(3000);
    const standings = outcomes.map(({ verdict }) => verdict.standing);
    for (const standing of ["suspected", "leaning", "undetermined"]) {
      expect(standings.filter((each) => each === standing).length, standing).toBeGreaterThan(300);
    }
    const leaders = new Set(outcomes.flatMap(({ verdict }) => verdict.leader ?? []));
    expect(flow.edition.conditions.map(({ id }) => id).filter((id) => !leaders.has(id))).toEqual([]);
    const used = new Set(outcomes.flatMap(({ remedies }) => ids(remedies)));
    expect(ids(flow.edition.remedies).filter((id) => !used.has(id))).toEqual([]);
  });

  it("hold no systemic and no product not meant for food where the plant is or may be eaten", () => {
    expectNone((outcome) => {
      if (isRuledOut("eaten", outcome)) return [];
      return ids(
        outcome.remedies.filter(
          ({ toxicity, product, forFoodPlants }) => toxicity === 3 || (product && !forFoodPlants),
        ),
      );
    });
  });

  it("hold no step the plant is listed as injured by, and keep dry what must stay dry", () => {
    expectNone(({ host, remedies }) => {
      const forbidden: NeverWhen[] = (host?.harmedBy ?? []).map((harm) => `harmed-by-${harm}` as const);
      if (host?.keepDry) forbidden.push("succulent-kept-dry");
      return ids(remedies.filter(({ neverWhen }) => neverWhen.some((when) => forbidden.includes(when))));
    });
  });

  it("hold no step that a fact forbids, unless the fact is ruled out", () => {
    expectNone((outcome) => {
      const open = facts.filter((fact) => !isRuledOut(fact, outcome));
      return ids(outcome.remedies.filter(({ neverWhen }) => open.some((fact) => neverWhen.includes(fact))));
    });
  });

  it("say nothing chemical and ask for a sample while undetermined", () => {
    expectNone(({ verdict, remedies }) => {
      if (verdict.standing !== "undetermined") return [];
      const strong = remedies.filter(({ method, toxicity }) => method === "chemical" || toxicity > 0);
      return [...ids(strong), ...(verdict.bringSample ? [] : ["no sample"])];
    });
  });

  it("name the label on every bought product, and only there", () => {
    expectNone(({ plan, remedies }) =>
      ids(remedies.filter(({ product }, i) => plan.steps[i]?.labelIsLaw !== product)),
    );
  });

  it("never begin with the most toxic step", () => {
    expectNone(({ remedies }) => {
      const toxicities = remedies.map(({ toxicity }) => toxicity);
      const first = toxicities[0] ?? 0;
      return first > 0 && first === Math.max(...toxicities) ? [remedies[0]?.id] : [];
    });
  });

  it("go by phase, and within a phase from the gentlest method to the strongest", () => {
    const place = ({ phase, method }: Remedy) =>
      ["today", "next-days", "prevent"].indexOf(phase) * 10 +
      ["cultural", "mechanical", "biological", "chemical"].indexOf(method);
    expectNone(({ remedies }) =>
      ids(
        remedies.filter((remedy, i) => {
          const before = remedies[i - 1];
          return before !== undefined && place(before) > place(remedy);
        }),
      ),
    );
  });

  it("show every caution that is not ruled out, and no caution that is", () => {
    expectNone((outcome) => {
      const open = facts.filter((fact) => !isRuledOut(fact, outcome));
      const wrong = outcome.remedies.filter(({ cautions }, i) => {
        const due = [...cautions.always, ...open.flatMap((fact) => cautions[fact])];
        return due.sort().join("\n") !== [...(outcome.plan.steps[i]?.cautions ?? [])].sort().join("\n");
      });
      return ids(wrong);
    });
  });

  it("hold each step once, either in the plan or among what was left out", () => {
    expectNone(({ plan }) => {
      const all = [...plan.steps, ...plan.leftOut].map(({ remedy }) => remedy);
      return all.filter((id, i) => all.indexOf(id) !== i);
    });
  });

  it("are never empty", () => {
    expectNone(({ remedies }) => (remedies.length === 0 ? ["empty"] : []));
  });

  it("follow a suspicion only when a hallmark of the leader is in sight", () => {
    expectNone(({ kase, verdict }) => {
      if (verdict.standing !== "suspected") return [];
      const { known } = know(flow, kase);
      const hallmarks = flow.condition(verdict.leader ?? "")?.evidence.hallmark ?? [];
      return hallmarks.some((id) => known[flow.findings.at(id)] === PRESENT)
        ? []
        : [verdict.leader ?? "none"];
    });
  });
});
