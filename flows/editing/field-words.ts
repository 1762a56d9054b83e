import { type SectionKey, sectionHeadings } from "../content/sections.ts";
import type { Step } from "./edit.ts";

/** What the keys of content files are called in sentences to the editor. */
const words: Record<string, string> = {
  absent: "what it excludes",
  address: "the address",
  against: "what speaks against it",
  also_called: "the other names",
  always: "the cautions for everyone",
  amount: "the amount",
  any: "what must be seen first",
  ask_when: "when it is asked",
  at_home: "whether it is at home already",
  botanical: "the botanical name",
  brings: "what it brings",
  brought_on_by: "what brings it on",
  cautions: "the cautions",
  check: "the separating check",
  children: "the cautions for homes with children",
  circumstance: "whether it is a circumstance",
  combines: "the findings that make it up",
  eaten: "what holds where the plant is eaten",
  eppo: "the EPPO code",
  excludes: "what excludes it",
  first_aid: "the first aid",
  "flowering-or-outdoors": "what holds in flower or outdoors",
  for_food_plants: "whether it is for food plants",
  groups: "the plant groups",
  hallmark: "the hallmarks",
  harmed_by: "what harms it",
  host: "the weight of the host plant",
  how_common: "how common it is",
  how_to_bring: "how to bring a sample",
  humidity: "the humidity it likes",
  immune: "the plants that never get it",
  implies: "the vaguer findings",
  keep_dry: "whether it is kept dry",
  kind: "the kind",
  label: "the label",
  last_resort: "whether it is the last resort",
  lead: "the leads",
  light: "the light it likes",
  looks_like: "the look-alikes",
  method: "the method",
  minutes: "the minutes it takes",
  most_questions: "the most questions",
  name: "the name",
  needs: "what is needed",
  needs_sample: "whether a sample is needed",
  needs_standing: "the standing it needs",
  never_when: "when it is never given",
  none: "what must not be seen",
  only_on: "the plants it lives on",
  opening: "the opening",
  options: "the answers",
  order: "the order of questions",
  pets: "the cautions for homes with pets",
  phase: "the phase",
  plan: "the plan",
  poisonous: "what it is poisonous for",
  present: "what it establishes",
  product: "whether it is a bought product",
  prompt: "the question",
  prone: "the plants prone to it",
  reach: "the reach",
  repeat: "the repeats",
  silent_rival: "the silent rival",
  sources: "the sources",
  spreads: "whether it spreads",
  supports: "what supports it",
  toxicity: "the toxicity",
  until: "how long it is repeated",
  uses: "the products it uses",
  vague: "whether it is a vague first word",
  water: "the water it likes",
  when_absent: "what its absence says",
  when_unsure: "the questions for the unsure",
  why: "why we ask",
};

/** A field in words: `the answers, stipple, the label`. */
export function nameField(path: readonly Step[]): string {
  if (path[0] === "body") return "the text";
  if (path[0] === "sections") return `the text “${sectionHeadings[path[1] as SectionKey] ?? path[1]}”`;
  if (path[0] === "when_absent")
    return path[1] === "excludes" ? "what excludes it when absent" : "what speaks against it when absent";
  return path
    .filter((step, i) => !(i === 0 && step === "evidence"))
    .map((step) => (typeof step === "number" ? `item ${step + 1}` : (words[step] ?? step)))
    .join(", ");
}
