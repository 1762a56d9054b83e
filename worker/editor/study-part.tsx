/** The place of a page where a script goes through every conversation of a draft, and what is known without it. */
import { bearsSame } from "../../flows/compare/bearing.ts";
import type { Edition } from "../../flows/edition.ts";
import { hrefTo } from "./draft-frame.tsx";
import type { Draft } from "./drafts.ts";

interface StudyPartProps {
  draft: Draft;
  /** Null while the draft has problems. */
  edition: Edition | null;
  /** Nothing in it bears on any conversation; null when the live edition is not the one it was begun from. */
  same: boolean | null;
  /** Only what publishing needs. */
  isBrief?: boolean;
}

export function StudyPart({ draft, edition, same, isBrief = false }: StudyPartProps) {
  return (
    <section class={isBrief ? "" : "lt-section ed-study"}>
      <h2 class="lt-prompt">
        {isBrief ? "Every conversation" : "What this draft does to every conversation"}
      </h2>
      {same === true && (
        <p class="lt-lead">
          {`No conversation changes: what differs from edition ${draft.base} is wording, or something else that no question, verdict or plan depends on.`}
        </p>
      )}
      {edition === null && (
        <p>Something in the draft is wrong. When it is mended, its conversations can be looked at here.</p>
      )}
      {edition && same !== true && (
        <p>
          {`Your browser can go through all of them, under edition ${draft.base} and under this draft: what ends in another way and because of what, what became longer, and whether every rule still holds. It takes about half a minute; you can go on meanwhile in another tab.`}
        </p>
      )}
      <p class="ed-status" id="study-said" role="status" />
      <div
        id="study"
        data-draft={hrefTo(draft.id)}
        data-revision={String(draft.revision)}
        data-live={String(draft.base)}
        data-hash={edition?.hash ?? ""}
        {...(isBrief ? { "data-brief": "yes" } : {})}
      >
        {edition && (
          <p class="lt-notices">
            Going through every conversation needs JavaScript: your own browser does the work. Everything else
            on this page works without.
          </p>
        )}
      </div>
    </section>
  );
}

/** Whether every conversation is as in the live edition; null where that is another than the draft was begun from. */
export function isSame(live: Edition, draft: Draft, edition: Edition | null): boolean | null {
  return edition === null || live.number !== draft.base ? null : bearsSame(live, edition);
}
