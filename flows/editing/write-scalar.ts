import type { Scalar } from "yaml";
import { isPlain, quote } from "./write-value.ts";

/** Ways to write one value in the place of a scalar, the one most like what was there first. */
export function* writeScalars(
  value: string | number | boolean | null,
  old: Scalar,
  oldText: string,
  indent: number,
  inFlow: boolean,
): Generator<string> {
  if (typeof value !== "string") {
    yield String(value);
    return;
  }
  const isLong = value.includes("\n");
  if (!inFlow && (isLong || old.type === "BLOCK_LITERAL")) yield writeLiteral(value, oldText, indent);
  if (old.type === "QUOTE_SINGLE" && !isLong) yield `'${value.replaceAll("'", "''")}'`;
  if (old.type !== "QUOTE_DOUBLE" && isPlain(value, inFlow)) yield value;
  yield quote(value);
}

/** A `|` block, two columns further in than its key, or as far in as it was. */
function writeLiteral(value: string, oldText: string, indent: number): string {
  const newline = oldText.includes("\r\n") ? "\r\n" : "\n";
  const was = /^\|[^\n]*\n(?:[ \t]*\r?\n)*( +)/.exec(oldText)?.[1];
  const inset = was ?? " ".repeat(indent + 2);
  const chomp = value.endsWith("\n\n") ? "+" : value.endsWith("\n") ? "" : "-";
  const lines = value.replace(/\n$/, "").split("\n");
  return `|${chomp}${newline}${lines.map((line) => (line === "" ? "" : inset + line)).join(newline)}`;
}
