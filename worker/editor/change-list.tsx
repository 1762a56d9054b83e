import { type FieldChange, listChanges } from "../../flows/editing/difference.ts";
import { toText } from "../../flows/editing/field-text.ts";
import { hrefToFile } from "./draft-frame.tsx";
import type { WholeDraft } from "./drafts.ts";
import { hrefToEntry } from "./entry-list.tsx";
import { type FormKind, formKinds, kindNames, locateForm } from "./form-kinds.ts";
import { findSplice } from "./splice.ts";

interface Group {
  name: string;
  /** Where it is edited: its form, or the file. */
  href: string;
  kind: string | null;
  changes: FieldChange[];
}

/** What differs from the base, entry by entry and field by field, both states side by side. Made to be printed as well. */
export function ChangeList({ whole }: { whole: WholeDraft }) {
  const { draft, base, files } = whole;
  const changes = listChanges(base, files);
  const groups = groupChanges(whole, changes);
  return (
    <section>
      <h2 class="lt-prompt">{`What differs from edition ${draft.base}`}</h2>
      {changes.length === 0 ? (
        <p>Nothing yet.</p>
      ) : (
        <p class="ed-faint">{`${changes.length === 1 ? "One change" : `${changes.length} changes`} in ${groups.length === 1 ? "one place" : `${groups.length} places`}`}</p>
      )}
      {groups.map((group) => (
        <section class="ed-group">
          <h3>
            <a class="lt-link" href={group.href}>
              {group.name}
            </a>
            {group.kind && <span class="ed-faint">{` ${group.kind}`}</span>}
          </h3>
          <ul class="ed-list">
            {group.changes.map((change) => (
              <li>
                <ChangeView change={change} edition={draft.base} />
              </li>
            ))}
          </ul>
        </section>
      ))}
    </section>
  );
}

function groupChanges({ draft, files }: WholeDraft, changes: readonly FieldChange[]): Group[] {
  const groups = new Map<string, Group>();
  for (const change of changes) {
    const form = findForm(change);
    const isThere = form !== null && locateForm(files, form.kind, form.id) !== null;
    const key = form ? `${form.kind} ${form.id}` : change.file;
    const group = groups.get(key) ?? {
      name: change.entry?.name ?? (form ? form.id : change.file),
      href: isThere ? hrefToEntry(draft.id, form.kind, form.id) : hrefToFile(draft.id, change.file),
      kind: form ? `${kindNames[form.kind]}, ${form.id}` : null,
      changes: [],
    };
    group.changes.push(change);
    groups.set(key, group);
  }
  return [...groups.values()];
}

/** The form in which a changed field stands; null for what is edited as a file. */
function findForm({ entry, file, path }: FieldChange): { kind: FormKind; id: string } | null {
  const kind = formKinds.find((one) => one === entry?.kind);
  if (entry && kind) return { kind, id: entry.id };
  const [first, second] = path.map(String);
  if (file === "drawings.yaml" && first !== undefined) return { kind: "drawing", id: first };
  if (file === "lexicon.yaml" && first !== undefined)
    return { kind: "lexicon", id: second === undefined ? first : `${first}.${second}` };
  if (file === "shop.yaml") return { kind: "shop", id: first === "branches" && second ? second : "shop" };
  if (file === "conversation.yaml") return { kind: "wording", id: "conversation" };
  return file === "trade-words.yaml" ? { kind: "wording", id: "trade-words" } : null;
}

function ChangeView({ change, edition }: { change: FieldChange; edition: number }) {
  const { before, after, kind, sentence } = change;
  const isValue = kind === "changed" && (isLong(before) || isLong(after));
  if (!isValue) return <p>{sentence}</p>;
  const [was, is] = [say(before), say(after)];
  const [start, end] = findDifference(was, is);
  return (
    <>
      <p>{sentence}</p>
      <div class="ed-both">
        <div>
          <p class="ed-faint">{`In edition ${edition}`}</p>
          <pre class="ed-pre ed-change" tabindex={0}>
            {was.slice(0, start)}
            <del>{was.slice(start, was.length - end)}</del>
            {was.slice(was.length - end)}
          </pre>
        </div>
        <div>
          <p class="ed-faint">In this draft</p>
          <pre class="ed-pre ed-change" tabindex={0}>
            {is.slice(0, start)}
            <ins>{is.slice(start, is.length - end)}</ins>
            {is.slice(is.length - end)}
          </pre>
        </div>
      </div>
    </>
  );
}

/** The sentence says short values already. */
function isLong(value: unknown): boolean {
  return value !== undefined && value !== null && (typeof value === "object" || String(value).length > 40);
}

function say(value: unknown): string {
  if (value === undefined || value === null) return "(nothing)";
  const isPlain =
    typeof value !== "object" || (Array.isArray(value) && value.every((one) => typeof one !== "object"));
  return isPlain ? toText(value) : JSON.stringify(value, null, 1);
}

/** How much is the same at the start and at the end, in whole words. */
function findDifference(was: string, is: string): [start: number, end: number] {
  const { start, removed } = findSplice(was, is);
  const begun = was.slice(0, start).split(/\s/).at(-1) ?? "";
  const rest = was.slice(start + removed.length);
  const wordEnd = /^\S*/.exec(rest)?.[0].length ?? 0;
  return [start - begun.length, rest.length - wordEnd];
}
