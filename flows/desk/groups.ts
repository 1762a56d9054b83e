import type { FindingKind } from "../edition.ts";
import type { Flow } from "../flow.ts";

/** How the desk sorts its questions, in the order of the screen. */
export const deskGroups = [
  "plant",
  "shows",
  "culprit",
  "soil",
  "place",
  "care",
  "household",
  "later",
] as const;
export type DeskGroup = (typeof deskGroups)[number];

/** Questions about the soil and the roots, whose findings are of several kinds. */
const aboutSoil = new Set(["pot-look", "soil-check", "roots-look", "base-check", "watering", "worms"]);

const groupOfKind: Record<FindingKind, DeskGroup> = {
  symptom: "shows",
  sign: "culprit",
  site: "place",
  care: "care",
};

/** Where a question stands. One that no list names goes by the kind of most of its findings. */
export function groupOf(flow: Flow, id: string): DeskGroup {
  const question = flow.question(id);
  if (question?.kind === "host") return "plant";
  if (question?.kind === "fact") return "household";
  if (question?.kind === "look") return "later";
  if (aboutSoil.has(id)) return "soil";
  if (flow.looks?.reopenings.some((one) => one.question.id === id)) return "later";
  const counts = new Map<FindingKind, number>();
  for (const reply of flow.promptById.get(id)?.replies ?? []) {
    for (const finding of [...reply.present, ...reply.absent]) {
      const kind = flow.edition.findings[finding]?.kind ?? "symptom";
      counts.set(kind, (counts.get(kind) ?? 0) + 1);
    }
  }
  const [most] = [...counts].sort(([, a], [, b]) => b - a);
  return groupOfKind[most?.[0] ?? "symptom"];
}
