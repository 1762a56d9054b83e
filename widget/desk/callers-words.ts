import { answerTo, type Case } from "../../flows/case.ts";
import { layPieces, type Piece, setPiece } from "../../flows/desk/pieces.ts";
import type { DeskState, Heard } from "../views/desk/desk-state.ts";
import * as words from "../views/desk/desk-words.ts";
import { sayPiece } from "../views/desk/heard-view.tsx";
import type { Say } from "./load-say.ts";

/** The caller's own words: from the field to pieces that wait to be agreed to. Nothing of them counts before. */
export class CallersWords {
  readonly #load: () => Promise<Say>;
  heard: Heard | null = null;

  constructor(load: () => Promise<Say>) {
    this.#load = load;
  }

  /** Fetches what reads words while they are still being typed. */
  prepare(): void {
    this.#load().catch(() => {});
  }

  /** What is understood of the words, not yet kept; null when what reads them cannot be fetched. */
  async read({ case: kase, desk }: DeskState, typed: string): Promise<Heard | null> {
    try {
      const { flow, propose } = await this.#load();
      const proposal = propose(flow, kase, desk.best?.question ?? null, typed);
      return { proposal, pieces: layPieces(proposal) };
    } catch {
      return null;
    }
  }

  /** A piece is taken or left out by its key. Returns what to say. */
  press({ flow }: DeskState, key: string): string {
    const piece = this.heard?.pieces.find((one) => one.key !== "" && one.key === key.toLowerCase());
    if (piece === undefined) return words.agreeFirst;
    this.set(piece, !piece.isTaken);
    const name = sayPiece(flow, piece);
    return piece.isTaken ? words.leftOut(name) : words.backIn(name);
  }

  set(piece: Piece, isTaken: boolean): void {
    if (this.heard) this.heard = { ...this.heard, pieces: setPiece(this.heard.pieces, piece, isTaken) };
  }

  /** After another answer: pieces that it tells are told; what is left still waits. */
  settle(kase: Case): void {
    const pieces = this.heard?.pieces.filter(
      ({ kind, to }) => kind === "plant" || answerTo(kase, to) === undefined,
    );
    this.heard = this.heard && pieces && pieces.length > 0 ? { ...this.heard, pieces } : null;
  }

  /** The pieces that are taken; nothing waits any more. */
  take(): Piece[] {
    const pieces = this.heard?.pieces.filter(({ isTaken }) => isTaken) ?? [];
    this.heard = null;
    return pieces;
  }

  /** The words as they were typed; nothing waits any more. */
  putAway(): string {
    const typed = this.heard?.proposal.typed ?? "";
    this.heard = null;
    return typed;
  }
}

/** Whether nothing at all was understood. */
export function isNothing({ proposal, pieces }: Heard): boolean {
  return pieces.length === 0 && !proposal.theories.some(({ denied }) => denied);
}
