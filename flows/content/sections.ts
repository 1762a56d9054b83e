import type { Block } from "../edition.ts";
import { makeProblem, type Problem } from "./problems.ts";
import { readProse } from "./prose.ts";
import type { Locate } from "./read-yaml.ts";

/** The seven headings of a condition, in their order. */
export const sectionHeadings = {
  whatItIs: "What it is",
  whatBringsItOn: "What brings it on",
  willItLive: "Will it live?",
  doesItSpread: "Does it spread?",
  prevention: "Keep it from coming back",
  whenToGiveUp: "When to give up",
  whenToBringIn: "When to bring it in",
} as const;
export type SectionKey = keyof typeof sectionHeadings;
export type Sections = Record<SectionKey, Block[]>;

export const sectionKeys = Object.keys(sectionHeadings) as SectionKey[];

interface Part {
  title: string;
  /** Line of the heading in the body, from 1; 0 for the text before the first heading. */
  line: number;
  text: string;
}

/** Splits the body of a condition at its `##` headings. Sections that are missing come back empty, with a problem. */
export function readSections(body: string, locate: Locate): { sections: Sections; problems: Problem[] } {
  const [before, ...parts] = splitAtHeadings(body);
  const problems: Problem[] = [];
  if (before !== undefined && before.text.trim() !== "") {
    const line = before.text.split("\n").findIndex((text) => text.trim() !== "") + 1;
    problems.push(
      makeProblem("SECTION_STRAY_TEXT", locate(line, 1), "There is text before the first heading."),
    );
  }
  problems.push(...checkHeadings(parts, locate), ...findMissing(parts, body, locate));
  const sections: Sections = {
    whatItIs: [],
    whatBringsItOn: [],
    willItLive: [],
    doesItSpread: [],
    prevention: [],
    whenToGiveUp: [],
    whenToBringIn: [],
  };
  for (const part of parts) {
    const read = readProse(part.text, (line, column) => locate(part.line + line, column));
    problems.push(...read.problems);
    const key = keyOf(part.title);
    if (key !== undefined) sections[key] = read.blocks;
    if (part.text.trim() === "") {
      problems.push(makeProblem("TEXT_EMPTY", locate(part.line, 1), `Nothing stands under “${part.title}”.`));
    }
  }
  return { sections, problems };
}

function splitAtHeadings(body: string): Part[] {
  let part: Part = { title: "", line: 0, text: "" };
  const parts = [part];
  body.split("\n").forEach((line, index) => {
    const heading = /^##[ \t]+(\S.*)$/.exec(line);
    if (heading) {
      part = { title: heading[1]?.trim() ?? "", line: index + 1, text: "" };
      parts.push(part);
    } else {
      part.text += `${line}\n`;
    }
  });
  return parts;
}

function keyOf(title: string): SectionKey | undefined {
  return sectionKeys.find((key) => sectionHeadings[key] === title);
}

function checkHeadings(parts: readonly Part[], locate: Locate): Problem[] {
  const seen = new Set<SectionKey>();
  let furthest = -1;
  return parts.flatMap((part) => {
    const place = locate(part.line, 1);
    const key = keyOf(part.title);
    if (key === undefined)
      return [makeProblem("SECTION_UNKNOWN", place, `“${part.title}” is not one of the seven headings.`)];
    if (seen.has(key))
      return [makeProblem("SECTION_TWICE", place, `“${part.title}” stands here for the second time.`)];
    seen.add(key);
    const index = sectionKeys.indexOf(key);
    if (index < furthest) return [makeProblem("SECTION_ORDER", place, `“${part.title}” comes too late.`)];
    furthest = index;
    return [];
  });
}

/** A missing section is reported at the heading before which it belongs, else at the end. */
function findMissing(parts: readonly Part[], body: string, locate: Locate): Problem[] {
  const lastLine = body.trimEnd().split("\n").length;
  return sectionKeys.flatMap((key, index) => {
    const title = sectionHeadings[key];
    if (parts.some((part) => part.title === title)) return [];
    const next = parts.find((part) =>
      sectionKeys.slice(index).some((later) => sectionHeadings[later] === part.title),
    );
    return [
      makeProblem("SECTION_MISSING", locate(next?.line ?? lastLine, 1), `The section “${title}” is missing.`),
    ];
  });
}
