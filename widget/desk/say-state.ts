import { answerTo, type Case } from "../../flows/case.ts";
import { pieceKinds, setPiece } from "../../flows/desk/pieces.ts";
import type { DeskState, Heard } from "../views/desk/desk-state.ts";
import * as words from "../views/desk/desk-words.ts";
import { sayPiece } from "../views/desk/heard-view.tsx";
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
export function sayHeard({ flow }: DeskState, { proposal: { rest, cut }, pieces }: Heard): string {
  const kinds = pieceKinds.flatMap((kind) => {
    const taken = pieces.filter((piece) => piece.isTaken && piece.kind === kind);
    const names = taken.map((piece) => sayPiece(flow, piece).replace(/\?$/, "")).join(", ");
    return taken.length > 0 ? [words.heardKind(words.heardKinds[kind], names)] : [];
  });
  return [
    ...(kinds.length > 0 ? [words.heardAll(kinds.join("; "))] : []),
    ...(rest.length > 0 ? [words.restIs(rest)] : []),
    ...(cut ? [words.cutOff] : []),
    words.enterTakes,
  ].join(" ");
}

/** A piece is taken or left out by its key; null when no piece has it. */
export function pressPiece(
  state: DeskState,
  heard: Heard,
  key: string,
): { heard: Heard; said: string } | null {
  const piece = heard.pieces.find((one) => one.key !== "" && one.key === key.toLowerCase());
  if (piece === undefined) return null;
  const isTaken = !piece.isTaken;
  const name = sayPiece(state.flow, piece);
  return {
    heard: { ...heard, pieces: setPiece(heard.pieces, piece, isTaken) },
    said: isTaken ? words.backIn(name) : words.leftOut(name),
  };
}

/** What still waits to be agreed to after another answer was given: what that told is told; null when nothing is left. */
export function stillOpen(heard: Heard, kase: Case): Heard | null {
  const pieces = heard.pieces.filter(({ kind, to }) => kind === "plant" || answerTo(kase, to) === undefined);
  return pieces.length > 0 ? { ...heard, pieces } : null;
}
