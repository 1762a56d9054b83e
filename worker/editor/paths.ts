const LONGEST = 120;

/** Whether a path may name a file of content: small letters and digits, in folders, and one of our endings. */
export function isContentPath(path: string): boolean {
  return path.length <= LONGEST && /^(?:[a-z0-9-]+\/){0,2}[a-z0-9][a-z0-9-]*\.(?:md|yaml|svg)$/.test(path);
}
