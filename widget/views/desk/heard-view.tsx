import { type Piece, type PieceKind, pieceKinds } from "../../../flows/desk/pieces.ts";
import type { Flow } from "../../../flows/flow.ts";
import { Hidden } from "../question-card.tsx";
import { sayChip } from "../say-chip.ts";
import { asked as questions } from "../say-words.ts";
import type { DeskState, Heard } from "./desk-state.ts";
import { type DeskWays, onPress } from "./desk-ways.ts";
import * as words from "./desk-words.ts";

interface HeardViewProps {
  state: DeskState;
  ways: DeskWays;
}

/** What was understood of the caller's words, each piece with a tick. Agreeing takes what is ticked, and nothing else does. */
export function HeardView({ state, ways }: HeardViewProps) {
  const { flow, heard } = state;
  if (heard === null) return null;
  const { live } = ways;
  const { proposal, pieces } = heard;
  const ruledOut = nameRuledOut(flow, heard);
  const isNothing = pieces.length === 0 && ruledOut === "";
  const asked = new Set(pieces.map(({ to }) => to));
  return (
    <form
      class="desk-panel desk-heard"
      method="get"
      action={ways.action}
      aria-labelledby="desk-heard"
      {...(live && { onSubmit: live.onTake })}
    >
      {/* A plant that was not known before is named now. */}
      {!live && <Hidden pairs={ways.carried.filter(([name]) => isRemark(name) || !asked.has(name))} />}
      <h2 class="desk-h2" id="desk-heard">
        {words.understood}
      </h2>
      {(isNothing || pieces.length > 0) && (
        <p class="desk-quiet">
          {isNothing ? words.notUnderstoodPage : live ? words.heardKeys : words.heardHint}
        </p>
      )}
      {pieceKinds.map((kind) => (
        <Group key={kind} kind={kind} {...{ flow, heard, ways }} />
      ))}
      {ruledOut !== "" && <p>{words.ruledOut(ruledOut)}</p>}
      {proposal.rest.length > 0 && <p class="desk-rest">{words.restIs(proposal.rest)}</p>}
      {proposal.cut && <p>{words.cutOff}</p>}
      <div class="desk-actions">
        {pieces.length > 0 && (
          <button class="desk-button desk-button-main" type="submit">
            {words.agreeAll}
          </button>
        )}
        {live ? (
          <button class="desk-button" type="button" {...onPress(() => live.backToWords())}>
            {words.backToWords}
          </button>
        ) : (
          <a class="desk-button" href={ways.hrefToKeep}>
            {words.withoutIt}
          </a>
        )}
      </div>
    </form>
  );
}

/** What the caller says it is not; empty when nothing. */
export function nameRuledOut(flow: Flow, { proposal: { theories } }: Heard): string {
  const denied = theories.filter((theory) => theory.denied).flatMap(({ conditions }) => conditions);
  return denied.map((id) => nameOf(flow, id)).join(", ");
}

function isRemark(name: string): boolean {
  return name === "thought" || name === "asked";
}

interface GroupProps {
  kind: PieceKind;
  flow: Flow;
  heard: Heard;
  ways: DeskWays;
}

/** The pieces of a kind. Where one of several is meant, each question has a list of its own, with none of them at its end. */
function Group({ kind, flow, heard, ways }: GroupProps) {
  const all = heard.pieces.filter((piece) => piece.kind === kind);
  const single = all.filter(({ isOneOf }) => !isOneOf);
  const questionsOfSeveral = [...new Set(all.filter(({ isOneOf }) => isOneOf).map(({ to }) => to))];
  return (
    <>
      {single.length > 0 && <Pieces title={words.pieceKinds[kind]} pieces={single} {...{ flow, ways }} />}
      {questionsOfSeveral.map((to) => (
        <Pieces
          key={to}
          title={kind === "plant" ? words.whichPlant : (flow.question(to)?.prompt ?? to)}
          pieces={all.filter((piece) => piece.to === to)}
          {...{ flow, ways }}
          hasNone
        />
      ))}
    </>
  );
}

interface PiecesProps {
  title: string;
  pieces: readonly Piece[];
  flow: Flow;
  ways: DeskWays;
  hasNone?: boolean;
}

function Pieces({ title, pieces, flow, ways, hasNone = false }: PiecesProps) {
  return (
    <fieldset class="desk-question">
      <legend class="desk-legend">{title}</legend>
      <ul class="desk-options">
        {pieces.map((piece) => (
          <li key={`${piece.to}=${piece.is}`}>
            <PieceView {...{ piece, flow, ways }} />
          </li>
        ))}
        {hasNone && (
          <li>
            <NoneView {...{ pieces, ways }} />
          </li>
        )}
      </ul>
    </fieldset>
  );
}

function PieceView({ piece, flow, ways }: { piece: Piece; flow: Flow; ways: DeskWays }) {
  const { live } = ways;
  const { to, is, key, said, unsure, isTaken, isOneOf } = piece;
  return (
    <label class="desk-option" data-piece={`${to}=${is}`}>
      <input
        type={isOneOf ? "radio" : "checkbox"}
        name={to}
        value={is}
        checked={isTaken}
        {...(live && { onInput: (event: Event) => live.onPiece(piece, event) })}
      />
      {live && key !== "" && <kbd class="desk-key">{key}</kbd>}{" "}
      <span>
        {sayPiece(flow, piece)}
        {said !== "" && <span class="desk-quiet"> {words.heardFrom(said)}</span>}
        {unsure && <span class="desk-quiet"> {words.heardUnsure}</span>}
      </span>
    </label>
  );
}

function NoneView({ pieces, ways }: { pieces: readonly Piece[]; ways: DeskWays }) {
  const { live } = ways;
  const chosen = pieces.find(({ isTaken }) => isTaken);
  return (
    <label class="desk-option">
      <input
        type="radio"
        name={pieces[0]?.to ?? ""}
        value=""
        checked={chosen === undefined}
        {...(live && { onInput: () => chosen && live.leaveOut(chosen) })}
      />{" "}
      <span>{words.noneOfThese}</span>
    </label>
  );
}

/** A piece in words: a theory by the names it may mean, a question as it is answered later. */
export function sayPiece(flow: Flow, { kind, to, is }: Pick<Piece, "kind" | "to" | "is">): string {
  if (kind === "idea")
    return is
      .split(".")
      .map((id) => nameOf(flow, id))
      .join(", ");
  if (kind === "ask") return Object.entries(questions).find(([id]) => id === is)?.[1] ?? is;
  return sayChip(flow, { to, is });
}

function nameOf(flow: Flow, condition: string): string {
  return flow.condition(condition)?.name ?? condition;
}
