import type { Child } from "hono/jsx";
import type { Draft } from "./drafts.ts";
import { sayTime } from "./editor-words.ts";
import { ROOM } from "./room.tsx";

export function hrefTo(draft: string, part = ""): string {
  return `${ROOM}/drafts/${draft}${part === "" ? "" : `/${part}`}`;
}

export function hrefToFile(draft: string, path: string): string {
  return `${hrefTo(draft, "file")}?path=${encodeURIComponent(path)}`;
}

const tabs = [
  ["", "Changes"],
  ["entries", "The guide"],
  ["tree", "The tree"],
  ["files", "Files"],
  ["check", "What it does"],
  ["publish", "Publish"],
] as const;

interface DraftFrameProps {
  draft: Draft;
  /** Which of the tabs is open. */
  part: (typeof tabs)[number][0];
  children: Child;
}

/** What stands above every page about a draft. */
export function DraftFrame({ draft, part, children }: DraftFrameProps) {
  return (
    <>
      <p class="ed-faint">
        {`Begun by ${draft.madeBy ?? "someone"} from edition ${draft.base}, last changed ${sayTime(draft.changedAt)}.`}
        {draft.publishedAs !== null && ` Published as edition ${draft.publishedAs}.`}
        {draft.closedAt !== null && draft.publishedAs === null && " Closed."}
      </p>
      <nav class="ed-tabs" aria-label="Draft">
        {tabs.map(([path, name]) => (
          <a class="lt-link" href={hrefTo(draft.id, path)} aria-current={path === part ? "page" : undefined}>
            {name}
          </a>
        ))}
      </nav>
      {children}
    </>
  );
}
