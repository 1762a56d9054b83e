import { type Closure, followImplies } from "../content/check-findings.ts";
import type { Content, QuestionEntry } from "../content/content.ts";
import { type Files, newMemory, readFiles } from "../content/read-files.ts";
import type { QuestionKind } from "../edition.ts";
import { NOT_SURE } from "../flow.ts";

/** One answer, and the questions that it can bring up. */
export interface TreeAnswer {
  id: string;
  label: string;
  leadsTo: readonly string[];
  /** It says something, but no condition listens and no question follows: it might as well not be there. */
  isDeadEnd: boolean;
}

export const treeFaults = ["NOT_IN_ORDER", "NOTHING_LEADS_HERE", "SAYS_NOTHING"] as const;
/** Why a question can never be asked. */
export type TreeFault = (typeof treeFaults)[number];

export interface TreeQuestion {
  id: string;
  kind: QuestionKind;
  prompt: string;
  /** Its turn among the questions, from 1; null when it has none. */
  turn: number | null;
  answers: readonly TreeAnswer[];
  /** Names of findings: asked when one of these was told, and none of those. */
  when: { any: readonly string[]; none: readonly string[] };
  neverAsked: TreeFault | null;
}

/** The questions in their turn, and what leads where. */
export interface Tree {
  opening: string;
  questions: readonly TreeQuestion[];
  /** Files that say something about questions and could not be read in full. */
  unread: readonly string[];
}

/** What a tree is made of; the rest of a folder does not bear on it. */
const bearing = /^(?:questions\/|conditions\/|findings\.yaml$|conversation\.yaml$)/;

/**
 * The tree of a folder, also of one with problems in it: what can be read is shown. An answer leads to a question when it
 * establishes a finding that the question waits for, and none that it yields to. Whether the question is then asked in a
 * certain conversation depends on all that was said; that is the walk's to say. `memory`: what was read before.
 */
export function readTree(files: Files, memory = newMemory()): Tree {
  const own = Object.fromEntries(Object.entries(files).filter(([path]) => bearing.test(path)));
  const { value: content, problems } = readFiles(own, memory);
  const follow = followImplies(content.findings.entries.map(({ value }) => value));
  const opening = content.conversation?.value.opening ?? "";
  const turns = listTurns(content, opening);
  const links = linkQuestions(content, follow, opening, turns);
  const told = tellAll(content, follow, opening, turns);
  const nameOf = openNames(content);
  const questions = content.questions.entries.map((entry): TreeQuestion => {
    const { id, kind, prompt, ask_when: when } = entry.value;
    const turn = turns.indexOf(id);
    return {
      ...{ id, kind, prompt, turn: turn < 0 ? null : turn + 1 },
      answers: links.answersOf(entry),
      when: { any: when.any.map(nameOf), none: when.none.map(nameOf) },
      neverAsked: kind === "finding" ? findFault(content, follow, entry, { opening, turns, told }) : null,
    };
  });
  const last = questions.length + 1;
  const unread = new Set(problems.map(({ file }) => file).filter((file) => Object.hasOwn(own, file)));
  return {
    opening,
    questions: questions.sort((a, b) => (a.turn ?? last) - (b.turn ?? last)),
    unread: [...unread],
  };
}

/** Ids in the order of asking: the opening, the plant, the editor's order, then household and second look. */
function listTurns(content: Content, opening: string): string[] {
  const ofKind = (kind: QuestionKind) =>
    content.questions.entries.filter(({ value }) => value.kind === kind).map(({ value }) => value.id);
  const order = content.conversation?.value.order ?? [];
  return [...new Set([opening, ...ofKind("host"), ...order, ...ofKind("fact"), ...ofKind("look")])];
}

function openNames({ findings }: Content): (id: string) => string {
  const names = new Map(findings.entries.map(({ value }) => [value.id, value.name]));
  return (id) => names.get(id) ?? id;
}

function linkQuestions(content: Content, follow: Closure, opening: string, turns: readonly string[]) {
  const waiting = content.questions.entries.filter(
    ({ value }) => value.kind === "finding" && value.id !== opening && turns.includes(value.id),
  );
  const unsure = (content.conversation?.value.when_unsure ?? []).filter((id) => turns.includes(id));
  const heard = listHeard(content);
  const answersOf = ({ value: { id, kind, options } }: QuestionEntry): TreeAnswer[] => {
    const answers = options.map((option): TreeAnswer => {
      const present = new Set(option.present.flatMap((finding) => [...follow(finding)]));
      const leadsTo = waiting
        .filter(
          ({ value }) =>
            value.id !== id &&
            value.ask_when.any.some((finding) => present.has(finding)) &&
            !value.ask_when.none.some((finding) => present.has(finding)) &&
            !isToldBy(value.options, present),
        )
        .map(({ value }) => value.id);
      const isHeard =
        [...present].some((finding) => heard.present.has(finding)) ||
        option.absent.some((finding) => heard.absent.has(finding));
      const isDeadEnd = kind === "finding" && !option.none && leadsTo.length === 0 && !isHeard;
      return { id: option.id, label: option.label, leadsTo, isDeadEnd };
    });
    if (id !== opening || unsure.length === 0) return answers;
    return [...answers, { id: NOT_SURE, label: "I'm not sure", leadsTo: unsure, isDeadEnd: false }];
  };
  return { answersOf };
}

/** Whether what was said amounts to one of the answers: then the question has been answered early. */
function isToldBy(options: readonly { present: readonly string[] }[], told: ReadonlySet<string>): boolean {
  return options.some(({ present }) => present.length > 0 && present.every((finding) => told.has(finding)));
}

/** The findings that some condition listens to, when they are there and when they are not. */
function listHeard({ conditions, findings }: Content) {
  const present = new Set<string>();
  const absent = new Set<string>();
  for (const { value } of conditions.entries) {
    const { hallmark, supports, against, excludes } = value.evidence;
    for (const id of [...hallmark, ...supports, ...against, ...excludes]) present.add(id);
    for (const id of [...hallmark, ...supports, ...value.when_absent.against, ...value.when_absent.excludes])
      absent.add(id);
  }
  for (const { value } of findings.entries)
    if (present.has(value.id)) for (const part of value.combines) present.add(part);
  return { present, absent };
}

interface Standing {
  opening: string;
  turns: readonly string[];
  /** Every finding that the answers to askable questions can tell. */
  told: ReadonlySet<string>;
}

/** What can be told at all, when each question that comes up is answered in every way. */
function tellAll(content: Content, follow: Closure, opening: string, turns: readonly string[]): Set<string> {
  const told = new Set<string>();
  const unsure = content.conversation?.value.when_unsure ?? [];
  const asked = new Set<string>();
  for (let before = -1; before !== asked.size; ) {
    before = asked.size;
    for (const { value } of content.questions.entries) {
      const comesUp =
        value.id === opening ||
        (turns.includes(value.id) && (unsure.includes(value.id) || isOpen(value.ask_when.any, told)));
      if (asked.has(value.id) || value.kind !== "finding" || !comesUp) continue;
      asked.add(value.id);
      for (const option of value.options)
        for (const finding of option.present) for (const each of follow(finding)) told.add(each);
      for (const { value: whole } of content.findings.entries)
        if (whole.combines.length > 0 && whole.combines.every((part) => told.has(part))) told.add(whole.id);
    }
  }
  return told;
}

/** A question that waits for nothing may be asked at any time. */
function isOpen(any: readonly string[], told: ReadonlySet<string>): boolean {
  return any.length === 0 || any.some((finding) => told.has(finding));
}

function findFault(
  content: Content,
  follow: Closure,
  { value }: QuestionEntry,
  { opening, turns, told }: Standing,
): TreeFault | null {
  if (value.id === opening) return null;
  if (!turns.includes(value.id)) return "NOT_IN_ORDER";
  const unsure = content.conversation?.value.when_unsure ?? [];
  if (!unsure.includes(value.id) && !isOpen(value.ask_when.any, told)) return "NOTHING_LEADS_HERE";
  const heard = listHeard(content);
  const isHeard = value.options.some(
    (option) =>
      option.present.some((finding) => [...follow(finding)].some((each) => heard.present.has(each))) ||
      (option.none ? value.options.flatMap(({ present }) => present) : option.absent).some((finding) =>
        heard.absent.has(finding),
      ),
  );
  return isHeard ? null : "SAYS_NOTHING";
}
