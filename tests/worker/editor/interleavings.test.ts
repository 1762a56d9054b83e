import { env } from "cloudflare:test";
import { describe, expect, test } from "vitest";
import { readDraftFile, saveDraftFile } from "../../../worker/editor/drafts.ts";
import { wrapCalls } from "../wrap-calls.ts";
import { ada, ben, makeId, openDraft } from "./stage.ts";

const { ROUNDS } = env;
/** Rounds that run side by side, each on a file of its own. */
const SIDE_BY_SIDE = 20;

/** A small generator with a seed, so that a failure can be played again: mulberry32, public domain. */
function makeDice(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

interface Accepted {
  text: string;
  /** What the writer had in front of him. */
  saw: string | null;
}

/**
 * Two editors who work on one file without a word to each other. Each reads and saves a few times, adding a mark of his
 * own to what he saw. Every call to the database waits for its turn, and the dice say whose turn it is, so that their
 * reads and writes fall between each other in every way.
 */
async function playRound(draft: string, path: string, dice: () => number) {
  const waiting: (() => void)[] = [];
  let working = 2;
  const database = wrapCalls(env.DB, async (call) => {
    await new Promise<void>((resolve) => waiting.push(resolve));
    return call();
  });
  const accepted: Accepted[] = [];
  const refused: { kept: string; shown: string | null }[] = [];
  async function edit(name: string, saves: number): Promise<void> {
    let seen = await readDraftFile(database, draft, path);
    for (let turn = 1; turn <= saves && seen !== null; turn++) {
      const text = `${seen.text ?? ""}${name}${turn};`;
      const who = name === "A" ? ada : ben;
      const saved = await saveDraftFile(database, { draft, seen, text, token: makeId(), who, now: turn });
      if (saved.ok) {
        accepted.push({ text, saw: seen.text });
        seen = saved.file;
      } else if (saved.because === "changed") {
        refused.push({ kept: text, shown: saved.current.text });
        seen = saved.current;
      } else throw new Error(saved.because);
    }
    working--;
  }
  const [a, b] = [edit("A", 1 + Math.floor(dice() * 3)), edit("B", 1 + Math.floor(dice() * 3))];
  while (working > 0) {
    // Whoever can go on has asked for its turn by now; the dice also say how long others have to do so.
    if (waiting.length < working) await new Promise((resolve) => setTimeout(resolve, 0));
    const next = Math.floor(dice() * waiting.length);
    waiting.splice(next, 1)[0]?.();
  }
  await Promise.all([a, b]);
  return { accepted, refused };
}

describe("two editors", () => {
  test(`lose nothing in ${ROUNDS} interleavings`, { timeout: 120_000 + 400 * ROUNDS }, async () => {
    const draft = await openDraft();
    const dice = makeDice(20_260_101);
    let conflicts = 0;
    for (let round = 0; round < ROUNDS; round += SIDE_BY_SIDE) {
      await Promise.all(
        Array.from({ length: SIDE_BY_SIDE }, async (_, beside) => {
          const path = `questions/round-${round + beside}.md`;
          const { accepted, refused } = await playRound(draft, path, dice);
          conflicts += refused.length;
          // Each save that was taken went over one that its writer had in front of him.
          let current: string | null = null;
          for (const { text, saw } of accepted.toSorted((x, y) => x.text.length - y.text.length)) {
            expect(saw).toBe(current);
            current = text;
          }
          expect((await readDraftFile(env.DB, draft, path))?.text ?? null).toBe(current);
          // Whoever was refused was shown what stood there instead, and it was something that had been taken.
          for (const { shown } of refused) expect(accepted.map(({ text }) => text)).toContain(shown);
        }),
      );
    }
    expect(conflicts).toBeGreaterThan(ROUNDS / 2);
  });
});
