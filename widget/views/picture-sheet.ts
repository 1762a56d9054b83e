/** Answers of a question with a picture to press, at most. */
const MOST_LAYERS = 16;

/** For each answer by its place: the layer that is marked while the answer has a state. The drawing comes before the layers. */
function markLayers(state: string, rule: string): string {
  const selectors = Array.from(
    { length: MOST_LAYERS },
    (_, at) =>
      `.lt-card:has(.lt-option:nth-child(${at + 1}) ${state}) .lt-layer:nth-child(${at + 2}) .lt-drawing :is(${shapes})`,
  );
  return `${selectors.join(", ")} { ${rule} }`;
}
const shapes = ".lt-d-ink, .lt-d-fine, .lt-d-sign, .lt-d-sign-fine";

/**
 * Drawings are printed on paper: by dark light too they lie on a dimmed sheet of it, for what is white on the plant must
 * stay white. Forced colors take the place of all inks.
 */
export const pictureSheet = `
.lt {
  --lt-d-paper: #fffefa; --lt-d-wash: #e4e3d3; --lt-d-shade: #a3a791; --lt-d-ink: #20241f; --lt-d-faint: #666a5e; --lt-d-accent: #7d1f2b;
}
@media (prefers-color-scheme: dark) {
  .lt { --lt-d-paper: #dedbcd; --lt-d-wash: #c3c2b0; --lt-d-shade: #878b76; --lt-d-ink: #14170f; --lt-d-faint: #4f5348; --lt-d-accent: #6d1420; }
}
@media print {
  .lt { --lt-d-paper: #fff; --lt-d-wash: #eee; --lt-d-shade: #b4b4b4; --lt-d-ink: #000; --lt-d-faint: #555; --lt-d-accent: #7d1f2b; }
}
@media (forced-colors: active) {
  .lt { --lt-d-paper: Canvas; --lt-d-wash: Canvas; --lt-d-shade: GrayText; --lt-d-ink: CanvasText; --lt-d-faint: GrayText; --lt-d-accent: LinkText; }
}
.lt-drawing { display: block; inline-size: 100%; block-size: auto; aspect-ratio: 1; background: var(--lt-d-paper); }
.lt-drawing * { fill: none; stroke: none; stroke-linecap: round; stroke-linejoin: round; }
.lt-drawing .lt-d-ink { stroke: var(--lt-d-ink); stroke-width: 2; }
.lt-drawing .lt-d-fine { stroke: var(--lt-d-ink); stroke-width: 1.1; }
.lt-drawing .lt-d-faint { stroke: var(--lt-d-faint); stroke-width: 1; }
.lt-drawing .lt-d-sign { stroke: var(--lt-d-accent); stroke-width: 2.2; }
.lt-drawing .lt-d-sign-fine { stroke: var(--lt-d-accent); stroke-width: 1.2; }
.lt-drawing .lt-d-paper { fill: var(--lt-d-paper); }
.lt-drawing .lt-d-wash { fill: var(--lt-d-wash); }
.lt-drawing .lt-d-shade { fill: var(--lt-d-shade); }
.lt-drawing .lt-d-dark { fill: var(--lt-d-ink); }
.lt-drawing .lt-d-mark { fill: var(--lt-d-accent); }
.lt-figures { display: grid; gap: calc(var(--lt-unit) * 4); grid-template-columns: repeat(auto-fill, minmax(min(100%, 6.5rem), 1fr)); }
.lt-figure > .lt-drawing { max-inline-size: 10rem; border: 1px solid var(--lt-rule); }
.lt-figure > figcaption { margin-block-start: var(--lt-unit); font-size: var(--lt-small); line-height: 1.4; }
.lt-coming { inline-size: 10rem; max-inline-size: 100%; aspect-ratio: 2 / 3; }
.lt-leading { margin-block-end: calc(var(--lt-unit) * 4); }
.lt-pair { display: grid; gap: calc(var(--lt-unit) * 4); grid-template-columns: 1fr 1fr; margin-block: calc(var(--lt-unit) * 4); }
.lt-pair > .lt-check { grid-column: 1 / -1; grid-row: 2; }
@media (min-width: 600px) {
  .lt-pair { grid-template-columns: 10rem 1fr 10rem; }
  .lt-pair > .lt-check { grid-column: 2; grid-row: 1; align-self: center; }
}
/* Drawn large, the usual stroke would be a marker's. */
.lt-press .lt-drawing .lt-d-ink { stroke-width: 1.3; }
.lt-press .lt-drawing :is(.lt-d-fine, .lt-d-faint, .lt-d-sign-fine) { stroke-width: 0.7; }
.lt-press .lt-drawing .lt-d-sign { stroke-width: 1.5; }
.lt-press > .lt-layer { position: absolute; inset: 0; pointer-events: none; }
.lt-layer .lt-drawing { background: none; }
/* Only the unseen shapes take a press: they do not overlap, and are large enough for a thumb. */
.lt-layer .lt-drawing path:not([class]) { pointer-events: all; cursor: pointer; }
.lt-press .lt-layer:hover .lt-drawing :is(${shapes}) { stroke-width: 2; }
${markLayers(":checked", "stroke: var(--lt-d-accent); stroke-width: 2.6;")}
${markLayers(":focus-visible", "stroke-width: 2.6; stroke-dasharray: 4 3;")}
/* The sheet of a plan has two pages and no room to spare: there the words do. */
@media print {
  .lt-figure, .lt-coming, .lt-leading { display: none; }
  .lt-pair { display: block; margin: 0; }
}
`;
