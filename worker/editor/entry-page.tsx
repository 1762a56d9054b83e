import { readProse } from "../../flows/content/prose.ts";
import { openReader } from "../../flows/editing/read-draft.ts";
import { ProsePreview, QuestionPreview } from "../../widget/views/editor/entry-preview.tsx";
import { DraftFrame, hrefTo, hrefToFile } from "./draft-frame.tsx";
import type { WholeDraft } from "./drafts.ts";
import { type Clash, type Entry, nameOf, readTexts, type Texts } from "./entry-changes.ts";
import { ClashView, EntryProblems, EvidenceTable, Field, RetireForm, SourceList } from "./entry-views.tsx";
import { canRetire, type FormKind, kindNames, listRows } from "./form-kinds.ts";
import { type RoomContext, showPage } from "./room.tsx";

export interface Found {
  whole: WholeDraft;
  kind: FormKind;
  entry: Entry;
}

export interface Showing {
  status: 200 | 409 | 413 | 422;
  sentences?: readonly string[];
  clashes?: readonly Clash[];
  /** What was typed and is not saved. */
  typed?: Texts;
}

/** Knows the files that it read last, so that the next form of the same draft comes quickly. */
const reader = openReader();

/** The form of one entry, with what a shopper reads beside it. */
export function showEntry(c: RoomContext, found: Found, showing: Showing): Promise<Response> {
  const { whole, kind, entry } = found;
  const { draft, files } = whole;
  const { file } = entry.address;
  const { problems } = reader.read(files);
  const findings = kind === "condition" ? listRows(files, "finding") : [];
  const texts = readTexts(
    files,
    entry,
    findings.map(({ id }) => id),
  );
  const shown: Texts = { ...texts, ...pickKnown(texts, showing.typed ?? {}) };
  const isOpen = draft.closedAt === null;
  return showPage(c, {
    title: nameEntry(found, texts),
    status: showing.status,
    script: "/assets/editor/entry.js",
    children: (
      <DraftFrame draft={draft} part="entries">
        <p class="ed-faint">{`${kindNames[kind]}, id ${entry.id}. The id stays for good: links and codes are written with it.`}</p>
        {showing.sentences?.map((sentence) => (
          <p class="lt-problem" role="alert">
            {sentence}
          </p>
        ))}
        {showing.clashes?.map((clash) => (
          <ClashView clash={clash} />
        ))}
        <EntryProblems problems={problems.filter((problem) => problem.file === file)} />
        <div class="ed-columns ed-columns-form">
          <EntryForm {...{ found, texts, shown, isOpen, findings }} />
          <Aside {...{ found, shown }} />
        </div>
        {isOpen && canRetire(kind, entry.id) && <RetireForm draft={draft.id} kind={kind} id={entry.id} />}
      </DraftFrame>
    ),
  });
}

/** Only fields that the form has. */
function pickKnown(texts: Texts, typed: Texts): Texts {
  return Object.fromEntries(Object.entries(typed).filter(([name]) => Object.hasOwn(texts, name)));
}

function nameEntry({ whole, kind, entry }: Found, texts: Texts): string {
  const own = texts[kind === "question" ? "prompt" : kind === "source" ? "title" : "name"];
  const row = ["lexicon", "wording", "drawing", "shop"].includes(kind)
    ? listRows(whole.files, kind).find(({ id }) => id === entry.id)?.name
    : undefined;
  return row || own || entry.id;
}

interface EntryFormProps {
  found: Found;
  /** As the files have them, and as the fields show them. */
  texts: Texts;
  shown: Texts;
  isOpen: boolean;
  findings: ReturnType<typeof listRows>;
}

function EntryForm({ found: { whole, kind, entry }, texts, shown, isOpen, findings }: EntryFormProps) {
  const { draft } = whole;
  const { file } = entry.address;
  return (
    <form
      method="post"
      action={hrefTo(draft.id, "entry")}
      data-entry={isOpen ? hrefTo(draft.id, "entry") : undefined}
      {...watchEntry(draft.id, entry)}
    >
      <input type="hidden" name="entry-kind" value={kind} />
      <input type="hidden" name="entry-id" value={entry.id} />
      <input type="hidden" name="was" value={JSON.stringify(texts)} />
      {entry.fields.map((spec) => {
        const text = shown[nameOf(spec)] ?? "";
        return (
          <Field
            {...{ spec, text, isOpen }}
            preview={spec.as === "prose" && <Preview name={nameOf(spec)} text={text} file={file} />}
          />
        );
      })}
      {findings.length > 0 && <EvidenceTable findings={findings} texts={shown} isOpen={isOpen} />}
      {isOpen && (
        <div class="lt-actions ed-save">
          <button class="lt-button" type="submit">
            Save
          </button>
          <button class="lt-button lt-button-plain" type="submit" name="show" value="yes" data-show="">
            Show how it reads, without saving
          </button>
          <a class="lt-link" href={hrefToFile(draft.id, file)}>
            As a file
          </a>
          <p class="ed-status" id="status" role="status" />
        </div>
      )}
    </form>
  );
}

/** What the script needs that says what is wrong while one types. */
function watchEntry(draft: string, { kind, id, address: { file, path }, fields }: Entry) {
  const watched = fields.map((spec) => ({
    ...{ name: nameOf(spec), path: [...path, ...spec.path], as: spec.as },
    ...(spec.optional ? { optional: true } : {}),
  }));
  const condition = kind === "condition" ? { condition: id } : {};
  return {
    "data-watch": hrefTo(draft),
    "data-watched": JSON.stringify({ file, fields: watched, ...condition }),
  };
}

/** A field's prose as a shopper reads it; the script keeps it up to date. */
function Preview({ name, text, file }: { name: string; text: string; file: string }) {
  return (
    <div class="ed-preview">
      <p class="ed-faint">As a shopper reads it</p>
      <div data-preview={name}>
        <ProsePreview of={blocksOf(text, file)} />
      </div>
    </div>
  );
}

function blocksOf(text: string, file: string) {
  return readProse(text, (line, column) => ({ file, line, column })).blocks;
}

/** The question as the check asks it, and the sources that carry the claims. */
function Aside({ found: { whole, kind, entry }, shown }: { found: Found; shown: Texts }) {
  const cited = (shown.sources ?? "").split("\n").filter(Boolean);
  const isCard = kind === "question";
  if (!isCard && cited.length === 0) return null;
  return (
    <aside class="ed-beside" aria-label="Beside the form">
      {isCard && (
        <section class="ed-preview" aria-label="As the check asks it">
          <p class="ed-faint">As the check asks it</p>
          <div data-preview-card="">
            <QuestionPreview {...cardOf(shown, entry.address.file)} />
          </div>
        </section>
      )}
      <SourceList draft={whole.draft.id} files={whole.files} cited={cited} />
    </aside>
  );
}

function cardOf(texts: Texts, file: string) {
  const options = Object.entries(texts).flatMap(([name, label]) => {
    const [, id] = /^options\.(.+)\.label$/.exec(name) ?? [];
    return id === undefined ? [] : [{ id, label }];
  });
  const { prompt = "", why = "", body = "" } = texts;
  return { prompt, why, options, howToCheck: blocksOf(body, file) };
}
