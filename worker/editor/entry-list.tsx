import { DraftFrame, hrefTo } from "./draft-frame.tsx";
import type { WholeDraft } from "./drafts.ts";
import { SearchForm } from "./file-routes.tsx";
import { type FormKind, formKinds, kindNames, listRows, newNameOf } from "./form-kinds.ts";
import { type RoomContext, showPage } from "./room.tsx";

export function hrefToEntry(draft: string, kind: FormKind, id: string): string {
  return `${hrefTo(draft, "entry")}?kind=${kind}&id=${encodeURIComponent(id)}`;
}

/** What there is of a kind, to be found by name or id. */
export function showEntries(
  c: RoomContext,
  whole: WholeDraft,
  kind: FormKind,
  status: 200 | 422,
  sentence = "",
): Promise<Response> {
  const { draft, files } = whole;
  const sought = (c.req.query("q") ?? "").trim().slice(0, 80);
  const rows = listRows(files, kind);
  const found = rows.filter(({ id, name }) => `${id} ${name}`.toLowerCase().includes(sought.toLowerCase()));
  return showPage(c, {
    title: draft.title,
    status,
    children: (
      <DraftFrame draft={draft} part="entries">
        {sentence && (
          <p class="lt-problem" role="alert">
            {sentence}
          </p>
        )}
        <nav class="ed-tabs" aria-label="Kinds of entries">
          {formKinds.map((one) => (
            <a
              class="lt-link"
              href={`${hrefTo(draft.id, "entries")}?kind=${one}`}
              aria-current={one === kind ? "page" : undefined}
            >
              {kindNames[one]}
            </a>
          ))}
        </nav>
        <section>
          <h2 class="lt-prompt">{kindNames[kind]}</h2>
          <SearchForm label="Find by name or id" value={sought} carried={[["kind", kind]]} />
          <p class="ed-faint" role="status">{`${found.length} of ${rows.length}`}</p>
          <ul class="ed-list">
            {found.map(({ id, name }) => (
              <li class="ed-row">
                <a class="lt-link" href={hrefToEntry(draft.id, kind, id)}>
                  {name || id}
                </a>
                <span class="ed-faint">{id}</span>
              </li>
            ))}
          </ul>
        </section>
        {draft.closedAt === null && <NewForm draft={draft.id} kind={kind} />}
      </DraftFrame>
    ),
  });
}

function NewForm({ draft, kind }: { draft: string; kind: FormKind }) {
  const name = newNameOf(kind);
  if (name === null) return null;
  return (
    <form class="lt-card" method="post" action={hrefTo(draft, "entries")}>
      <h2 class="lt-prompt">{name}</h2>
      <input type="hidden" name="kind" value={kind} />
      <label class="lt-label" for="new-id">
        {kind === "lexicon"
          ? "The id of the finding"
          : "Its id: small letters and digits, joined by dashes. It can never be changed."}
      </label>
      <input class="lt-input" id="new-id" name="new-id" required maxlength={80} />
      <p class="lt-actions">
        <button class="lt-button lt-button-plain" type="submit">
          Add it
        </button>
      </p>
    </form>
  );
}
