import { describe, expect, it } from "vitest";
import { judge } from "../../flows/verdict.ts";
import { caseOf } from "../support/cases.ts";
import { condition, finding, type GivenCondition, makeFlow } from "../support/make-edition.ts";

function read(conditions: GivenCondition[], ...answers: string[]) {
  const flow = makeFlow({
    findings: ["p", "q", "r", "s", "t"],
    conditions: conditions.map((given) => condition(given)),
  });
  return judge(flow, caseOf(flow, ...answers));
}

const scale: GivenCondition = { id: "scale", howCommon: "common", evidence: { hallmark: ["p"] } };
const mites = { id: "mites", evidence: { hallmark: ["q"] } };

describe("several causes at once", () => {
  it("stand beside each other when each has a hallmark the other does not explain", () => {
    expect(read([scale, mites], "p", "q")).toMatchObject({
      leader: "scale",
      beside: ["mites"],
      lead: 16 - 6,
      standing: "suspected",
    });
  });

  it("do not when the leader explains the other's hallmark", () => {
    const all: GivenCondition = {
      id: "all",
      howCommon: "common",
      evidence: { hallmark: ["p"], supports: ["q"] },
    };
    expect(read([all, mites], "p", "q")).toMatchObject({ leader: "all", beside: [], lead: 21 - 13 });
  });

  it("do not when nothing but weaker words speak for the other", () => {
    const weak = { id: "weak", evidence: { supports: ["q", "r"] } };
    expect(read([scale, weak], "p", "q", "r").beside).toEqual([]);
  });

  it("do not when the other falls below the silent rival once the explained findings are gone", () => {
    const rare: GivenCondition = {
      id: "rare",
      howCommon: "rare",
      evidence: { hallmark: ["q"], against: ["r"] },
    };
    // Left over: 13 - 4 = 9; with the counter-evidence 4, and the silent rival stands at 6.
    expect(read([scale, rare], "p", "q").beside).toEqual(["rare"]);
    expect(read([scale, rare], "p", "q", "r").beside).toEqual([]);
  });

  it("count what is left over, not what the leader explains already", () => {
    const leader = { id: "leader", evidence: { hallmark: ["p", "s"], supports: ["r", "t"] } };
    const second: GivenCondition = {
      id: "second",
      howCommon: "rare",
      evidence: { hallmark: ["q"], against: ["r"] },
    };
    // r is explained by the leader, so it no longer speaks against the second.
    expect(read([leader, second], "p", "s", "q", "r").beside).toEqual(["second"]);
  });

  it("are at most two beside the leader", () => {
    const four = ["p", "q", "r", "s"].map((id) => ({ id: `has-${id}`, evidence: { hallmark: [id] } }));
    const verdict = read(four, "p", "q", "r", "s");
    expect(verdict.leader).toBe("has-p");
    expect(verdict.beside).toEqual(["has-q", "has-r"]);
  });
});

describe("what shows on the plant", () => {
  const wet: GivenCondition = { id: "wet", howCommon: "everyday", evidence: { hallmark: ["soggy"] } };
  const rot: GivenCondition = { id: "rot", broughtOnBy: ["wet"], evidence: { hallmark: ["p"] } };
  const lead = (...conditions: GivenCondition[]) => {
    const flow = makeFlow({
      findings: [finding({ id: "soggy", kind: "site" }), "p", "q"],
      conditions: conditions.map(condition),
    });
    const verdict = judge(flow, caseOf(flow, "soggy", "p"));
    return { leader: verdict.leader, first: verdict.candidates[0]?.condition };
  };

  it("leads over the state of the surroundings that brought it on", () => {
    expect(lead(wet, rot)).toEqual({ leader: "rot", first: "rot" });
  });

  it("does not lead over a state that has nothing to do with it", () => {
    expect(lead(wet, { ...rot, broughtOnBy: [] }).leader).toBe("wet");
  });

  it("does not lead over a condition with a sign of its own", () => {
    expect(lead({ ...wet, evidence: { hallmark: ["soggy", "p"] } }, rot).leader).toBe("wet");
  });

  it("does not lead when it is too weak itself to be leaned on", () => {
    const doubtful: GivenCondition = {
      ...rot,
      howCommon: "rare",
      evidence: { hallmark: ["p"], against: ["soggy"] },
    };
    expect(lead(wet, doubtful).leader).toBe("wet");
  });
});

describe("linked conditions", () => {
  const mold = { id: "mold", evidence: { supports: ["p", "q"] } };

  it("are partners, not rivals, whichever side names the link", () => {
    const alone = read([{ ...scale, evidence: { hallmark: ["p"], supports: ["q"] } }, mold], "p", "q");
    expect(alone.lead).toBe(21 - 10);
    for (const link of [{ brings: ["mold"] }, { broughtOnBy: ["mold"] }]) {
      const linked = read(
        [{ ...scale, evidence: { hallmark: ["p"], supports: ["q"] }, ...link }, mold],
        "p",
        "q",
      );
      expect(linked.lead).toBe(21 - 6);
    }
  });

  it("leave the next unlinked one as the rival", () => {
    const bug = { id: "bug", evidence: { supports: ["p", "q"], against: ["r"] } };
    const linked: GivenCondition = { ...mold, howCommon: "common" };
    const verdict = read(
      [{ ...scale, brings: ["mold"], evidence: { hallmark: ["p"], supports: ["q"] } }, linked, bug],
      "p",
      "q",
    );
    expect(verdict.lead).toBe(21 - 10);
  });
});
