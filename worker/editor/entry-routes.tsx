/** The guide in forms: find an entry, edit its fields, retire it. */
import { Hono } from "hono";
import type { Files } from "../../flows/content/read-files.ts";
import type { PrivateSetting } from "../setting.ts";
import { hrefTo } from "./draft-frame.tsx";
import { readDraftFile, readWholeDraft, saveDraftFile, type WholeDraft } from "./drafts.ts";
import { editorWords } from "./editor-words.ts";
import type { Texts } from "./entry-changes.ts";
import { listFields } from "./entry-fields.ts";
import { hrefToEntry, showEntries } from "./entry-list.tsx";
import { type Found, showEntry } from "./entry-page.tsx";
import { type FormSaved, type Sent, saveForm } from "./entry-saving.ts";
import {
  addForm,
  type FormKind,
  formKinds,
  idOfNew,
  kindNames,
  locateForm,
  retireForm,
} from "./form-kinds.ts";
import { databaseOf, makeId, type RoomContext, readForm, showSentence, textOf } from "./room.tsx";

export function makeEntryRoutes() {
  const routes = new Hono<PrivateSetting>();
  routes.get("/:id/entries", listEntries);
  routes.post("/:id/entries", add);
  routes.get("/:id/entry", (c) =>
    open(c, c.req.query("kind"), c.req.query("id"), (found) => showEntry(c, found, { status: 200 })),
  );
  routes.post("/:id/entry", save);
  routes.put("/:id/entry", saveTyped);
  routes.post("/:id/retire", retire);
  return routes;
}

function findKind(text: unknown): FormKind | undefined {
  return formKinds.find((kind) => kind === text);
}

function readKind(text: string | undefined): FormKind {
  return findKind(text) ?? "condition";
}

async function listEntries(c: RoomContext): Promise<Response> {
  const whole = await readWholeDraft(databaseOf(c), c.req.param("id") ?? "");
  if (whole === null) return showSentence(c, 404, "Draft", editorWords.gone);
  return showEntries(c, whole, readKind(c.req.query("kind")), 200);
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
  const address = id ? locateForm(whole.files, kind, id) : null;
  const back = [`${hrefTo(whole.draft.id, "entries")}?kind=${kind}`, kindNames[kind]] as const;
  if (address === null || id === undefined)
    return showSentence(c, 404, "No such entry", "The draft has no such entry.", back);
  const fields = listFields(whole.files, kind, id, address);
  return show({ whole, kind, entry: { kind, id, address, fields } });
}

/** Saves from the form. What was typed comes back whatever happens. */
async function save(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  // Not "kind" and "id": entries have fields of these names.
  const [kind, id] = [readKind(textOf(form, "entry-kind")), textOf(form, "entry-id")];
  const now: Texts = Object.fromEntries(Object.keys(form).map((name) => [name, textOf(form, name)]));
  const show = (showing: Parameters<typeof showEntry>[2]) =>
    open(c, kind, id, (found) => showEntry(c, found, showing));
  if (textOf(form, "show") === "yes")
    return show({ status: 200, typed: now, sentences: ["This is how it reads. It is not saved yet."] });
  const was = readTextsOf(parse(textOf(form, "was")));
  if (was === null)
    return show({
      status: 422,
      sentences: ["The form came back incomplete. Nothing was saved; please try again."],
      typed: now,
    });
  const saved = await saveForm(c, { kind, id, was, now });
  if (!saved.ok) {
    const [status, sentence] = refusals[saved.because];
    return status === 404
      ? open(c, kind, id, async () => showSentence(c, 404, "No such entry", sentence))
      : show({ status, sentences: [sentence], typed: now });
  }
  const { clashes, refused } = saved;
  if (clashes.length + refused.length === 0)
    return c.redirect(hrefToEntry(c.req.param("id") ?? "", kind, id), 303);
  const left = new Set(clashes.map(({ name }) => name));
  const typed = Object.fromEntries(Object.entries(now).filter(([name]) => left.has(name)));
  return show({ status: clashes.length > 0 ? 409 : 422, sentences: refused, clashes, typed });
}

const refusals = {
  gone: [404, "The draft has no such entry."],
  closed: [409, editorWords.closed],
  "too-long": [413, editorWords.tooLong],
  busy: [409, "Others are saving this file all the time. Please try again."],
} as const satisfies Record<Extract<FormSaved, { ok: false }>["because"], unknown>;

/**
 * PUT saves fields while they are typed. The condition of If-Match is here what each field was (`was`), so that others may save
 * other fields of the file meanwhile: 428 without it; 412 with both versions of each field that someone else changed, the rest
 * being saved; else 200. Every answer that saved gives all fields as they stand now.
 */
async function saveTyped(c: RoomContext): Promise<Response> {
  const body: unknown = parse(await c.req.text());
  const sent = readSent(body);
  if (sent === null) return c.json({ sentence: "This is not what a form sends." }, 400);
  if (sent.was === null) return c.json({ sentence: "Say what the fields were when you saw them." }, 428);
  const saved = await saveForm(c, { ...sent, was: sent.was });
  if (!saved.ok) {
    const [status, sentence] = refusals[saved.because];
    return c.json({ sentence }, status);
  }
  const { ok: _, ...told } = saved;
  return c.json(told, told.clashes.length > 0 ? 412 : 200);
}

function readSent(body: unknown): (Omit<Sent, "was"> & { was: Texts | null }) | null {
  if (typeof body !== "object" || body === null) return null;
  const { kind, id, was, now } = body as Record<string, unknown>;
  const [known, texts] = [findKind(kind), readTextsOf(now)];
  if (known === undefined || typeof id !== "string" || texts === null) return null;
  return { kind: known, id, was: readTextsOf(was), now: texts };
}

function parse(json: string): unknown {
  try {
    return JSON.parse(json);
  } catch {
    return null;
  }
}

function readTextsOf(read: unknown): Texts | null {
  if (typeof read !== "object" || read === null || Array.isArray(read)) return null;
  return Object.fromEntries(
    Object.entries(read).filter((pair): pair is [string, string] => typeof pair[1] === "string"),
  );
}

async function add(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  const kind = readKind(textOf(form, "kind"));
  const id = textOf(form, "new-id").trim();
  const whole = await readWholeDraft(databaseOf(c), c.req.param("id") ?? "");
  if (whole === null) return showSentence(c, 404, "Draft", editorWords.gone);
  const edit = addForm(whole.files, kind, id);
  if (!edit.ok) return showEntries(c, whole, kind, 422, edit.sentence);
  const problem = await saveAll(c, whole, edit.files);
  if (problem !== null) return showEntries(c, whole, kind, 422, problem);
  return c.redirect(hrefToEntry(whole.draft.id, kind, idOfNew(kind, id)), 303);
}

async function retire(c: RoomContext): Promise<Response> {
  const form = await readForm(c);
  return open(c, textOf(form, "kind"), textOf(form, "id"), async (found) => {
    const { whole, kind, entry } = found;
    const edit = retireForm(whole.files, kind, entry.id, textOf(form, "why").slice(0, 500));
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
