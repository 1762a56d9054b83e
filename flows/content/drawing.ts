import { SaxesParser } from "saxes";
import {
  DRAWING_SIDE,
  type DrawingPart,
  type DrawingRole,
  type DrawingTag,
  drawingRoles,
  drawingTags,
} from "../edition.ts";
import { makeProblem, type Place, type Problem, type ProblemCode } from "./problems.ts";

const NAMESPACE = "http://www.w3.org/2000/svg";
const mostCharacters = 16_000;
const mostParts = 400;
const mostDepth = 6;

const number = /^-?(?:\d{1,3}(?:\.\d{1,3})?|\.\d{1,3})$/;
const path = /^[MmLlHhVvCcSsQqTtAaZz\d\s,.-]+$/;
const points = /^[\d\s,.-]+$/;
const transform = /^(?:(?:translate|rotate|scale)\(-?[\d.]+(?:[ ,]+-?[\d.]+){0,2}\)\s*)+$/;

/** Which geometry a shape has. All of it is numbers; a path has its letters too. */
const geometry: Record<DrawingTag, Record<string, RegExp>> = {
  g: {},
  path: { d: path },
  circle: { cx: number, cy: number, r: number },
  ellipse: { cx: number, cy: number, rx: number, ry: number },
  line: { x1: number, y1: number, x2: number, y2: number },
  polyline: { points },
  polygon: { points },
  rect: { x: number, y: number, width: number, height: number, rx: number },
};

/**
 * Reduces an SVG to a tree of shapes out of a closed list. What is not on the list is a problem, not dropped: the file
 * is the source, and it should show what the reader will see. `parts` is null when there is any problem.
 */
export function reduceDrawing(
  file: string,
  text: string,
): { parts: DrawingPart[] | null; problems: Problem[] } {
  if (text.length > mostCharacters) {
    const sentence = `The drawing has more than ${mostCharacters} characters.`;
    return { parts: null, problems: [makeProblem("DRAWING_SIZE", { file, line: 1, column: 1 }, sentence)] };
  }
  const reader = new DrawingReader(file, text);
  reader.read();
  return { parts: reader.problems.length === 0 ? reader.parts : null, problems: reader.problems };
}

interface Tag {
  name: string;
  attributes: Record<string, string>;
}

class DrawingReader {
  readonly problems: Problem[] = [];
  readonly parts: DrawingPart[] = [];
  readonly #file: string;
  readonly #text: string;
  readonly #parser = new SaxesParser({ xmlns: false, position: true });
  /** The lists that the open elements add to; undefined inside what is refused, which is told once. */
  readonly #open: (DrawingPart[] | undefined)[] = [];
  #count = 0;
  #tagStart = 0;

  constructor(file: string, text: string) {
    this.#file = file;
    this.#text = text;
  }

  read(): void {
    const parser = this.#parser;
    let broken = false;
    const refuse = (sentence: string) => {
      if (!broken) this.#complain("DRAWING_SYNTAX", sentence, parser.position - 1);
      broken = true;
    };
    parser.on("error", ({ message }) =>
      refuse(`This cannot be read: ${message.replace(/^[\d:]+\s*/, "").replace(/\.$/, "")}.`),
    );
    parser.on("doctype", () => refuse("A drawing has no document type."));
    parser.on("processinginstruction", () => refuse("A drawing has no processing instructions."));
    parser.on("cdata", () => refuse("A drawing has no CDATA."));
    parser.on("opentagstart", () => {
      this.#tagStart = this.#text.lastIndexOf("<", parser.position - 1);
    });
    parser.on("opentag", (tag) => broken || this.#enter(tag as Tag));
    parser.on("closetag", () => this.#open.pop());
    parser.on("text", (said) => broken || this.#hear(said));
    parser.write(this.#text).close();
  }

  #hear(said: string): void {
    if (said.trim() === "" || this.#open.at(-1) === undefined) return;
    this.#complain(
      "DRAWING_TEXT",
      `Letters stand here: “${said.trim().slice(0, 40)}”.`,
      this.#parser.position - 1,
    );
  }

  #enter({ name, attributes }: Tag): void {
    const above = this.#open.at(-1);
    if (this.#open.length === 0) {
      this.#open.push(this.#checkRoot(name, attributes) ? this.parts : undefined);
      return;
    }
    const part = above === undefined ? null : this.#readPart(name, attributes);
    if (part === null) {
      this.#open.push(undefined);
      return;
    }
    above?.push(part);
    this.#count += 1;
    if (this.#count === mostParts + 1 || this.#open.length === mostDepth + 1)
      this.#complain(
        "DRAWING_SIZE",
        `The drawing has more than ${mostParts} shapes, or groups ${mostDepth} deep.`,
      );
    if (name === "g") part.parts = [];
    this.#open.push(part.parts ?? []);
  }

  #checkRoot(name: string, attributes: Tag["attributes"]): boolean {
    if (name !== "svg") {
      this.#complain("DRAWING_ELEMENT", `The drawing begins with “${name}”.`);
      return false;
    }
    const { xmlns, viewBox, ...others } = attributes;
    for (const other of Object.keys(others))
      this.#complain("DRAWING_ATTRIBUTE", `The svg element has “${other}”.`);
    if (xmlns !== NAMESPACE)
      this.#complain("DRAWING_ATTRIBUTE", `The svg element needs xmlns="${NAMESPACE}".`);
    const square = `0 0 ${DRAWING_SIDE} ${DRAWING_SIDE}`;
    if (viewBox !== square)
      this.#complain("DRAWING_SIZE", `The viewBox is “${viewBox ?? ""}”, not “${square}”.`);
    return true;
  }

  #readPart(name: string, attributes: Tag["attributes"]): DrawingPart | null {
    const tag = drawingTags.find((one) => one === name);
    if (tag === undefined) {
      this.#complain("DRAWING_ELEMENT", `There is no “${name}” in a drawing.`);
      return null;
    }
    const part: DrawingPart = { tag, roles: [], shape: {} };
    for (const [key, value] of Object.entries(attributes)) this.#readAttribute(part, key, value);
    return part;
  }

  #readAttribute(part: DrawingPart, key: string, value: string): void {
    const form = key === "transform" ? transform : geometry[part.tag][key];
    if (key === "class") {
      const words = value.split(/\s+/).filter((word) => word !== "");
      const known = words.filter((word): word is DrawingRole =>
        (drawingRoles as readonly string[]).includes(word),
      );
      if (known.length === words.length) part.roles = known;
      else
        this.#complain(
          "DRAWING_ATTRIBUTE",
          `“${value}” is not one of the roles: ${drawingRoles.join(", ")}.`,
        );
    } else if (key === "data-region" && part.tag === "g" && /^[a-z][a-z-]*$/.test(value)) {
      part.region = value;
    } else if (form?.test(value)) {
      part.shape[key] = value;
    } else {
      const what = form === undefined ? `“${key}”` : `“${key}” of “${value.slice(0, 40)}”`;
      this.#complain("DRAWING_ATTRIBUTE", `A ${part.tag} has no ${what}.`);
    }
  }

  #complain(code: ProblemCode, sentence: string, offset = this.#tagStart): void {
    this.problems.push(makeProblem(code, this.#placeOf(offset), sentence));
  }

  #placeOf(offset: number): Place {
    const lines = this.#text.slice(0, Math.max(0, offset)).split("\n");
    return { file: this.#file, line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1 };
  }
}
