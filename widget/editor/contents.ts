import type { CaseTest } from "../../flows/compare/case-tests.ts";
import type { Files } from "../../flows/content/read-files.ts";

/** What a draft is made of, as the server hands it out. */
export interface Contents {
  live: Files;
  draft: Files;
  liveNumber: number;
  revision: number;
  kept: CaseTest[];
}

interface Changes {
  base: number;
  revision: number;
  /** Files that differ from the base; null takes one out. */
  changes: Record<string, string | null>;
  kept: CaseTest[];
}

/** Fetches a draft. `draft`: its address. The base comes from the browser's own cache, where it was seen before. */
export async function loadContents(draft: string): Promise<Contents> {
  const { base, revision, changes, kept } = await fetchJson<Changes>(`${draft}/changes.json`);
  const live = await fetchJson<Files>(`/editor/editions/${base}/files.json`);
  const laid = Object.entries({ ...live, ...changes });
  const files = Object.fromEntries(laid.flatMap(([path, text]) => (text === null ? [] : [[path, text]])));
  return { live, draft: files, liveNumber: base, revision, kept };
}

async function fetchJson<T>(address: string): Promise<T> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address} answered ${response.status}.`);
  return (await response.json()) as T;
}
