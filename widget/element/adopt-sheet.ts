const made = new WeakMap<Document, Map<string, CSSStyleSheet>>();

/**
 * Dresses a shadow root. A constructed sheet belongs to the document it was made in, so each document gets its own, and
 * all elements in it share that one.
 */
export function adoptSheet(root: ShadowRoot, text: string): void {
  const { ownerDocument } = root;
  const view = ownerDocument.defaultView;
  if (view === null) return;
  const sheets = made.get(ownerDocument) ?? new Map<string, CSSStyleSheet>();
  made.set(ownerDocument, sheets);
  let sheet = sheets.get(text);
  if (sheet === undefined) {
    sheet = new view.CSSStyleSheet();
    sheet.replaceSync(text);
    sheets.set(text, sheet);
  }
  root.adoptedStyleSheets = [sheet];
}
