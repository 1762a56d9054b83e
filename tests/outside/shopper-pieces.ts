import { parse } from "yaml";
import { z } from "zod";
import { type Condition, facts, findingKinds, type Question, type Remedy } from "../../flows/edition.ts";
import { loadFiles, shippedContent } from "../flows/content/content-files.ts";
import { shippedFlow } from "../support/shipped-flow.ts";
import { makeGrader, unitsOf } from "./reading-grade.ts";

/** A piece of prose that a shopper reads in one go, and where it stands. */
export interface Piece {
  place: string;
  units: string[];
}

/** From how many words on a piece has to hold on its own: a label or a prompt is easy by being short. */
export const LONG_PIECE = 30;

const { edition } = shippedFlow();

function conditionPieces(condition: Condition): Piece[] {
  const sections = {
    "what it is": condition.whatItIs,
    "what brings it on": condition.whatBringsItOn,
    "will it live": condition.willItLive,
    "does it spread": condition.doesItSpread,
    prevention: condition.prevention,
    "when to give up": condition.whenToGiveUp,
    "when to bring it in": condition.whenToBringIn,
    ...Object.fromEntries(condition.looksLike.map(({ other, check }) => [`check against ${other}`, check])),
  };
  return Object.entries(sections).map(([name, blocks]) => ({
    place: `condition ${condition.id}, ${name}`,
    units: unitsOf(blocks),
  }));
}

function remedyPieces(remedy: Remedy): Piece[] {
  const { id, name, amount, cautions, repeat, steps } = remedy;
  const pieces: Record<string, string[]> = {
    steps: [name, ...unitsOf(steps)],
    amount: amount === null ? [] : [amount],
    "repeat until": repeat?.until ? [repeat.until] : [],
    ...Object.fromEntries((["always", ...facts] as const).map((when) => [`caution ${when}`, cautions[when]])),
  };
  return Object.entries(pieces).map(([part, units]) => ({ place: `remedy ${id}, ${part}`, units }));
}

function questionPieces({ id, prompt, why, howToCheck, options }: Question): Piece[] {
  const pieces: Record<string, string[]> = {
    prompt: [prompt],
    why: [why],
    "how to check": unitsOf(howToCheck),
    labels: options.map(({ label }) => label),
  };
  return Object.entries(pieces).map(([part, units]) => ({ place: `question ${id}, ${part}`, units }));
}

/** Names are phrases, not prose: they are graded together, kind by kind. */
function findingPieces(): Piece[] {
  return findingKinds.flatMap((kind) => {
    const ofKind = edition.findings.filter((finding) => finding.kind === kind);
    return [
      { place: `names of findings, ${kind}`, units: ofKind.map(({ name }) => name) },
      { place: `names of absent findings, ${kind}`, units: ofKind.map(({ absent }) => absent) },
    ];
  });
}

/** Everything that a shopper reads, with its grade, the hardest first. */
export function gradePieces(): (Piece & { grade: number })[] {
  const tradeWords = z.array(z.string()).parse(parse(loadFiles(shippedContent)["trade-words.yaml"] ?? ""));
  const grade = makeGrader(tradeWords);
  return [
    ...edition.conditions.flatMap(conditionPieces),
    ...edition.remedies.flatMap(remedyPieces),
    ...edition.questions.flatMap(questionPieces),
    ...findingPieces(),
    ...(edition.drawings ?? []).map(({ id, shows }) => ({ place: `drawing ${id}`, units: [shows] })),
    { place: "how to bring a sample", units: unitsOf(edition.conversation.howToBring) },
  ]
    .filter(({ units }) => units.length > 0)
    .map((piece) => ({ ...piece, grade: grade(piece.units) }))
    .sort((a, b) => b.grade - a.grade);
}

export function wordsIn(units: readonly string[]): number {
  return units.join(" ").split(/\s+/).length;
}
