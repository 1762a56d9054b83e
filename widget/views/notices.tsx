import * as words from "./words.ts";

/** Sentences the shopper should read before going on: answers set aside, a link that could not be read whole. */
export function Notices({ sentences }: { sentences: readonly string[] }) {
  if (sentences.length === 0) return null;
  return (
    <section class="lt-notices" part="notices">
      <h2 class="lt-eyebrow">{words.notes}</h2>
      <ul>
        {sentences.map((sentence) => (
          <li>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}
