import { describe, expect, it } from "vitest";
import { z } from "zod";
import { type Candidate, judge } from "../../flows/verdict.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { readOutside, unknownIds, volunteer } from "./outside-file.ts";

const outcomeShape = z.strictObject({ present: z.array(z.string()).min(1), absent: z.array(z.string()) });
const checkShape = z.strictObject({
  publisher: z.string(),
  url: z.string(),
  read: z.enum(["excerpt", "facts"]),
  between: z.tuple([z.string(), z.string()]),
  says: z.string(),
  host: z.string().optional(),
  if_a: outcomeShape,
  if_b: outcomeShape,
});
type Outcome = z.infer<typeof outcomeShape>;

/** Checks that are not about houseplants or name no condition of ours: what the check says → why it is left out. */
const exceptions: Record<string, string> = {};

const flow = shippedFlow();
const checks = readOutside("separating-checks.yaml", z.array(checkShape)).filter(
  ({ says }) => !(says in exceptions),
);

interface Place {
  candidate: Candidate;
  at: number;
}

function placeOf(outcome: Outcome, host: string | undefined, condition: string): Place {
  const { candidates } = judge(flow, volunteer(flow, { ...outcome, host }));
  const at = candidates.findIndex((candidate) => candidate.condition === condition);
  const candidate = candidates[at];
  if (!candidate) throw new Error(`no candidate ${condition}`);
  return { candidate, at };
}

/** Something speaks for the winner, and it stands before the loser by more than the alphabet. */
function leads(winner: Place, loser: Place): boolean {
  const level = winner.candidate.weight === loser.candidate.weight && loser.candidate.speaks;
  return winner.candidate.speaks && winner.at < loser.at && !level;
}

function expectLead(outcome: Outcome, host: string | undefined, first: string, second: string): void {
  const [winner, loser] = [placeOf(outcome, host, first), placeOf(outcome, host, second)];
  const scores = `${first} ${winner.candidate.weight}, ${second} ${loser.candidate.weight}`;
  expect(leads(winner, loser), scores).toBe(true);
}

describe("published separating checks", () => {
  it("are at least 20 and name only findings, plants and conditions of ours", () => {
    expect(checks.length).toBeGreaterThanOrEqual(20);
    const unknown = checks.flatMap(({ between, host, if_a, if_b }) =>
      unknownIds(flow, {
        findings: [if_a, if_b].flatMap(({ present, absent }) => [...present, ...absent]),
        conditions: between,
        host,
      }),
    );
    expect(unknown).toEqual([]);
  });

  it.each(checks.map((check) => [check.between[0], check.between[1], check.says, check] as const))(
    "%s or %s: %s",
    (a, b, _says, { host, if_a, if_b }) => {
      expectLead(if_a, host, a, b);
      expectLead(if_b, host, b, a);
    },
  );
});
