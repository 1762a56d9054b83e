/** The guide in forms: find an entry, edit its fields, retire it. */
import { Hono } from "hono";
import type { Problem } from "../../flows/content/problems.ts";
import { readProse } from "../../flows/content/prose.ts";
import type { Files } from "../../flows/content/read-files.ts";
import { addEntry, locateEntry, retireEntry } from "../../flows/editing/entries.ts";
import { readField } from "../../flows/editing/field.ts";
import { toText } from "../../flows/editing/field-text.ts";
import { evidenceWords } from "../../flows/evidence-table.ts";
import { Prose } from "../../widget/views/prose.tsx";
import type { PrivateSetting } from "../setting.ts";
import { compile } from "./compile.ts";
import { DraftFrame, hrefTo, hrefToFile } from "./draft-frame.tsx";
import { readDraftFile, readWholeDraft, saveDraftFile, type WholeDraft } from "./drafts.ts";
import { editorWords } from "./editor-words.ts";
import {
  type Clash,
  type Entry,
  evidenceName,
  layChanges,
  nameOf,
  type Texts,
  wordFor,
} from "./entry-changes.ts";
import { type FieldSpec, type FormKind, formKinds, kindNames, listFields } from "./entry-fields.ts";
import { SearchForm } from "./file-routes.tsx";
import { databaseOf, makeId, type RoomContext, readForm, showPage, showSentence, textOf } from "./room.tsx";

export function makeEntryRoutes() {
  const routes = new Hono<PrivateSetting>();
  routes.get("/:id/entries", listEntries);
  routes.post("/:id/entries", add);
  routes.get("/:id/entry", (c) =>
    open(c, c.req.query("kind"), c.req.query("id"), (found) => showEntry(c, found, { status: 200 })),
  );
  routes.post("/:id/entry", save);
  routes.post("/:id/retire", retire);
  return routes;
}

function readKind(text: string | undefined): FormKind {
  return formKinds.find((kind) => kind === text) ?? "condition";
}

interface Row {
  id: string;
  name: string;
}

/** The entries of a kind by their ids, with what people call them. */
function listRows(files: Files, kind: FormKind): Row[] {
  const folder = { condition: "conditions/", question: "questions/", remedy: "remedies/" }[kind as string];
  if (folder !== undefined) {
    return Object.keys(files)
      .filter((path) => path.startsWith(folder))
      .map((path) => {
        const name = readField(files, { file: path, path: [kind === "question" ? "prompt" : "name"] });
        return { id: path.slice(folder.length, -".md".length), name: toText(name) };
      });
  }
  const file = { finding: "findings.yaml", host: "hosts.yaml", source: "sources.yaml" }[kind as string] ?? "";
  const items = readField(files, { file, path: [] });
  if (!Array.isArray(items)) return [];
  return items.map((item: Record<string, unknown> | null) => ({
    id: toText(item?.id),
    name: toText(item?.name ?? item?.title),
  }));
}

async function listEntries(c: RoomContext): Promise<Response> {
  const whole = await readWholeDraft(databaseOf(c), c.req.param("id") ?? "");
  if (whole === null) return showSentence(c, 404, "Draft", editorWords.gone);
  return showEntries(c, whole, readKind(c.req.query("kind")), 200);
}

function showEntries(c: RoomContext, whole: WholeDraft, kind: FormKind, status: 200 | 422, sentence = "") {
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
        {draft.closedAt === null && (
          <form class="lt-card" method="post" action={hrefTo(draft.id, "entries")}>
            <h2 class="lt-prompt">A new entry</h2>
            <input type="hidden" name="kind" value={kind} />
            <label class="lt-label" for="new-id">
              Its id: small letters and digits, joined by dashes. It can never be changed.
            </label>
            <input class="lt-input" id="new-id" name="new-id" required maxlength={80} />
            <p class="lt-actions">
              <button class="lt-button lt-button-plain" type="submit">
                Add it
              </button>
            </p>
          </form>
        )}
      </DraftFrame>
    ),
  });
}

function hrefToEntry(draft: string, kind: FormKind, id: string): string {
  return `${hrefTo(draft, "entry")}?kind=${kind}&id=${encodeURIComponent(id)}`;
}

interface Found {
  whole: WholeDraft;
  kind: FormKind;
  entry: Entry;
}

async function open(
  c: RoomContext,
  kindText: string | undefined,
  id: string | undefined,
  show: (found: Found) => Promise<Response>,
): Promise<Response> {
  const whole = await readWholeDraft(databaseOf(c), c.req.param("id") ?? "");
  if (whole === null) return showSentence(c, 404, "Draft", editorWords.gone);
  const kind = readKind(kindText);
  const address = id ? locateEntry(whole.files, kind, id) : null;
  const back = [`${hrefTo(whole.draft.id, "entries")}?kind=${kind}`, kindNames[kind]] as const;
  if (address === null || id === undefined)
    return showSentence(c, 404, "No such entry", "The draft has no such entry.", back);
  const fields = listFields(whole.files, kind, address.file, address.path);
  return show({ whole, kind, entry: { kind, id, address, fields } });
}

interface Showing {
  status: 200 | 409 | 422;
  sentences?: string[];
  clashes?: Clash[];
  /** What was typed, for fields that were not saved. */
  typed?: Texts;
}

async function showEntry(c: RoomContext, { whole, kind, entry }: Found, showing: Showing): Promise<Response> {
  const { draft, files } = whole;
  const { file, path } = entry.address;
  const { problems } = await compile(files);
  const findings = kind === "condition" ? listRows(files, "finding") : [];
  const texts: Record<string, string> = {};
  for (const spec of entry.fields)
    texts[nameOf(spec)] = toText(readField(files, { file, path: [...path, ...spec.path] }));
  for (const { id } of findings) texts[evidenceName(id)] = wordFor(files, entry.address, id);
  const clashing = new Set(showing.clashes?.map(({ name }) => name));
  const shown: Texts = {
    ...texts,
    ...Object.fromEntries(Object.entries(showing.typed ?? {}).filter(([name]) => clashing.has(name))),
  };
  const isOpen = draft.closedAt === null;
  return showPage(c, {
    title:
      toText(
        readField(files, {
          file,
          path: [...path, kind === "question" ? "prompt" : kind === "source" ? "title" : "name"],
        }),
      ) || entry.id,
    status: showing.status,
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
        <div class="ed-columns">
          <form method="post" action={hrefTo(draft.id, "entry")}>
            <input type="hidden" name="entry-kind" value={kind} />
            <input type="hidden" name="entry-id" value={entry.id} />
            <input type="hidden" name="was" value={JSON.stringify(texts)} />
            {entry.fields.map((spec) => (
              <Field spec={spec} text={shown[nameOf(spec)] ?? ""} isOpen={isOpen} />
            ))}
            {findings.length > 0 && <EvidenceTable findings={findings} texts={shown} />}
            {isOpen && (
              <p class="lt-actions">
                <button class="lt-button" type="submit">
                  Save
                </button>
                <a class="lt-link" href={hrefToFile(draft.id, file)}>
                  As a file
                </a>
              </p>
            )}
          </form>
          <Beside files={files} entry={entry} texts={texts} />
        </div>
        {isOpen && <RetireForm draft={draft.id} kind={kind} id={entry.id} />}
      </DraftFrame>
    ),
  });
}

function EntryProblems({ problems }: { problems: readonly Problem[] }) {
  return (
    <>
      {problems.slice(0, 50).map(({ sentence, hint, line }) => (
        <div class="ed-problem">
          <p>{sentence}</p>
          <p class="ed-faint">{`${hint} (line ${line})`}</p>
        </div>
      ))}
    </>
  );
}

function ClashView({ clash: { label, mine, theirs } }: { clash: Clash }) {
  return (
    <section class="lt-notices">
      <p>{`${label}: someone else changed this meanwhile. Yours stands in the form below; press Save to put it over theirs.`}</p>
      <div class="ed-both">
        <div>
          <p class="lt-label">Yours</p>
          <pre class="ed-pre" tabindex={0}>
            {mine}
          </pre>
        </div>
        <div>
          <p class="lt-label">Theirs</p>
          <pre class="ed-pre" tabindex={0}>
            {theirs}
          </pre>
        </div>
      </div>
    </section>
  );
}

function Field({ spec, text, isOpen }: { spec: FieldSpec; text: string; isOpen: boolean }) {
  const name = nameOf(spec);
  const id = `f-${name.replace(/[^a-z0-9]+/gi, "-")}`;
  if (spec.as === "choice" || spec.as === "yes") {
    const words = spec.as === "yes" ? ["yes", "no"] : (spec.words ?? []);
    return (
      <fieldset class="ed-field">
        <legend class="lt-label">{spec.label}</legend>
        <div class="ed-choice">
          {words.map((word) => (
            <label>
              <input
                type="radio"
                name={name}
                value={word}
                checked={text === word || (text === "" && word === "no" && spec.as === "yes")}
                disabled={!isOpen}
              />
              <span>{word}</span>
            </label>
          ))}
        </div>
      </fieldset>
    );
  }
  return (
    <div class="ed-field">
      <label class="lt-label" for={id}>
        {spec.as === "lines" ? `${spec.label}, one on each line` : spec.label}
      </label>
      {spec.as === "line" || spec.as === "number" ? (
        <input class="lt-input ed-wide" id={id} name={name} value={text} readonly={!isOpen} />
      ) : (
        <textarea class="ed-area ed-area-short" id={id} name={name} readonly={!isOpen}>
          {`\n${text}`}
        </textarea>
      )}
    </div>
  );
}

/** Every finding, with what it says about the condition. Those that say something come first. */
function EvidenceTable({ findings, texts }: { findings: readonly Row[]; texts: Texts }) {
  const says = ({ id }: Row) => (texts[evidenceName(id)] ?? "") !== "";
  return (
    <>
      <h2 class="lt-prompt ed-field">What the findings say about it</h2>
      <EvidenceRows rows={findings.filter(says)} texts={texts} caption="Findings that say something" />
      <details class="lt-aside">
        <summary>Findings that say nothing so far</summary>
        <EvidenceRows
          rows={findings.filter((row) => !says(row))}
          texts={texts}
          caption="Findings that say nothing so far"
        />
      </details>
    </>
  );
}

function EvidenceRows({ rows, texts, caption }: { rows: readonly Row[]; texts: Texts; caption: string }) {
  return (
    <section class="ed-scroll" tabindex={0} aria-label={caption}>
      <table class="ed-table ed-evidence">
        <thead>
          <tr>
            <th scope="col">Finding</th>
            {[...evidenceWords, "nothing"].map((word) => (
              <th scope="col">{word}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ id, name }) => (
            <tr>
              <th scope="row">{name || id}</th>
              {[...evidenceWords, ""].map((word) => (
                <td>
                  <label class="ed-radio">
                    <input
                      type="radio"
                      name={evidenceName(id)}
                      value={word}
                      checked={(texts[evidenceName(id)] ?? "") === word}
                    />
                    <span class="ed-hidden-label">{`${name || id}: ${word || "nothing"}`}</span>
                  </label>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** The prose as a shopper reads it, and the sources that carry the claims. */
function Beside({ files, entry, texts }: { files: Files; entry: Entry; texts: Texts }) {
  const prose = entry.fields.filter(({ as }) => as === "prose");
  const cited = (texts.sources ?? "").split("\n").filter(Boolean);
  const items = readField(files, { file: "sources.yaml", path: [] });
  const sources = Array.isArray(items)
    ? (items as Record<string, unknown>[]).filter((one) => cited.includes(toText(one?.id)))
    : [];
  if (prose.length === 0 && sources.length === 0) return null;
  return (
    <aside aria-label="As a shopper reads it">
      {sources.length > 0 && (
        <>
          <h2 class="lt-prompt">Sources</h2>
          <ul>
            {sources.map((source) => (
              <li>{`${toText(source.id)}: ${toText(source.publisher)}, ${toText(source.title)} (tier ${toText(source.tier)})`}</li>
            ))}
          </ul>
        </>
      )}
      {prose.map((spec) => {
        const text = texts[nameOf(spec)] ?? "";
        const { blocks } = readProse(text, (line, column) => ({ file: entry.address.file, line, column }));
        return text === "" ? null : (
          <section class="lt-section">
            <h2 class="lt-prompt">{spec.label}</h2>
            <Prose of={blocks} />
          </section>
        );
      })}
    </aside>
  );
}

function RetireForm({ draft, kind, id }: { draft: string; kind: FormKind; id: string }) {
  return (
    <details class="lt-aside">
      <summary>Retire it</summary>
      <form method="post" action={hrefTo(draft, "retire")}>
        <input type="hidden" name="kind" value={kind} />
        <input type="hidden" name="id" value={id} />
        <p class="lt-hint">
          It goes out, with every place that names it. Its id is noted and never used again.
        </p>
        <label class="lt-label" for="retire-why">
          Why?
        </label>
        <input class="lt-input" id="retire-why" name="why" required maxlength={500} />
        <p class="lt-actions">
          <button class="lt-button lt-button-plain" type="submit">
            Retire it
          </button>
        </p>
      </form>
    </details>
  );
}

/** Tries to save what a form changed; someone who saves other fields of the file in between is no reason to stop. */
const MOST_TRIES = 5;

async function save(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  // Not "kind" and "id": entries have fields of these names.
  const [kind, id] = [textOf(form, "entry-kind"), textOf(form, "entry-id")];
  return open(c, kind, id, async (found) => {
    const { whole, entry } = found;
    const was = readTexts(textOf(form, "was"));
    if (was === null)
      return showEntry(c, found, {
        status: 422,
        sentences: ["The form came back incomplete. Nothing was saved; please try again."],
      });
    const typed = Object.fromEntries(Object.keys(form).map((name) => [name, textOf(form, name)]));
    for (let turn = 0; turn < MOST_TRIES; turn++) {
      const file = await readDraftFile(databaseOf(c), whole.draft.id, entry.address.file);
      if (file === null || file.text === null) break;
      const laid = layChanges({ [file.path]: file.text }, entry, was, typed);
      const text = laid.files[file.path] ?? null;
      const saved =
        text === file.text ||
        (await saveDraftFile(databaseOf(c), {
          ...{ draft: whole.draft.id, seen: file, text, token: makeId(c), who: c.var.person, now: c.var.now },
        }));
      if (saved === true || saved.ok) {
        if (laid.clashes.length === 0 && laid.refused.length === 0)
          return c.redirect(hrefToEntry(whole.draft.id, found.kind, id), 303);
        const { clashes, refused } = laid;
        return open(c, kind, id, (now) =>
          showEntry(c, now, { status: clashes.length > 0 ? 409 : 422, sentences: refused, clashes, typed }),
        );
      }
      if (saved.because !== "changed")
        return showEntry(c, found, { status: 409, sentences: [editorWords.closed], typed });
    }
    return showEntry(c, found, {
      status: 409,
      sentences: ["Others are saving this file all the time. Please try again."],
      typed,
    });
  });
}

function readTexts(json: string): Texts | null {
  try {
    const read: unknown = JSON.parse(json);
    if (typeof read !== "object" || read === null || Array.isArray(read)) return null;
    return Object.fromEntries(
      Object.entries(read).filter((pair): pair is [string, string] => typeof pair[1] === "string"),
    );
  } catch {
    return null;
  }
}

async function add(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  const kind = readKind(textOf(form, "kind"));
  const id = textOf(form, "new-id").trim();
  const whole = await readWholeDraft(databaseOf(c), c.req.param("id") ?? "");
  if (whole === null) return showSentence(c, 404, "Draft", editorWords.gone);
  const edit = addEntry(whole.files, kind, id);
  if (!edit.ok) return showEntries(c, whole, kind, 422, edit.sentence);
  const problem = await saveAll(c, whole, edit.files);
  if (problem !== null) return showEntries(c, whole, kind, 422, problem);
  return c.redirect(hrefToEntry(whole.draft.id, kind, id), 303);
}

async function retire(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  return open(c, textOf(form, "kind"), textOf(form, "id"), async (found) => {
    const { whole, kind, entry } = found;
    const edit = retireEntry(whole.files, kind, entry.id, textOf(form, "why").slice(0, 500));
    const problem = edit.ok ? await saveAll(c, whole, edit.files) : edit.sentence;
    if (problem !== null) return showEntry(c, found, { status: 409, sentences: [problem] });
    return c.redirect(`${hrefTo(whole.draft.id, "entries")}?kind=${kind}`, 303);
  });
}

/** Saves every file that differs. Stops at the first that someone else saved meanwhile, and says so. */
async function saveAll(c: RoomContext, whole: WholeDraft, files: Files): Promise<string | null> {
  const paths = [...new Set([...Object.keys(whole.files), ...Object.keys(files)])];
  for (const path of paths.filter((one) => whole.files[one] !== files[one])) {
    const seen = await readDraftFile(databaseOf(c), whole.draft.id, path);
    if (seen === null || seen.text !== (whole.files[path] ?? null))
      return `Someone else saved ${path} meanwhile. Please look again.`;
    const saved = await saveDraftFile(databaseOf(c), {
      ...{
        draft: whole.draft.id,
        seen,
        text: files[path] ?? null,
        token: makeId(c),
        who: c.var.person,
        now: c.var.now,
      },
    });
    if (!saved.ok)
      return saved.because === "closed"
        ? editorWords.closed
        : `Someone else saved ${path} meanwhile. Please look again.`;
  }
  return null;
}
