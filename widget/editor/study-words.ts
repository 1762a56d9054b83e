/** What a report says, in sentences. */
import type { ChangeGroup, Comparison, EndView } from "../../flows/compare/report.ts";
import type { WalkReport } from "../../flows/walk/walk.ts";
import {
  LONGEST_SENTENCE,
  MOST_GROUPS,
  type StudyChange,
  type StudyReport,
  sayCount,
} from "../views/editor/study-report.ts";
import type { Names } from "./protocol.ts";

/** Every rule that the walk checks, as an editor would say it. */
export const rules: Readonly<Record<string, string>> = {
  ORDER_NEVER_MATTERS: "The same answers in any order give the same verdict.",
  LONGEST_CONVERSATION: "No conversation asks more questions than are allowed.",
  EVERY_CONDITION_REACHABLE: "Every condition can be found.",
  EVERY_QUESTION_ASKABLE: "Every question is asked in some conversation.",
  UNSURE_MEANS_SAMPLE: "“Not sure” to everything ends in a request for a sample.",
  FOOD_PLANT_SAFE: "No plan holds what must not reach a plant that is or may be eaten.",
  HOST_NOT_INJURED: "No step injures the plant.",
  CAUTIONS_SHOWN: "Every caution stands where the household needs it.",
  LABEL_ON_PRODUCTS: "Every product step says that the label is the law.",
  NO_CHEMICAL_WHEN_UNDETERMINED: "Nothing chemical is advised while nothing is certain.",
  MOST_TOXIC_NEVER_FIRST: "The most toxic step is never the first.",
  PLAN_NOT_EMPTY: "Every plan has a step.",
  LONGEST_LOOKS: "The later looks at one case stay short.",
};

export function sayEnd({ conditions }: Names, { standing, leader, beside, bringSample }: EndView): string {
  const name = (id: string) => conditions[id] ?? id;
  if (leader === null || standing === "undetermined") return "Undetermined: bring a sample";
  const others = beside.length > 0 ? `, and beside it ${beside.map(name).join(", ")}` : "";
  const sample = bringSample ? ", with a sample" : "";
  return `${standing === "suspected" ? "Suspected" : "Leaning to"}: ${name(leader)}${others}${sample}`;
}

/** From → to, in words. */
export function sayGroup(names: Names, { kind, from, to, steps, questions }: ChangeGroup): string {
  if (kind === "verdict") return `${sayEnd(names, from)} → ${sayEnd(names, to)}`;
  const prompts = (ids: readonly string[]) =>
    ids.map((id) => `“${names.questions[id]?.prompt ?? id}”`).join(", ");
  const remedies = (ids: readonly string[]) => ids.map((id) => names.remedies[id] ?? id).join(", ");
  const parts =
    kind === "plan"
      ? [
          steps.added.length > 0 && `the plan gains ${remedies(steps.added)}`,
          steps.dropped.length > 0 && `the plan loses ${remedies(steps.dropped)}`,
          steps.otherwise && "the same steps come in another order or with other cautions",
        ]
      : [
          questions.added.length > 0 && `asks ${prompts(questions.added)} as well`,
          questions.dropped.length > 0 && `no longer asks ${prompts(questions.dropped)}`,
          questions.order && "asks in another order",
        ];
  return `${sayEnd(names, to)}, as before; ${parts.filter((part) => part !== false).join("; ")}`;
}

export function sayPairs(pairs: number): string {
  return pairs === 1 ? "1 conversation" : `${sayCount(pairs)} conversations`;
}

/** What goes along when the draft is published. */
export function makeReport(
  hash: string,
  names: Names,
  walk: WalkReport,
  comparison: Comparison | null,
): StudyReport {
  return {
    hash,
    conversations: Number(walk.conversations),
    longest: walk.longest,
    violations: walk.violations.length,
    change: comparison && makeChange(names, comparison),
  };
}

export function makeChange(names: Names, comparison: Comparison): StudyChange {
  const { pairs, differ, longer, shorter, longest, groups } = comparison;
  return {
    ...{ pairs, ...differ, longer, shorter, longestBefore: longest.live },
    groups: groups
      .slice(0, MOST_GROUPS)
      .map((group) => `${sayPairs(group.pairs)}: ${sayGroup(names, group)}`.slice(0, LONGEST_SENTENCE)),
  };
}
