import type { Ways } from "./ways.ts";
import { words } from "./words.ts";

/** Sentences the shopper should read before going on: answers set aside, a link that could not be read whole. */
export function Notices({ sentences, ways }: { sentences: readonly string[]; ways: Pick<Ways, "id"> }) {
  if (sentences.length === 0) return null;
  return (
    <section class="lt-notices" part="notices" aria-labelledby={ways.id("notes")}>
      <h2 class="lt-eyebrow" id={ways.id("notes")}>
        {words.notes}
      </h2>
      <ul>
        {sentences.map((sentence) => (
          <li>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}
