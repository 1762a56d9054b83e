/** Conditional requests on one file of a draft, by RFC 9110, section 13. */
import type { DraftFile } from "./drafts.ts";

/**
 * The strong validator of a file as it stands; null while the draft has no such file. A file that was never saved in the
 * draft is known by its base, because the draft may be moved to another.
 */
export function tagOf({ text, version, base }: DraftFile): string | null {
  if (text === null) return null;
  return version === 0 ? `"base-${base}"` : `"save-${version}"`;
}

export interface Conditions {
  ifMatch: string | undefined;
  ifNoneMatch: string | undefined;
}

/** What comes of the conditions of an unsafe request: go on, or a status. A request must say what it saw. */
export function judgeConditions(tag: string | null, { ifMatch, ifNoneMatch }: Conditions): "go" | 412 | 428 {
  if (ifMatch !== undefined) {
    if (!matches(ifMatch, tag, false)) return 412;
  } else if (ifNoneMatch === undefined) return 428;
  return ifNoneMatch !== undefined && matches(ifNoneMatch, tag, true) ? 412 : "go";
}

/** Whether a GET may be answered with 304. */
export function isKnown(tag: string | null, ifNoneMatch: string | undefined): boolean {
  return ifNoneMatch !== undefined && matches(ifNoneMatch, tag, true);
}

/** "*" matches whatever is there. A weak tag never matches in the strong comparison of If-Match. */
function matches(field: string, tag: string | null, isWeak: boolean): boolean {
  if (tag === null) return false;
  if (field.trim() === "*") return true;
  return [...field.matchAll(/(W\/)?("[\x21\x23-\x7e\x80-\xff]*")/g)].some(
    ([, weak, opaque]) => opaque === tag && (isWeak || weak === undefined),
  );
}
