/**
 * Stands in for hono/jsx/utils in the element's bundle. The views write attributes by their HTML names and never an
 * inline style, which the strict policy of a page would refuse anyway.
 */
export function normalizeIntrinsicElementKey(key: string): string {
  return key;
}

export function styleObjectForEach(): void {}
