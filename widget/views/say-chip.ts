import type { Answer } from "../../flows/case.ts";
import { type Flow, NOT_SURE } from "../../flows/flow.ts";
import { notSure } from "./words.ts";

/** An answer by itself, without its question: the plant, what is seen or not seen, the label of a reply. */
export function sayChip(flow: Flow, { to, is }: Answer): string {
  if (to === flow.hostQuestion?.id) return flow.host(is)?.name ?? is;
  const finding = flow.finding(to);
  if (finding) return is === "yes" ? finding.name : finding.absent;
  if (is === NOT_SURE) return notSure;
  return flow.question(to)?.options.find(({ id }) => id === is)?.label ?? is;
}
