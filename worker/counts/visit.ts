import type { Standing } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";

export const countSources = ["page", "element"] as const;
export type CountSource = (typeof countSources)[number];

export const countNames = ["started", "finished", "verdict", "shown", "answered", "unsure"] as const;
export type CountName = (typeof countNames)[number];

/** A piece of one conversation, as far as it is counted. It names questions and a verdict, never an answer. */
export interface Visit {
  /** A branch of the shop, or empty. */
  branch: string;
  started: boolean;
  /** Ids of questions. "Unsure" are those that were answered with "not sure". */
  shown: string[];
  answered: string[];
  unsure: string[];
  verdict: { standing: Standing; condition: string | null } | null;
}

/** One thing to be counted up. */
export interface Tick {
  name: CountName;
  what: string;
}

export function toTicks({ started, shown, answered, unsure, verdict }: Visit): Tick[] {
  return [
    ...(started ? [{ name: "started" as const, what: "" }] : []),
    ...shown.map((what) => ({ name: "shown" as const, what })),
    ...answered.map((what) => ({ name: "answered" as const, what })),
    ...unsure.map((what) => ({ name: "unsure" as const, what })),
    ...(verdict
      ? [
          { name: "finished" as const, what: "" },
          { name: "verdict" as const, what: [verdict.standing, verdict.condition].filter(Boolean).join(" ") },
        ]
      : []),
  ];
}

/** The branch of that id, or the empty one. */
export function knownBranch({ edition }: Flow, id: string | undefined): string {
  return edition.shop.branches.some((branch) => branch.id === id) ? (id ?? "") : "";
}
