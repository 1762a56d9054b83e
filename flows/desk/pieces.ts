import { type Answer, type Case, giveAnswer } from "../case.ts";
import { type RemarkName, readIds } from "../case-link.ts";
import type { Flow } from "../flow.ts";
import type { Chip, Proposal } from "../understand/propose.ts";
import { optionKey } from "./keys.ts";

export const pieceKinds = ["reply", "plant", "seen", "not-seen", "home", "idea", "ask"] as const;
export type PieceKind = (typeof pieceKinds)[number];

/** What was told beside the case: ids joined by dots, as links carry them. */
export type Remarks = Readonly<Partial<Record<RemarkName, string>>>;

/** One piece of what was understood, to be taken or left out by itself. */
export interface Piece {
  kind: PieceKind;
  /** The key that takes it, or leaves it out; empty beyond the last of them. */
  key: string;
  /** Of an answer: the question or finding. Of an idea and a question of the caller's: the name of the remark. */
  to: string;
  is: string;
  /** The words it was read from. */
  said: string;
  unsure: boolean;
  isTaken: boolean;
  /** At most one of the pieces with the same `to` can be taken. */
  isOneOf: boolean;
}

/** Lays out what was understood. Where one of several was meant, plants have the first taken, the home has none. */
export function layPieces({
  reply,
  plants,
  present,
  absent,
  home,
  halfTold,
  theories,
  asks,
}: Proposal): Piece[] {
  const piece = (kind: PieceKind, { to, is, said, unsure }: Chip) => ({
    ...{ kind, to, is, said, unsure, key: "", isTaken: true, isOneOf: false },
  });
  const remark = (kind: PieceKind, to: RemarkName, is: string, said: string) =>
    piece(kind, { to, is, said, unsure: false });
  const halves = halfTold.flatMap(({ question, fits, said }) =>
    fits.map((is) => ({
      ...piece("home", { to: question.id, is, said, unsure: false }),
      isTaken: false,
      isOneOf: true,
    })),
  );
  const pieces = [
    ...(reply ? [piece("reply", reply)] : []),
    ...plants.map((plant, at) => ({
      ...piece("plant", plant),
      isTaken: at === 0,
      isOneOf: plants.length > 1,
    })),
    ...present.map((chip) => piece("seen", chip)),
    ...absent.map((chip) => piece("not-seen", chip)),
    ...home.map((chip) => piece("home", chip)),
    ...halves,
    ...theories.flatMap(({ conditions, said, denied }) =>
      denied ? [] : [remark("idea", "thought", conditions.join("."), said)],
    ),
    ...asks.map((ask) => remark("ask", "asked", ask, "")),
  ];
  return pieces.map((one, place) => ({ ...one, key: optionKey(place) }));
}

/** Takes a piece, or leaves it out. Taking one of several leaves the others out. */
export function setPiece(pieces: readonly Piece[], chosen: Piece, isTaken: boolean): Piece[] {
  return pieces.map((piece) => {
    if (piece.to === chosen.to && piece.is === chosen.is) return { ...piece, isTaken };
    const isRival = isTaken && chosen.isOneOf && piece.isOneOf && piece.to === chosen.to;
    return isRival ? { ...piece, isTaken: false } : piece;
  });
}

export interface Taken {
  case: Case;
  remarks: Remarks;
  /** Answers that no longer apply. */
  dropped: Answer[];
}

/** The case with all pieces that are taken. */
export function takePieces(flow: Flow, kase: Case, remarks: Remarks, pieces: readonly Piece[]): Taken {
  let taken: Taken = { case: kase, remarks, dropped: [] };
  for (const { kind, to, is } of pieces.filter(({ isTaken }) => isTaken)) {
    if (kind === "idea" || kind === "ask") {
      taken = { ...taken, remarks: addRemark(taken.remarks, kind === "idea" ? "thought" : "asked", is) };
      continue;
    }
    const { case: next, dropped } = giveAnswer(flow, taken.case, to, is);
    taken = { ...taken, case: next, dropped: [...taken.dropped, ...dropped] };
  }
  return taken;
}

function addRemark(remarks: Remarks, name: RemarkName, ids: string): Remarks {
  return { ...remarks, [name]: readIds(`${remarks[name] ?? ""}.${ids}`).join(".") };
}

/** The remarks without one id; a name that holds none any more is left out. */
export function dropRemark(remarks: Remarks, name: RemarkName, id: string): Remarks {
  const { [name]: told, ...others } = remarks;
  const left = readIds(told).filter((one) => one !== id);
  return left.length === 0 ? others : { ...others, [name]: left.join(".") };
}
