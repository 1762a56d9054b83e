const made = new WeakMap<Document, Map<string, CSSStyleSheet>>();

/**
 * Dresses a shadow root or a document in these sheets and no others. A constructed sheet belongs to the document it was made in, so
 * each document gets its own, and all elements in it share that one.
 */
export function adoptSheets(root: ShadowRoot | Document, ...texts: string[]): void {
  const owner = root.ownerDocument ?? (root as Document);
  const view = owner.defaultView;
  if (view === null) return;
  const sheets = made.get(owner) ?? new Map<string, CSSStyleSheet>();
  made.set(owner, sheets);
  root.adoptedStyleSheets = texts.map((text) => {
    const sheet = sheets.get(text) ?? new view.CSSStyleSheet();
    if (!sheets.has(text)) sheet.replaceSync(text);
    sheets.set(text, sheet);
    return sheet;
  });
}
