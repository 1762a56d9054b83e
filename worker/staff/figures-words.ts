import type { Standing } from "../../flows/edition.ts";

/** Sentences of the page that sets the check against the bench. */
export const figuresWords = {
  title: "Check and bench",
  lead: "How often the bench saw what the check had named. Each sample counts once, by its latest line.",
  none: "Nothing has been recorded yet. The figures begin with the first sample at the counter.",
  howToRead:
    "The range says where the true share lies in 95 of 100 such samples. A wide range means: too few samples to tell.",
  byStanding: "By how sure the check was",
  standing: "The check said",
  standings: {
    suspected: "Most likely",
    leaning: "Looks like",
    undetermined: "Cannot tell; what came closest",
  } satisfies Record<Standing, string>,
  samples: "Samples",
  agreed: "Bench agreed",
  share: "Share",
  range: "Range",
  reliability: "What was promised, and what came true",
  reliabilityHint:
    "A lead of 10 decibans promises ten right to one wrong. On the slanted line the check keeps its promise; above it the check is better than it says, below it worse.",
  plotTitle: "Promised share against confirmed share",
  plotText: (points: string) => `Each point with its range: ${points}. The table holds the same figures.`,
  plotPoint: (promised: string, seen: string, count: number) =>
    `promised ${promised}, confirmed ${seen} of ${count}`,
  promised: "Promised",
  confirmed: "Confirmed",
  lead_: "Lead in decibans",
  leadFrom: (from: number, to: number | null) => (to === null ? `${from} and more` : `${from} to ${to}`),
  byCondition: "By condition",
  condition: "Condition",
  sawInstead: "Seen instead",
  nothing: "nothing of it",
  times: (name: string, count: number) => (count === 1 ? name : `${name} (${count})`),
  download: "Take it along",
  findingsFile: "All lines of the bench book as CSV",
  outOfReach: "We cannot reach our records right now. Please try again in a minute.",
} as const;
