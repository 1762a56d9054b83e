/** The tree of questions of the live edition or of a draft: drawn, zoomed, in words, with the path of a case lit up. */
import { Hono } from "hono";
import { type Files, newMemory } from "../../../flows/content/read-files.ts";
import { type CasePath, followCase } from "../../../flows/editing/case-path.ts";
import { readTree, type Tree } from "../../../flows/editing/tree.ts";
import { type Show, selectPart } from "../../../flows/editing/tree-part.ts";
import { type Flow, openFlow } from "../../../flows/flow.ts";
import type { PrivateSetting } from "../../setting.ts";
import { compile } from "../compile.ts";
import { DraftFrame, hrefTo } from "../draft-frame.tsx";
import { readWholeDraft } from "../drafts.ts";
import { editorWords } from "../editor-words.ts";
import { readFolder } from "../folders.ts";
import { listKeptCases } from "../kept-cases.ts";
import { readLiveNumber } from "../publish.ts";
import { databaseOf, ROOM, type RoomContext, showPage, showSentence } from "../room.tsx";
import type { Lit } from "./drawing.tsx";
import { placeTree, VERDICT } from "./layout.ts";
import { readPasted } from "./read-case.ts";
import { TreePage } from "./tree-page.tsx";
import { treeWords } from "./tree-words.ts";

export const zooms = [40, 60, 80, 100, 140, 200] as const;

export function makeTreeRoutes() {
  const routes = new Hono<PrivateSetting>();
  // What was read of a folder is known again when its drawing is zoomed or cut.
  const memory = newMemory();
  routes.get("/tree", async (c) => {
    const number = await readLiveNumber(databaseOf(c));
    const files = await readFolder(databaseOf(c), number);
    if (files === null) return showSentence(c, 404, treeWords.title, treeWords.noFiles);
    const flow = async () => (await c.var.openEditions()).live;
    const part = await makePart(c, {
      files,
      tree: readTree(files, memory),
      flow,
      base: `${ROOM}/tree`,
      draft: null,
    });
    return showPage(c, { title: `${treeWords.title}, edition ${number}`, script: SCRIPT, children: part });
  });
  routes.get("/drafts/:id/tree", async (c) => {
    const whole = await readWholeDraft(databaseOf(c), c.req.param("id"));
    if (whole === null) return showSentence(c, 404, "Draft", editorWords.gone);
    const { draft, files } = whole;
    const flow = async () => {
      const { edition } = await compile(files);
      return edition && openFlow(edition);
    };
    const base = hrefTo(draft.id, "tree");
    const part = await makePart(c, { files, tree: readTree(files, memory), flow, base, draft: draft.id });
    const children = (
      <DraftFrame draft={draft} part="tree">
        {part}
      </DraftFrame>
    );
    return showPage(c, { title: draft.title, script: SCRIPT, children });
  });
  return routes;
}

const SCRIPT = "/assets/editor/tree.js";

interface Source {
  files: Files;
  tree: Tree;
  /** Null while the draft has problems. */
  flow(): Promise<Flow | null>;
  base: string;
  draft: string | null;
}

async function makePart(c: RoomContext, { tree, flow, base, draft }: Source) {
  const kept = await listKeptCases(databaseOf(c));
  const pasted = (c.req.query("case") ?? "").slice(0, 4000);
  const chosen = kept.find(({ id }) => id === c.req.query("kept"));
  const asked = pasted.trim() === "" ? (chosen?.query ?? "") : pasted;
  const played = asked.trim() === "" ? null : await playCase(c, flow, asked);
  const path = played !== null && "path" in played ? played.path : null;
  const show = readShow(c);
  const part = selectPart(tree, show);
  const shown = path === null ? part : withPath(tree, part, path);
  const leads = new Set([...shown.spine].map((pair) => pair.split(">", 1)[0]));
  const ends = shown.questions.filter(
    ({ id, kind, neverAsked }) => kind === "finding" && neverAsked === null && !leads.has(id),
  );
  const placed = placeTree(shown, {
    opening: tree.opening,
    follow: path === null ? [] : pairs(path),
    last: [...("around" in show ? [] : ends.map(({ id }) => id)), ...lastOf(path)],
    isOverview: "all" in show,
    isWhole: "around" in show,
  });
  return (
    <TreePage
      {...{ tree, placed, base, draft, show, played }}
      asked={asked}
      lit={path === null ? null : lightUp(path)}
      zoom={zooms.find((one) => String(one) === c.req.query("zoom")) ?? null}
      kept={kept}
    />
  );
}

function readShow(c: RoomContext): Show {
  const [from, around] = [c.req.query("from"), c.req.query("around")];
  return from ? { from } : around ? { around } : { all: true };
}

/** The questions of the path are drawn, whatever else is. */
function withPath(tree: Tree, part: ReturnType<typeof selectPart>, path: CasePath) {
  const walked = new Set([...path.steps.map(({ to }) => to), path.open]);
  const ids = new Set(part.questions.map(({ id }) => id));
  return { ...part, questions: tree.questions.filter(({ id }) => ids.has(id) || walked.has(id)) };
}

export type Played = { path: CasePath; problems: readonly string[] } | { sentence: string };

async function playCase(c: RoomContext, flow: Source["flow"], text: string): Promise<Played> {
  const opened = await flow();
  if (opened === null) return { sentence: treeWords.caseProblems };
  const read = await readPasted(c, opened, text);
  if (read === null) return { sentence: treeWords.caseBad };
  return { path: followCase(opened, read.case), problems: read.problems };
}

function pairs({ steps, open }: CasePath): { from: string; to: string }[] {
  const ids = [...steps.map(({ to }) => to), ...(open === null ? [] : [open])];
  return ids.slice(1).map((to, i) => ({ from: ids[i] ?? to, to }));
}

/** The question after which a case came to its end. */
function lastOf(path: CasePath | null): string[] {
  return path?.end ? path.steps.slice(-1).map(({ to }) => to) : [];
}

function lightUp(path: CasePath): Lit {
  const { steps, open, end } = path;
  const turns = new Map(steps.map(({ to }, i) => [to, i + 1]));
  if (open !== null) turns.set(open, steps.length + 1);
  return {
    turns,
    answers: new Set(steps.map(({ to, is }) => `${to}=${is}`)),
    moves: new Set([
      ...pairs(path).map(({ from, to }) => `${from}>${to}`),
      ...lastOf(path).map((id) => `${id}>${VERDICT}`),
    ]),
    end: end === null ? null : end.standing,
  };
}
