/** The checker of the editor's room: reads, walks and compares a draft in a Web Worker, so that the page stays quick. */
import "./jitless.ts";
import { compareTests } from "../../flows/compare/case-tests.ts";
import { type Causes, openCauses } from "../../flows/compare/causes.ts";
import { compareEditions } from "../../flows/compare/compare.ts";
import type { ChangeGroup, Comparison } from "../../flows/compare/report.ts";
import type { Files } from "../../flows/content/read-files.ts";
import { listChanges } from "../../flows/editing/difference.ts";
import { openReader } from "../../flows/editing/read-draft.ts";
import type { Edition } from "../../flows/edition.ts";
import { openFlow } from "../../flows/flow.ts";
import type { Progress } from "../../flows/progress.ts";
import { walkSteps } from "../../flows/walk/walk.ts";
import { layForm } from "./lay-form.ts";
import { nameAll } from "./names.ts";
import type { Ask, Checked, Reply, Stop } from "./protocol.ts";

/** Milliseconds of work between two looks at what was asked meanwhile. */
const SLICE = 40;

interface Room {
  draft: Files;
  /** The draft before any form was laid over it. */
  opened: Files | undefined;
  live: Files;
  liveEdition: Edition | null;
  edition: Edition | null;
  groups: readonly ChangeGroup[];
  causes: Causes | undefined;
}

const reader = openReader();
const room: Room = {
  ...{ draft: {}, opened: undefined, live: {}, liveEdition: null, edition: null },
  ...{ groups: [], causes: undefined },
};
const stopped = new Set<number>();

const PROBLEMS = "The draft has problems. Mend them first.";

self.addEventListener("message", ({ data }: MessageEvent<Ask | Stop>) => {
  if ("stop" in data) stopped.add(data.stop);
  else answer(data).catch((error: unknown) => tell({ id: data.id, refused: String(error) }));
});

function tell(reply: Reply): void {
  self.postMessage(reply);
}

async function answer(ask: Ask): Promise<void> {
  const { id } = ask;
  switch (ask.name) {
    case "open": {
      const { live, draft, liveNumber } = ask.asks;
      const { edition } = reader.read(live);
      Object.assign(room, {
        live,
        draft,
        opened: undefined,
        liveEdition: edition && { ...edition, number: liveNumber },
      });
      return tell({ id, gives: check() });
    }
    case "edit": {
      const { file, text } = ask.asks;
      const { [file]: _, ...others } = room.draft;
      room.draft = text === null ? others : { ...others, [file]: text };
      return tell({ id, gives: check() });
    }
    case "fill": {
      const { watched, texts } = ask.asks;
      // A field that is left as it was keeps what the file holds, so each filling begins from the draft as it was opened.
      room.opened ??= room.draft;
      room.draft = { ...room.opened, [watched.file]: layForm(room.opened, watched, texts) };
      return tell({ id, gives: check() });
    }
    case "changes":
      return tell({ id, gives: listChanges(room.live, room.draft) });
    case "walk":
      if (!room.edition) return tell({ id, refused: PROBLEMS });
      return run(id, walkSteps(openFlow(room.edition)));
    case "compare": {
      if (!room.edition || !room.liveEdition) return tell({ id, refused: PROBLEMS });
      return run<Comparison>(
        id,
        compareEditions(room.liveEdition, room.edition),
        keepGroups(room.liveEdition, room.edition),
      );
    }
    case "explain": {
      const { from, count } = ask.asks;
      const groups = room.groups.slice(from, from + count);
      return tell({ id, gives: groups.map((group) => room.causes?.explain(group) ?? []) });
    }
    case "names":
      if (!room.edition || !room.liveEdition) return tell({ id, refused: PROBLEMS });
      return tell({ id, gives: nameAll([room.liveEdition, room.edition]) });
    case "tests":
      if (!room.edition || !room.liveEdition) return tell({ id, refused: PROBLEMS });
      return tell({
        id,
        gives: compareTests(openFlow(room.liveEdition), openFlow(room.edition), ask.asks.tests),
      });
  }
}

function check(): Checked {
  const { edition, problems } = reader.read(room.draft);
  // The draft is called by the number of the live edition, so that the links of its conversations open.
  room.edition = edition && { ...edition, number: room.liveEdition?.number ?? 1 };
  return { problems };
}

function keepGroups(live: Edition, draft: Edition): (comparison: Comparison) => void {
  return ({ groups, same }) => {
    room.groups = groups;
    room.causes = same ? undefined : openCauses(live, draft);
  };
}

/** Works in slices, so that a stop is heard. */
async function run<T>(id: number, work: Generator<Progress, T>, keep?: (result: T) => void): Promise<void> {
  for (;;) {
    const until = performance.now() + SLICE;
    let step = work.next();
    while (!step.done && performance.now() < until) step = work.next();
    if (step.done) {
      keep?.(step.value);
      return tell({ id, gives: step.value });
    }
    tell({ id, progress: step.value });
    await new Promise((resolve) => setTimeout(resolve));
    if (stopped.delete(id)) return tell({ id, stopped: true });
  }
}
