import type { Lexicon } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import { importWhole } from "../element/import-whole.ts";
import { folderOf, readJson } from "./load-flow.ts";

type SayPart = typeof import("./say-part.ts");

/** What reads the caller's own words: the program, and the edition with its lexicon. */
export interface Say extends Pick<SayPart, "propose"> {
  flow: Flow;
}

/** Fetches it once, when first wanted. After a try that failed, the next one tries again. */
export function makeSayLoader(base: string, { edition }: Flow): () => Promise<Say> {
  let say: Promise<Say> | undefined;
  let hasFailed = false;
  return () => {
    say ??= Promise.all([
      readJson<Lexicon>(`${folderOf(base, edition)}/lexicon.json`),
      importWhole<SayPart>(import.meta.url, DESK_SAY, hasFailed),
    ])
      .then(([lexicon, { addLexicon, propose }]) => ({ flow: addLexicon(edition, lexicon), propose }))
      .catch((error: unknown) => {
        hasFailed = true;
        say = undefined;
        throw error;
      });
    return say;
  };
}
