/** Slips as editors make them, put into the shipped content by chance that can be repeated: each tells where it has to be found. */
import type { ProblemCode } from "../../../flows/content/problems.ts";
import type { Files } from "../../../flows/content/read-files.ts";

export interface Fault {
  files: Files;
  file: string;
  /** Counts from 1; undefined where a thing is missing and any line of the file will do. */
  line?: number;
}

export type Pick = <T>(list: readonly T[]) => T;
type MakeFault = (files: Files, pick: Pick) => Fault;

/** A picker that goes by its seed alone (mulberry32, public domain). */
export function pickBy(seed: number): Pick {
  let state = seed;
  return (list) => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    const found = list[((t ^ (t >>> 14)) >>> 0) % list.length];
    if (found === undefined) throw new Error("There is nothing to pick from.");
    return found;
  };
}

const under = (files: Files, folder: string) =>
  Object.keys(files).filter((path) => path.startsWith(`${folder}/`));

/** Replaces one of the places that fit, picked by chance, and tells the line on which `mark` begins in what was put there. */
function swap(
  files: Files,
  pick: Pick,
  among: readonly string[],
  find: RegExp,
  put: (...found: string[]) => string,
  mark = "",
): Fault {
  const fitting = among.filter((file) => find.test(files[file] ?? ""));
  const file = pick(fitting);
  const text = files[file] ?? "";
  const place = pick([...text.matchAll(new RegExp(find.source, `g${find.flags}`))]);
  const instead = put(...place);
  const at = place.index + Math.max(0, mark === "" ? 0 : instead.indexOf(mark));
  const changed = text.slice(0, place.index) + instead + text.slice(place.index + place[0].length);
  return { files: { ...files, [file]: changed }, file, line: lineAt(changed, at) };
}

function lineAt(text: string, at: number): number {
  return text.slice(0, at).split("\n").length;
}

const inFolder =
  (folder: string, find: RegExp, put: (...found: string[]) => string, mark?: string): MakeFault =>
  (files, pick) =>
    swap(files, pick, under(files, folder), find, put, mark);

const inFile =
  (file: string, find: RegExp, put: (...found: string[]) => string, mark?: string): MakeFault =>
  (files, pick) =>
    swap(files, pick, [file], find, put, mark);

/** Without a line: the fault is that something is not there. */
const anywhere =
  (make: MakeFault): MakeFault =>
  (files, pick) => {
    const { line: _, ...fault } = make(files, pick);
    return fault;
  };

/** Something that has no place in prose, at the start of a section. */
const prose = (bad: string, mark = bad): MakeFault =>
  inFolder("conditions", /^(## [^\n]+\n\n)/m, (_, heading = "") => `${heading}${bad}\n\n`, mark);

const drawing = (find: RegExp, put: (...found: string[]) => string, mark?: string): MakeFault =>
  inFolder("drawings", find, put, mark);

function newQuestion(id: string, options: string): (files: Files) => Files {
  const text = `---\nid: ${id}\nprompt: "Anything else?"\nwhy: "One more clue."\noptions: ${options}\n---\n`;
  return (files) => ({
    ...files,
    [`questions/${id}.md`]: text,
    "conversation.yaml": (files["conversation.yaml"] ?? "").replace(
      "  - others\n",
      `  - others\n  - ${id}\n`,
    ),
  });
}

/** The ways of making each fault; every code has at least one. */
export const faultMakers: Record<ProblemCode, readonly MakeFault[]> = {
  FILE_MISSING: ["weights.yaml", "conversation.yaml", "findings.yaml", "shop.yaml"].map(
    (file): MakeFault =>
      ({ [file]: _, ...files }) => ({ files, file }),
  ),
  FILE_UNKNOWN: [
    (files, pick) => {
      const file = `${pick(["condition", "question", "notes"])}/thrips.md`;
      return { files: { ...files, [file]: "Thrips.\n" }, file, line: 1 };
    },
  ],
  FILE_NAME: ["conditions", "questions", "remedies"].map((folder) =>
    inFolder(folder, /^id: ([a-z-]+)$/m, (_, id) => `id: ${id}-two`),
  ),
  FILE_LIMITS: [prose(`${"> ".repeat(40)}deep`)],
  FRONT_MATTER: [anywhere(inFolder("remedies", /\n---\n(?=[^-])/, () => "\n"))],
  YAML_SYNTAX: [
    anywhere(inFolder("conditions", /^plan: \[([^\]]*)\]/m, (_, list) => `plan: [${list}`)),
    anywhere(inFile("hosts.yaml", /groups: \[([^\]]*)\]/, (_, list) => `groups: [${list}`)),
  ],
  YAML_DUPLICATE_KEY: [
    inFolder("conditions", /^kind: (\w+)\n/m, (all, kind) => `${all}kind:  ${kind}\n`, "kind:  "),
    inFolder("remedies", /^method: (\w+)\n/m, (all, method) => `${all}method:  ${method}\n`, "method:  "),
  ],
  YAML_ALIAS: [inFolder("conditions", /^how_common: \w+/m, () => "how_common: *usual")],
  KEY_MISSING: [
    anywhere(inFolder("conditions", /^how_common: \w+\n/m, () => "")),
    anywhere(inFile("hosts.yaml", /^ {2}eaten: \w+\n/m, () => "")),
    anywhere(inFolder("questions", /^why: .*\n/m, () => "")),
  ],
  KEY_UNKNOWN: [
    inFolder("conditions", /^spreads:/m, () => "spread:"),
    inFolder("remedies", /^minutes:/m, () => "minuets:"),
    inFile("hosts.yaml", /^ {2}light:/m, () => "  lihgt:"),
  ],
  TYPE_WRONG: [
    inFolder("conditions", /^brings: \[[^\]]*\]/m, () => "brings: honeydew"),
    inFolder("remedies", /^minutes: \d+/m, () => "minutes: some"),
    inFile("weights.yaml", /^reach: \d+/m, () => "reach: far"),
  ],
  WORD_UNKNOWN: [
    inFolder("conditions", /^kind: \w+/m, () => "kind: germ"),
    inFolder("remedies", /^method: \w+/m, () => "method: magical"),
    inFile("hosts.yaml", /^ {2}water: \w+/m, () => "  water: lots"),
    inFile("findings.yaml", /kind: symptom/, () => "kind: symptoms"),
  ],
  VALUE_BAD: [inFolder("remedies", /every_days: \[(\d+), (\d+)\]/, () => "every_days: [9, 2]")],
  PROSE_HTML: [prose("It is <b>brown</b>."), prose("Black &amp; white.")],
  PROSE_IMAGE: [prose("Look: ![leaf](https://example.org/leaf.png)")],
  PROSE_TABLE: [prose("| a | b |\n|---|---|\n| 1 | 2 |")],
  PROSE_HEADING: [prose("### A heading")],
  PROSE_CODE_BLOCK: [prose("    four spaces", "    four"), prose("```\ncode\n```")],
  PROSE_QUOTE: [prose("> A quote.")],
  PROSE_LINK: [
    prose("See [here](javascript:alert(1)).", "See"),
    prose("See [here](http://example.org).", "See"),
  ],
  PROSE_OTHER: [prose("***"), prose("~~struck~~")],
  TEXT_EMPTY: [
    (files, pick) =>
      swap(
        files,
        pick,
        under(files, "conditions"),
        /^(## (?:Will it live\?|Does it spread\?)\n)[^#]+/m,
        (_, heading = "") => `${heading}\n`,
      ),
  ],
  SECTION_MISSING: [anywhere(inFolder("conditions", /^## Does it spread\?\n[^#]+/m, () => ""))],
  SECTION_UNKNOWN: [inFolder("conditions", /^## Will it live\?$/m, () => "## Will it survive?")],
  SECTION_ORDER: [
    anywhere(
      inFolder(
        "conditions",
        /^(## Will it live\?\n[^#]+)(## Does it spread\?\n[^#]+)/m,
        (_, live = "", spread = "") => spread + live,
      ),
    ),
  ],
  SECTION_TWICE: [
    inFolder(
      "conditions",
      /^(## When to give up\n)/m,
      (_, next = "") => `## Will it live?\n\nYes.\n\n${next}`,
    ),
  ],
  SECTION_STRAY_TEXT: [inFolder("conditions", /^## What it is$/m, (all = "") => `A word first.\n\n${all}`)],
  ID_TWICE: [
    inFile("hosts.yaml", /^- id: (?!african-violet)[a-z-]+$/m, () => "- id: african-violet"),
    inFile("sources.yaml", /^- id: (?!p1$)[a-z0-9-]+$/m, () => "- id: p1"),
    inFolder(
      "questions",
      /\{ id: ([a-z-]+), (.*\n.*)\{ id: [a-z-]+,/,
      (_, id, rest) => `{ id: ${id}, ${rest}{ id:  ${id},`,
      "{ id:  ",
    ),
  ],
  ID_RESERVED: [inFolder("questions", /\{ id: none, /, () => "{ id: not-sure, ")],
  ID_CLASH: [
    (files, pick) => {
      const id = pick(["mark-look", "soil-check", "tap-test", "base-check"]);
      const file = `questions/${id}.md`;
      const more = `- { id: ${id}, kind: symptom, name: a clash, absent: no clash }\n`;
      const changed = { ...files, "findings.yaml": `${files["findings.yaml"]}${more}` };
      return { files: changed, file, line: 2 };
    },
  ],
  ID_RETIRED: [
    (files, pick) => {
      const file = pick(under(files, "remedies"));
      const id = file.slice("remedies/".length, -".md".length);
      const retired = `- { id: ${id}, kind: remedy, why: It was another step once. }\n`;
      return { files: { ...files, "retired.yaml": retired }, file, line: 2 };
    },
  ],
  LISTED_TWICE: [
    inFolder("conditions", /^plan: \[([a-z-]+),/m, (_, id) => `plan: [${id}, ${id},`),
    inFolder("conditions", /^sources: \[([a-z0-9-]+),/m, (_, id) => `sources: [${id}, ${id},`),
  ],
  FINDING_UNKNOWN: [
    inFolder("conditions", /^ {2}supports: \[/m, () => "  supports: [pale-stipling, "),
    inFolder("questions", /present: \[([a-z-]+)\]/, (_, id) => `present: [${id}s-and-so]`),
    inFolder("questions", /any: \[([a-z-]+)/, () => "any: [no-such-finding"),
    inFile("findings.yaml", /implies: \[[a-z-]+\]/, () => "implies: [no-such-finding]"),
  ],
  CONDITION_UNKNOWN: [
    inFolder("conditions", /other: ([a-z-]+)/, (_, id) => `other: ${id}x`),
    inFolder("conditions", /^brought_on_by: \[[a-z, -]*\]/m, () => "brought_on_by: [bad-luck]"),
  ],
  HOST_UNKNOWN: [inFolder("conditions", /^prone: \[/m, () => "prone: [triffid, ")],
  REMEDY_UNKNOWN: [
    inFolder("conditions", /^plan: \[/m, () => "plan: [soap-sprey, "),
    inFile("conversation.yaml", /^first_aid: \[/m, () => "first_aid: [pray, "),
  ],
  QUESTION_UNKNOWN: [
    inFile(
      "conversation.yaml",
      /^ {2}- [a-z-]+\n/m,
      (all = "") => `${all}  - no-such-question\n`,
      "  - no-such",
    ),
  ],
  SOURCE_UNKNOWN: [
    inFolder("conditions", /^sources: \[/m, () => "sources: [zz999, "),
    inFolder("remedies", /^sources: \[/m, () => "sources: [zz999, "),
    inFile("hosts.yaml", /^ {2}sources: \[/m, () => "  sources: [zz999, "),
  ],
  PRODUCT_UNKNOWN: [inFolder("remedies", /^uses: \[/m, () => "uses: [snake-oil, ")],
  IMPLIES_CIRCLE: [
    (files, pick) => {
      const text = files["findings.yaml"] ?? "";
      const sharp = [...text.matchAll(/\{ id: ([a-z-]+), [^}]*implies: \[([a-z-]+)\]/g)];
      const isPlain = (id = "") => new RegExp(`\\{ id: ${id}, kind: \\w+,(?![^}]*implies)`).test(text);
      const [, sharper = "", vaguer = ""] = pick(sharp.filter(([, , id]) => isPlain(id)));
      const kind = new RegExp(`\\{ id: ${vaguer}, kind: (\\w+),(?![^}]*implies)`);
      const changed = text.replace(
        kind,
        (_, word) => `{ id: ${vaguer}, kind: ${word}, implies: [${sharper}],`,
      );
      return { files: { ...files, "findings.yaml": changed }, file: "findings.yaml" };
    },
  ],
  FINDING_NOT_ASKED: [addFinding],
  HOST_NAME_TWICE: [
    inFile("hosts.yaml", /^ {2}name: (?!African violet)[^\n]+$/m, () => "  name: african VIOLET"),
  ],
  SET_UNKNOWN: [inFile("lexicon.yaml", /^ {4}ways: \["/m, () => '    ways: ["{leef} gone", "')],
  FINDING_NOT_SAID: [addFinding],
  ORDER_INCOMPLETE: [
    (files, pick) => {
      const id = pick(["mark-look", "soil-check", "pace", "light"]);
      const order = (files["conversation.yaml"] ?? "").replace(`  - ${id}\n`, "");
      return { files: { ...files, "conversation.yaml": order }, file: `questions/${id}.md`, line: 2 };
    },
  ],
  ORDER_TWICE: [
    inFile(
      "conversation.yaml",
      /^ {2}- ([a-z-]+)\n(?= {2}- )/m,
      (all = "") => `${all}${all}`.replace(/- ([a-z-]+)\n$/, "-  $1\n"),
      "-  ",
    ),
    inFile("conversation.yaml", /^order:\n/m, () => "order:\n  - what-you-see\n", "  - what"),
  ],
  ORDER_KIND: [
    inFile("conversation.yaml", /^ {2}- ([a-z-]+)\n/m, (all = "") => `${all}  - host\n`, "  - host"),
    inFile("conversation.yaml", /^ {2}- ([a-z-]+)\n/m, (all = "") => `${all}  - eaten\n`, "  - eaten"),
  ],
  OPTIONS_MISSING: [
    (files) => ({ files: newQuestion("extra", "[]")(files), file: "questions/extra.md", line: 5 }),
  ],
  OPTION_NONE: [inFolder("questions", /none: true \}/, () => "none: true, present: [brown-spots] }")],
  OPTION_CONTRADICTION: [
    inFolder("questions", /present: \[([a-z-]+)\] \}/, (_, id) => `present: [${id}], absent: [${id}] }`),
  ],
  HOST_QUESTION: [
    inFile(
      "questions/host.md",
      /^why: .*\n/m,
      (all = "") => `${all}options:\n  - { id: fern, label: A fern }\n`,
      "  - {",
    ),
  ],
  FACT_QUESTION: [
    inFile("questions/eaten.md", /facts: \{ eaten: "no" \}/, () => 'facts: { pets: "no" }'),
  ].map(anywhere),
  LOOK_QUESTION: [
    anywhere(inFile("questions/look-again.md", /\{ id: (better|same|worse|new),/, () => "{ id: other,")),
  ],
  EVIDENCE_MISSING: [
    anywhere(
      inFolder(
        "conditions",
        /^ {2}hallmark: \[[^\]]*\]\n {2}supports: \[[^\]]*\]\n/m,
        () => "  hallmark: []\n  supports: []\n",
      ),
    ),
  ],
  EVIDENCE_TWICE: [
    inFolder(
      "conditions",
      /^ {2}hallmark: \[([a-z-]+)([^\]]*\]\n {2}supports: \[)/m,
      (_, id, rest) => `  hallmark: [${id}${rest}${id}, `,
      "  supports",
    ),
  ],
  HALLMARK_KIND: [
    inFolder("conditions", /^ {2}hallmark: \[(?=[a-z])/m, () => "  hallmark: [recently-moved-or-repotted, "),
  ],
  PLAN_MISSING: [inFolder("conditions", /^plan: \[[^\]]*\]/m, () => "plan: []")],
  SOURCES_MISSING: [inFolder("conditions", /^sources: \[[^\]]*\]/m, () => "sources: []")],
  SOURCE_TIER: [
    anywhere(inFile("sources.yaml", /^(- id: [pdn]\d+\n {2}tier: )[AB]$/m, (_, lead = "") => `${lead}none`)),
  ],
  SYSTEMIC_UNGUARDED: [
    anywhere(
      inFile("remedies/systemic-granules.md", /^never_when: \[[^\]]*\]/m, () => "never_when: [eaten]"),
    ),
    anywhere(
      inFolder("remedies", /^method: mechanical\ntoxicity: \d/m, () => "method: mechanical\ntoxicity: 3"),
    ),
  ],
  PRODUCT_ON_FOOD: [
    anywhere(inFile("remedies/soap-spray.md", /^for_food_plants: true/m, () => "for_food_plants: false")),
    anywhere(inFile("remedies/oil-spray.md", /^for_food_plants: true/m, () => "for_food_plants: false")),
  ],
  FIRST_AID_CHEMICAL: [inFile("conversation.yaml", /^first_aid: \[/m, () => "first_aid: [soap-spray, ")],
  DRAWING_SYNTAX: [
    anywhere(drawing(/<path class="ink" /, () => '<path class="ink" id="&big;" ')),
    anywhere(drawing(/<\/svg>/, () => "</svgg>")),
  ],
  DRAWING_ELEMENT: [drawing(/^ {2}<path/m, () => "  <script>alert(1)</script><path", "<script")],
  DRAWING_ATTRIBUTE: [
    drawing(/<path class="ink"/, () => '<path onclick="alert(1)" class="ink"'),
    drawing(/<path class="ink"/, () => '<path class="neon"'),
  ],
  DRAWING_TEXT: [anywhere(drawing(/^ {2}<path/m, () => "  leaf <path"))],
  DRAWING_SIZE: [drawing(/viewBox="0 0 96 96"/, () => 'viewBox="0 0 90 120"')],
  DRAWING_MISSING: [
    (files, pick) => {
      const gone = pick(under(files, "drawings"));
      const { [gone]: _, ...others } = files;
      const id = gone.slice("drawings/".length, -".svg".length);
      const text = files["drawings.yaml"] ?? "";
      return { files: others, file: "drawings.yaml", line: lineAt(text, text.indexOf(`- id: ${id}\n`)) };
    },
  ],
  DRAWING_UNKNOWN: [
    inFolder("questions", /^picture: [a-z-]+/m, () => "picture: no-such-drawing"),
    (files, pick) => {
      const file = `drawings/${pick(["stray", "extra"])}.svg`;
      const any = pick(under(files, "drawings"));
      return { files: { ...files, [file]: files[any] ?? "" }, file, line: 1 };
    },
  ],
  DRAWING_TWICE: [
    inFile("drawings.yaml", /^ {2}findings: \[(?!pale-stippling)/m, () => "  findings: [pale-stippling, "),
  ],
  DRAWING_REGION: [inFolder("questions", /region: [a-z-]+ \}/, () => "region: nowhere }")],
};

function addFinding(files: Files, pick: Pick): Fault {
  const id = `never-${pick(["seen", "heard", "told"])}`;
  const text = `${files["findings.yaml"]}- { id: ${id}, kind: symptom, name: a riddle, absent: no riddle }\n`;
  return {
    files: { ...files, "findings.yaml": text },
    file: "findings.yaml",
    line: lineAt(text, text.indexOf(id)),
  };
}
