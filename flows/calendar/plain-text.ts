import type { Block, Inline } from "../edition.ts";

/** Prose without marks: list items on lines of their own, links as their words. */
export function toPlainText(blocks: readonly Block[]): string {
  return blocks.map(blockText).join("\n");
}

function blockText(block: Block): string {
  if (block.t === "p") return inlineText(block.of);
  return block.items.map((item, i) => `${block.ordered ? `${i + 1}.` : "-"} ${toPlainText(item)}`).join("\n");
}

function inlineText(inlines: readonly Inline[]): string {
  return inlines
    .map((inline) => {
      if (inline.t === "break") return "\n";
      return "text" in inline ? inline.text : inlineText(inline.of);
    })
    .join("");
}
