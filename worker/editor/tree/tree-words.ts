import type { TreeFault } from "../../../flows/editing/tree.ts";

const faults: Record<TreeFault, string> = {
  NOT_IN_ORDER: "it has no place in the order of questions",
  NOTHING_LEADS_HERE: "no answer brings it up",
  SAYS_NOTHING: "no condition listens to any of its answers",
};

/** Sentences of the tree of questions. */
export const treeWords = {
  faults,
  title: "The tree of questions",
  tab: "The tree",
  lead: "Every question in its turn, and which answers bring it up. Press a question to open it. The check then skips a question when no answer to it could still change the verdict or the plan.",
  drawing: "The tree of questions as a drawing",
  words: "The tree in words",
  neverAsked: "never asked",
  deadEnd: "dead end",
  step: (step: number) => `Step ${step} of the case`,
  unread: "Some files cannot be read in full, so the tree may lack something:",
  noFiles: "The live guide was stored without its files, so its tree cannot be drawn.",
  keys: "Tab goes from question to question in their turn. Arrow keys follow the arrows: right to what a question leads to, left to where it comes from. + and − zoom, 0 shows the whole.",
  legend: [
    ["Solid arrow", "an answer brings the question up"],
    ["Dashed arrow", "nothing follows but the verdict, or only the plan asks"],
    ["Dotted arrow", "next on the path of the case, by the order alone"],
    ["Double dashed frame, ✕", "never asked"],
    ["Line with a bar", "a dead end: an answer that says nothing to anyone"],
    ["Thick frame, number", "a step of the case that is lit up"],
  ],
  caseLabel: "Link or code of a case",
  caseButton: "Light up its path",
  keptLabel: "Or a kept case",
  caseBad: "This is no link or code of a case that we can read.",
  caseProblems:
    "The draft has problems, so no case can be played in it yet. Mend what the checks name first.",
} as const;
