import type { Standing } from "../../flows/edition.ts";

/** What the page around is told. Nothing of it says who the shopper is or what was answered. */
export interface Told {
  "leafturn-started": { edition: number; resumed: boolean };
  "leafturn-verdict": { edition: number; standing: Standing; condition: string | null };
  "leafturn-sample": { edition: number; standing: Standing; branch: string | null };
}

export function tell<K extends keyof Told>(element: Element, name: K, detail: Told[K]): void {
  element.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
}
