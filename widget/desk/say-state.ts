import { pieceKinds } from "../../flows/desk/pieces.ts";
import type { DeskState, Heard } from "../views/desk/desk-state.ts";
import * as words from "../views/desk/desk-words.ts";
import { nameRuledOut, sayPiece } from "../views/desk/heard-view.tsx";
import { sayVerdict } from "../views/report.ts";

/** Where the call stands, in a sentence for the live region. */
export function sayState({ desk, flow, report }: DeskState): string {
  if (desk.best === null) return `${words.due} ${sayVerdict(flow, report.verdict)}`;
  const [first] = desk.rows;
  const name = first && (flow.condition(first.condition)?.name ?? first.condition);
  const leads = name ? `${words.leads(name, words.standings[first.standing ?? "undetermined"])} ` : "";
  return `${leads}${words.nextIs(desk.best.question.prompt)}`;
}

/** What was understood, and what was not. */
export function sayHeard({ flow }: DeskState, heard: Heard): string {
  const { proposal, pieces } = heard;
  const { rest, cut } = proposal;
  const ruledOut = nameRuledOut(flow, heard);
  const kinds = pieceKinds.flatMap((kind) => {
    const taken = pieces.filter((piece) => piece.isTaken && piece.kind === kind);
    const names = taken.map((piece) => sayPiece(flow, piece).replace(/\?$/, "")).join(", ");
    return taken.length > 0 ? [words.heardKind(words.heardKinds[kind], names)] : [];
  });
  return [
    ...(kinds.length > 0 ? [words.heardAll(kinds.join("; "))] : []),
    ...(ruledOut === "" ? [] : [words.ruledOut(ruledOut)]),
    ...(rest.length > 0 ? [words.restIs(rest)] : []),
    ...(cut ? [words.cutOff] : []),
    ...(kinds.length > 0 ? [words.enterTakes] : []),
  ].join(" ");
}
