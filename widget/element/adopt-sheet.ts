const made = new WeakMap<Document, Map<string, CSSStyleSheet>>();

/**
 * Dresses a shadow root in these sheets and no others. A constructed sheet belongs to the document it was made in, so
 * each document gets its own, and all elements in it share that one.
 */
export function adoptSheets(root: ShadowRoot, ...texts: string[]): void {
  const { ownerDocument } = root;
  const view = ownerDocument.defaultView;
  if (view === null) return;
  const sheets = made.get(ownerDocument) ?? new Map<string, CSSStyleSheet>();
  made.set(ownerDocument, sheets);
  root.adoptedStyleSheets = texts.map((text) => {
    const sheet = sheets.get(text) ?? new view.CSSStyleSheet();
    if (!sheets.has(text)) sheet.replaceSync(text);
    sheets.set(text, sheet);
    return sheet;
  });
}
