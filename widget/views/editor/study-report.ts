/** What a browser found when it went through every conversation of a draft: sent along when the draft is published, and kept. */

export interface StudyReport {
  /** Of the edition that the draft becomes. A report counts for exactly these contents. */
  hash: string;
  conversations: number;
  /** Questions in the longest conversation. */
  longest: number;
  /** Conversations found that break a rule of the design. */
  violations: number;
  /** What it does to the conversations of the edition before. Null when they were not compared. */
  change: StudyChange | null;
}

export interface StudyChange {
  /** Pairs of conversations; 0 when nothing differs that bears on any. */
  pairs: number;
  verdict: number;
  plan: number;
  questions: number;
  longer: number;
  shorter: number;
  longestBefore: number;
  /** The greatest groups in a sentence each, most conversations first. */
  groups: string[];
}

/** Groups that a report names, and characters of each sentence. */
export const MOST_GROUPS = 12;
export const LONGEST_SENTENCE = 300;
/** Characters of a report as JSON; more is not read. */
export const LONGEST_REPORT = 8_000;

/** Reads a report that came with a form. Null when it is none, or of other contents. */
export function readStudyReport(text: string, hash: string): StudyReport | null {
  const read = parse(text);
  const [conversations, longest, violations] = [
    countOf(read, "conversations"),
    countOf(read, "longest"),
    countOf(read, "violations"),
  ];
  if (read.hash !== hash || conversations === null || longest === null || violations === null) return null;
  return { hash, conversations, longest, violations, change: readChange(read.change) };
}

function readChange(value: unknown): StudyChange | null {
  const read = recordOf(value);
  const counts = Object.fromEntries(
    ["pairs", "verdict", "plan", "questions", "longer", "shorter", "longestBefore"].map((name) => [
      name,
      countOf(read, name),
    ]),
  );
  if (Object.values(counts).includes(null)) return null;
  const groups = Array.isArray(read.groups) ? read.groups : [];
  return {
    ...(counts as Record<Exclude<keyof StudyChange, "groups">, number>),
    groups: groups
      .filter((one): one is string => typeof one === "string")
      .slice(0, MOST_GROUPS)
      .map((one) => one.slice(0, LONGEST_SENTENCE)),
  };
}

type Read = Record<string, unknown>;

function parse(text: string): Read {
  if (text.length > LONGEST_REPORT) return {};
  try {
    return recordOf(JSON.parse(text));
  } catch {
    return {};
  }
}

function recordOf(value: unknown): Read {
  return typeof value === "object" && value !== null ? (value as Read) : {};
}

function countOf(read: Read, name: string): number | null {
  const count = read[name];
  return Number.isSafeInteger(count) && Number(count) >= 0 ? Number(count) : null;
}

export function sayCount(count: number): string {
  return count.toLocaleString("en-US");
}

/** Every conversation, in one sentence. */
export function sayWalk({ conversations, longest, violations }: StudyReport): string {
  const rules =
    violations === 0
      ? "no rule is broken in any"
      : violations === 1
        ? "one rule is broken"
        : `${violations} rules are broken`;
  return `${sayCount(conversations)} conversations were gone through; ${rules}. The longest asks ${longest} questions.`;
}

/** What changes, in one or two sentences. */
export function sayChange(change: StudyChange, longest: number): string {
  const { pairs, verdict, plan, questions, longer, shorter, longestBefore } = change;
  if (verdict + plan + questions === 0) return "No conversation changes.";
  const parts = [
    verdict > 0 && `${sayCount(verdict)} end in another verdict`,
    plan > 0 && `${sayCount(plan)} lead to another plan`,
    questions > 0 && `${sayCount(questions)} ask other questions on the way to the same`,
  ].filter((part) => part !== false);
  const lengths = [
    longer > 0 && `${sayCount(longer)} became longer`,
    shorter > 0 && `${sayCount(shorter)} became shorter`,
  ].filter((part) => part !== false);
  const most =
    longest === longestBefore
      ? ""
      : ` The longest asks ${longest} questions; before, it asked ${longestBefore}.`;
  const length = lengths.length > 0 ? ` ${lengths.join(", ")}.` : "";
  return `Of ${sayCount(pairs)} conversations, ${joinWords(parts)}.${length}${most}`;
}

function joinWords(parts: readonly string[]): string {
  const last = parts.at(-1) ?? "";
  return parts.length > 1 ? `${parts.slice(0, -1).join(", ")} and ${last}` : last;
}
