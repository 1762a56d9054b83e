import { DRAWING_SIDE, type DrawingPart } from "../../flows/edition.ts";

interface DrawingProps {
  parts: readonly DrawingPart[];
  /** What the drawing shows, for those who cannot see it. Without it the drawing only repeats the words beside it. */
  label?: string | undefined;
}

/** A drawing as nodes. Its square is fixed, so that nothing moves when it comes in late. */
export function DrawingView({ parts, label }: DrawingProps) {
  return (
    <svg
      class="lt-drawing"
      viewBox={`0 0 ${DRAWING_SIDE} ${DRAWING_SIDE}`}
      width={DRAWING_SIDE}
      height={DRAWING_SIDE}
      role={label === undefined ? undefined : "img"}
      aria-label={label}
      aria-hidden={label === undefined ? "true" : undefined}
    >
      {parts.map(renderPart)}
    </svg>
  );
}

function renderPart({ tag: Tag, roles, shape, parts }: DrawingPart) {
  const inked = roles.length > 0 ? { class: roles.map((role) => `lt-d-${role}`).join(" ") } : {};
  return (
    <Tag {...shape} {...inked}>
      {parts?.map(renderPart)}
    </Tag>
  );
}
