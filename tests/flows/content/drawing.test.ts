import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { reduceDrawing } from "../../../flows/content/drawing.ts";
import { drawingRoles, drawingTags } from "../../../flows/edition.ts";

const open = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 96 96">';
const reduce = (inside: string, root = open) => reduceDrawing("drawings/x.svg", `${root}${inside}</svg>`);
const codesOf = (inside: string, root?: string) => reduce(inside, root).problems.map(({ code }) => code);

describe("a drawing becomes", () => {
  it("a tree of shapes, with roles for their ink and names for what can be pressed", () => {
    const { parts, problems } = reduce(
      '<!-- a leaf --><g data-region="tip" transform="rotate(10 48 48)"><path class="ink wash" d="M1 2l3-4z"/></g><circle cx="1" cy="2.5" r=".5"/>',
    );
    expect(problems).toEqual([]);
    expect(parts).toEqual([
      {
        tag: "g",
        roles: [],
        shape: { transform: "rotate(10 48 48)" },
        region: "tip",
        parts: [{ tag: "path", roles: ["ink", "wash"], shape: { d: "M1 2l3-4z" } }],
      },
      { tag: "circle", roles: [], shape: { cx: "1", cy: "2.5", r: ".5" } },
    ]);
  });

  it("nothing where there is nothing", () => {
    expect(reduce("")).toEqual({ parts: [], problems: [] });
  });
});

/** What has been used to smuggle something through an SVG. */
const hostile: Record<string, [inside: string, code: string]> = {
  "a script": ["<script>alert(1)</script>", "DRAWING_ELEMENT"],
  "a script in a namespace of its own": [
    '<x:script xmlns:x="http://www.w3.org/1999/xhtml">alert(1)</x:script>',
    "DRAWING_ELEMENT",
  ],
  "a script in capitals": ["<SCRIPT>alert(1)</SCRIPT>", "DRAWING_ELEMENT"],
  "a handler": ['<path d="M0 0" onload="alert(1)"/>', "DRAWING_ATTRIBUTE"],
  "a handler in capitals": ['<path d="M0 0" ONCLICK="alert(1)"/>', "DRAWING_ATTRIBUTE"],
  "HTML inside": [
    '<foreignObject><body xmlns="http://www.w3.org/1999/xhtml"><img src="x"/></body></foreignObject>',
    "DRAWING_ELEMENT",
  ],
  "a copy from elsewhere": ['<use href="https://evil.example/x.svg#a"/>', "DRAWING_ELEMENT"],
  "a copy by the old name": ['<use xlink:href="#a"/>', "DRAWING_ELEMENT"],
  "an image": ['<image href="data:image/svg+xml;base64,PHN2Zz4="/>', "DRAWING_ELEMENT"],
  "a link": ['<a href="javascript:alert(1)"><path d="M0 0"/></a>', "DRAWING_ELEMENT"],
  "a link on a shape": ['<g href="javascript:alert(1)"/>', "DRAWING_ATTRIBUTE"],
  "a style sheet": ["<style>*{background:url(//evil.example)}</style>", "DRAWING_ELEMENT"],
  "a style": ['<path d="M0 0" style="fill:url(//evil.example/#a)"/>', "DRAWING_ATTRIBUTE"],
  "a fill from elsewhere": ['<path d="M0 0" fill="url(https://evil.example/#a)"/>', "DRAWING_ATTRIBUTE"],
  "an id": ['<path d="M0 0" id="lt-now"/>', "DRAWING_ATTRIBUTE"],
  "an animation": ['<animate attributeName="href" to="javascript:alert(1)"/>', "DRAWING_ELEMENT"],
  "a filter": ['<filter><feImage href="https://evil.example"/></filter>', "DRAWING_ELEMENT"],
  letters: ["Call 555 0100 now", "DRAWING_TEXT"],
  "a class of the page": ['<path d="M0 0" class="lt-button"/>', "DRAWING_ATTRIBUTE"],
  "a path with words": ['<path d="M0 0 url(x)"/>', "DRAWING_ATTRIBUTE"],
  "a number with a unit": ['<circle cx="10vw" cy="1" r="1"/>', "DRAWING_ATTRIBUTE"],
  "a number without bounds": ['<circle cx="1" cy="1" r="99999999"/>', "DRAWING_ATTRIBUTE"],
  "a region on a shape": ['<path d="M0 0" data-region="tip"/>', "DRAWING_ATTRIBUTE"],
  "an entity": ['<path d="&x;"/>', "DRAWING_SYNTAX"],
  "a processing instruction": ['<?xml-stylesheet href="https://evil.example"?>', "DRAWING_SYNTAX"],
  CDATA: ["<![CDATA[<script>]]>", "DRAWING_SYNTAX"],
  "a tag that stays open": ["<g>", "DRAWING_SYNTAX"],
};

test.each(Object.entries(hostile))("%s is refused", (_name, [inside, code]) => {
  const { parts, problems } = reduce(inside);
  expect(parts).toBeNull();
  expect(problems.map((problem) => problem.code)).toContain(code);
});

it("refuses entities that grow, before they grow", () => {
  const levels = Array.from({ length: 20 }, (_, i) => `<!ENTITY e${i + 1} "&e${i};&e${i};&e${i};">`).join("");
  const bomb = `<!DOCTYPE svg [<!ENTITY e0 "ha">${levels}]>${open}<g>&e20;</g></svg>`;
  const { parts, problems } = reduceDrawing("drawings/x.svg", bomb);
  expect(parts).toBeNull();
  expect(problems.map(({ code }) => code)).toEqual(["DRAWING_SYNTAX"]);
});

it("refuses what is huge: characters, shapes, depth", () => {
  expect(codesOf(`<path d="M0 0${"h1".repeat(9000)}"/>`)).toEqual(["DRAWING_SIZE"]);
  expect(codesOf("<g/>".repeat(401))).toEqual(["DRAWING_SIZE"]);
  expect(codesOf("<g/>".repeat(400))).toEqual([]);
  expect(codesOf("<g>".repeat(7) + "</g>".repeat(7))).toEqual(["DRAWING_SIZE"]);
  expect(codesOf("<g>".repeat(6) + "</g>".repeat(6))).toEqual([]);
});

it("holds the svg element to its square and to nothing else", () => {
  const root = (attributes: string) => codesOf("", `<svg ${attributes}>`);
  const xmlns = 'xmlns="http://www.w3.org/2000/svg"';
  expect(root(`${xmlns} viewBox="0 0 100 100"`)).toEqual(["DRAWING_SIZE"]);
  expect(root('viewBox="0 0 96 96"')).toEqual(["DRAWING_ATTRIBUTE"]);
  expect(root(`${xmlns} viewBox="0 0 96 96" onload="x"`)).toEqual(["DRAWING_ATTRIBUTE"]);
  expect(reduceDrawing("drawings/x.svg", "<html/>").problems.map(({ code }) => code)).toEqual([
    "DRAWING_ELEMENT",
  ]);
});

it("tells what is refused once, not again for all that lies inside", () => {
  expect(codesOf('<defs><path onload="x"/>letters<script/></defs>')).toEqual(["DRAWING_ELEMENT"]);
});

it("never throws, and lets nothing through that is not on the lists", () => {
  const scraps = [
    open,
    "</svg>",
    "<g>",
    "</g>",
    "<path d='M0 0'/>",
    "<script>",
    "&#x41;",
    "<!--",
    "-->",
    '"',
    "<",
    "x",
  ];
  fc.assert(
    fc.property(fc.array(fc.oneof(fc.constantFrom(...scraps), fc.string())), (pieces) => {
      const { parts, problems } = reduceDrawing("drawings/x.svg", pieces.join(""));
      expect(parts === null).toBe(problems.length > 0);
      for (const { tag, roles } of parts ?? []) {
        expect(drawingTags).toContain(tag);
        for (const role of roles) expect(drawingRoles).toContain(role);
      }
    }),
  );
});
