import { Lexer, type MarkedToken, type Token, type Tokens } from "marked";
import type { Block, Inline } from "../edition.ts";
import { makeProblem, type Problem, type ProblemCode } from "./problems.ts";
import type { Locate } from "./read-yaml.ts";

const allowedLink = /^(https:\/\/\S+|mailto:[^\s@]+@[^\s@]+|tel:\+?[\d().-]+)$/i;
const entity = /&(#\d+|#x[\da-f]+|[a-z][a-z\d]*);/i;

interface Walk {
  text: string;
  /** Where the search for the next token starts: tokens carry their raw text but no position. */
  cursor: number;
  locate: Locate;
  problems: Problem[];
}

/** Turns Markdown into the closed tree of blocks. Whatever the tree has no place for is a problem. */
export function readProse(text: string, locate: Locate): { blocks: Block[]; problems: Problem[] } {
  const walk: Walk = { text, cursor: 0, locate, problems: [] };
  return { blocks: readBlocks(new Lexer().lex(text), walk), problems: walk.problems };
}

// marked types every token list as open to extensions; none are installed.
function closeUnion(tokens: readonly Token[]): readonly MarkedToken[] {
  return tokens as readonly MarkedToken[];
}

function readBlocks(tokens: readonly Token[], walk: Walk): Block[] {
  return closeUnion(tokens).flatMap((token) => readBlock(token, walk));
}

function readBlock(token: MarkedToken, walk: Walk): Block[] {
  switch (token.type) {
    case "space":
      return [];
    case "paragraph":
    case "text":
      return [{ t: "p", of: readInlines(token.tokens ?? [], walk) }];
    case "list":
      return [readList(token, walk)];
    default:
      report(token, walk);
      return [];
  }
}

function readList(list: Tokens.List, walk: Walk): Block {
  // The tree has no start number, so a list that starts at 3 would be shown from 1.
  if (list.ordered && list.start !== 1) report(list, walk);
  const items = list.items.map((item) => {
    if (item.task) reportAs("PROSE_OTHER", "A task box", item.raw, walk);
    return readBlocks(
      item.tokens.filter((token) => token.type !== "checkbox"),
      walk,
    );
  });
  return { t: "list", ordered: list.ordered, items };
}

function readInlines(tokens: readonly Token[], walk: Walk): Inline[] {
  return closeUnion(tokens).flatMap((token) => readInline(token, walk));
}

function readInline(token: MarkedToken, walk: Walk): Inline[] {
  switch (token.type) {
    case "text":
      // A text token in a list item may hold tokens of its own.
      return "tokens" in token && token.tokens ? readInlines(token.tokens, walk) : readText(token.raw, walk);
    case "escape":
      moveBehind(token.raw, walk);
      return [{ t: "text", text: token.text }];
    case "codespan":
      moveBehind(token.raw, walk);
      return [{ t: "code", text: token.text }];
    case "br":
      return [{ t: "break" }];
    case "em":
    case "strong":
      return [{ t: token.type, of: readInlines(token.tokens, walk) }];
    case "link":
      return readLink(token, walk);
    default:
      report(token, walk);
      return [];
  }
}

function readText(raw: string, walk: Walk): Inline[] {
  const found = entity.exec(raw);
  if (found) reportAs("PROSE_HTML", "The HTML entity", found[0], walk);
  else moveBehind(raw, walk);
  // A line break in the file is only a place where the editor wrapped the line.
  return [{ t: "text", text: raw.replace(/(?<!\s)\s*\n\s*/g, " ") }];
}

function readLink(link: Tokens.Link, walk: Walk): Inline[] {
  if (!allowedLink.test(link.href)) reportAs("PROSE_LINK", "The link", link.raw, walk);
  if (link.title) reportAs("PROSE_OTHER", "The title of the link", link.raw, walk);
  const start = find(link.raw, walk);
  const of = readInlines(link.tokens, walk);
  walk.cursor = start.end;
  return [{ t: "link", to: link.href, of }];
}

const refusals: Partial<Record<MarkedToken["type"], [code: ProblemCode, name: string]>> = {
  html: ["PROSE_HTML", "The HTML"],
  image: ["PROSE_IMAGE", "The image"],
  table: ["PROSE_TABLE", "The table"],
  heading: ["PROSE_HEADING", "The heading"],
  code: ["PROSE_CODE_BLOCK", "The code block"],
  blockquote: ["PROSE_QUOTE", "The quote"],
  list: ["PROSE_OTHER", "The list that does not start at 1"],
};

function report(token: MarkedToken, walk: Walk): void {
  const [code, name] = refusals[token.type] ?? ["PROSE_OTHER", "The Markdown"];
  reportAs(code, name, token.raw, walk);
}

function reportAs(code: ProblemCode, name: string, raw: string, walk: Walk): void {
  const { start, end, line } = find(raw, walk);
  const before = walk.text.slice(0, start).split("\n");
  const place = walk.locate(before.length, (before.at(-1)?.length ?? 0) + 1);
  walk.problems.push(makeProblem(code, place, `${name} “${shorten(line)}” cannot be shown.`));
  // A refused list is still read: its start is found again by its own tokens.
  if (code !== "PROSE_OTHER" && code !== "PROSE_LINK") walk.cursor = end;
}

function shorten(line: string): string {
  return line.length > 40 ? `${line.slice(0, 39)}…` : line;
}

function moveBehind(raw: string, walk: Walk): void {
  walk.cursor = find(raw, walk).end;
}

/** Looks for the first line of a token: later lines may have lost their indent. */
function find(raw: string, walk: Walk): { start: number; end: number; line: string } {
  const line = (raw.split("\n").find((part) => part.trim() !== "") ?? "").trim();
  const found = walk.text.indexOf(line, walk.cursor);
  const start = found === -1 ? walk.cursor : found;
  return { start, end: found === -1 ? start : start + line.length, line };
}
