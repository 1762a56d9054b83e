import type { Block, Inline } from "../../flows/edition.ts";

/** Renders the closed tree of blocks into nodes. */
export function Prose({ of }: { of: readonly Block[] }) {
  return <>{of.map(renderBlock)}</>;
}

function renderBlock(block: Block) {
  if (block.t === "p") return <p>{renderInlines(block.of)}</p>;
  const items = block.items.map((item) => <li>{renderItem(item)}</li>);
  return block.ordered ? <ol>{items}</ol> : <ul>{items}</ul>;
}

/** A list item of one paragraph reads better without the paragraph's margins. */
function renderItem(item: readonly Block[]) {
  const [first, ...rest] = item;
  if (first?.t !== "p") return item.map(renderBlock);
  return (
    <>
      {renderInlines(first.of)}
      {rest.map(renderBlock)}
    </>
  );
}

function renderInlines(inlines: readonly Inline[]) {
  return inlines.map(renderInline);
}

function renderInline(inline: Inline) {
  switch (inline.t) {
    case "text":
      return inline.text;
    case "code":
      return <code>{inline.text}</code>;
    case "em":
      return <em>{renderInlines(inline.of)}</em>;
    case "strong":
      return <strong>{renderInlines(inline.of)}</strong>;
    case "link":
      return (
        <a href={inline.to} rel="noreferrer">
          {renderInlines(inline.of)}
        </a>
      );
    case "break":
      return <br />;
  }
}
