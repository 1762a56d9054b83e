import type { Answer } from "../case.ts";
import { findHosts } from "../find-host.ts";
import type { Flow } from "../flow.ts";

const MOST_PLANTS = 4;

/** Plants for a name that is still being typed: those that begin with it first, then near ones. */
export function findPlants(flow: Flow, typed: string, limit = 9): string[] {
  const sought = typed.trim().toLowerCase();
  if (sought === "") return [];
  const begins = (name: string) => name.toLowerCase().startsWith(sought);
  const called = flow.edition.hosts.filter(({ name }) => begins(name));
  const known = flow.edition.hosts.filter(({ botanical, alsoCalled }) =>
    [...alsoCalled, botanical ?? ""].some(begins),
  );
  const found = [...called, ...known, ...findHosts(flow, typed, limit)].map(({ id }) => id);
  return [...new Set(found)].slice(0, limit);
}

/**
 * Answers whose words begin with those typed, whatever the question: for what a caller says unasked. Those to open
 * questions come first, then the ones whose own words match over those whose question does.
 */
export function findReplies(flow: Flow, open: ReadonlySet<string>, words: string, limit = 9): Answer[] {
  const sought = wordsOf(words);
  if (sought.length === 0) return [];
  const found: { answer: Answer; score: number }[] = [];
  for (const { question } of [...flow.prompts, ...flow.factPrompts]) {
    for (const option of question.options) {
      const score = match(sought, option.label, question.prompt);
      if (score === 0) continue;
      found.push({
        answer: { to: question.id, is: option.id },
        score: score + (open.has(question.id) ? 1 : 0),
      });
    }
  }
  const plants = flow.hostQuestion ? findPlants(flow, words, MOST_PLANTS) : [];
  const replies = found.sort((a, b) => b.score - a.score).map(({ answer }) => answer);
  const named = plants.map((is) => ({ to: flow.hostQuestion?.id ?? "", is }));
  return [...replies.slice(0, limit - named.length), ...named];
}

function match(sought: readonly string[], label: string, prompt: string): number {
  const own = wordsOf(label);
  const all = [...own, ...wordsOf(prompt)];
  const isIn = (some: readonly string[]) => sought.every((word) => some.some((one) => one.startsWith(word)));
  if (isIn(own)) return 4;
  return isIn(all) ? 2 : 0;
}

function wordsOf(text: string): string[] {
  return text.toLowerCase().match(/[\p{L}\d]+/gu) ?? [];
}
