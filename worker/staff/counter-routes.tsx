import type { Context, Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import type { Flow } from "../../flows/flow.ts";
import { renderPage } from "../pages/page.tsx";
import { makeToken } from "../people/token.ts";
import type { PrivateSetting } from "../setting.ts";
import {
  type BenchFinding,
  findFinding,
  listFindings,
  type Recording,
  recordFinding,
} from "./bench-findings.ts";
import { CounterPage } from "./counter-page.tsx";
import { counterWords } from "./counter-words.ts";
import { COUNTER } from "./desk-links.ts";
import {
  type FindingForm,
  type FormProblem,
  NOT_LISTED,
  readFields,
  readFindingForm,
} from "./finding-form.ts";
import { openSample, type Sample } from "./open-sample.ts";
import { sayFinding } from "./say-finding.ts";
import { dayAtShop } from "./shop-day.ts";

/** Lines shown of the bench book. */
const LATEST = 8;
const LONGEST_BODY = 16 * 1024;

type CounterContext = Context<PrivateSetting>;

/** The sample counter; mounted behind the sign-in. */
export function addCounter(desk: Hono<PrivateSetting>): void {
  const limit = bodyLimit({
    maxSize: LONGEST_BODY,
    onError: (c) =>
      showCounter(
        c as CounterContext,
        readFields(() => ""),
        { status: 413 },
      ),
  });
  desk.get("/counter", (c) =>
    showCounter(
      c,
      readFields((name) => c.req.query(name)),
    ),
  );
  desk.post("/counter", limit, record);
}

interface Showing {
  problems?: readonly FormProblem[];
  status?: 200 | 413 | 422 | 409 | 503;
}

async function showCounter(
  c: CounterContext,
  form: FindingForm,
  { problems = [], status = 200 }: Showing = {},
): Promise<Response> {
  const read = form.code === "" ? null : await openSample(c.var, form.code);
  const { live } = read ?? (await c.var.openEditions());
  const sample = read?.ok === true ? read.sample : null;
  // The id of the finding stands in the address: who comes back to the form sends the same finding once more, not a new one.
  if (sample && form.id === "" && c.req.method === "GET") return c.redirect(addId(c, form), 303);
  const stored = await readStored(c, form, sample);
  const page = (
    <CounterPage
      live={live}
      person={c.var.person}
      typed={form.code}
      branch={form.branch}
      codeProblem={read?.ok === false ? read : null}
      done={stored.done}
      sample={sample}
      before={stored.before}
      latest={stored.latest}
      bench={sample && fillBench(c, live, form, stored.old, problems)}
    />
  );
  return c.html(renderPage(page), read?.ok === false && status === 200 ? 404 : status);
}

function addId(c: CounterContext, form: FindingForm): string {
  const fields = Object.entries(form).filter(([, value]) => value !== "");
  return `${COUNTER}?${new URLSearchParams([...fields, ["id", makeToken(c.var.randomBytes)]])}`;
}

interface Stored {
  done: BenchFinding | null;
  /** The finding to be corrected. */
  old: BenchFinding | null;
  before: BenchFinding[];
  latest: BenchFinding[];
}

/** What the page shows of the bench book; without the records it shows none of it. */
async function readStored(c: CounterContext, form: FindingForm, sample: Sample | null): Promise<Stored> {
  const { DB } = c.env;
  const none: Stored = { done: null, old: null, before: [], latest: [] };
  if (DB === undefined) return none;
  try {
    const done = c.req.method === "GET" ? (c.req.query("done") ?? "") : "";
    if (sample === null) {
      const latest = await listFindings(DB, { most: LATEST });
      return { ...none, latest, done: done === "" ? null : await findFinding(DB, done) };
    }
    const all = await listFindings(DB, { code: sample.code, most: LATEST });
    const before = all.filter(({ result }) => result !== "withdrawn");
    const old = form.corrects === "" ? null : await findFinding(DB, form.corrects);
    return { ...none, before, old: old?.code === sample.code ? old : null };
  } catch (error) {
    console.error("The bench findings could not be read.", error);
    return none;
  }
}

/** The form as it was typed; where nothing was, what the day, the last line or the corrected finding suggest. */
function fillBench(
  c: CounterContext,
  live: Flow,
  form: FindingForm,
  old: BenchFinding | null,
  problems: readonly FormProblem[],
) {
  const filled: FindingForm = {
    ...form,
    id: form.id || makeToken(c.var.randomBytes),
    corrects: old?.id ?? (problems.length > 0 ? form.corrects : ""),
    day: form.day || old?.day || dayAtShop(live.edition.shop, c.var.now),
    branch: form.branch || old?.branch || "",
    ...(form.result === "" && old ? { result: old.result, other: otherOf(old) } : {}),
  };
  return { form: filled, problems, correcting: old && sayFinding(live, old) };
}

function otherOf({ result, benchCondition }: BenchFinding): string {
  return result === "something-else" ? (benchCondition ?? NOT_LISTED) : "";
}

const refusals: Record<Exclude<Recording, "recorded">, string> = {
  other: counterWords.recordedOther,
  corrected: counterWords.correctedBefore,
  unknown: counterWords.nothingToCorrect,
};

async function record(c: CounterContext): Promise<Response> {
  const fields = await c.req.parseBody().catch(() => ({}) as Record<string, unknown>);
  const form = readFields((name) => fields[name]);
  const read = await openSample(c.var, form.code);
  const { shop } = read.live.edition;
  if (!read.ok) return showCounter(c, form, { status: 422 });
  const here = { today: dayAtShop(shop, c.var.now), branches: shop.branches.map(({ id }) => id) };
  const reading = readFindingForm(form, read.sample, here);
  if (!reading.ok) {
    const hasId = reading.problems.every(({ field }) => field !== "id");
    return showCounter(c, hasId ? form : { ...form, id: "" }, { problems: reading.problems, status: 422 });
  }
  const recording = await write(c, reading.finding);
  if (recording === "out-of-reach") {
    const problems = [{ field: "id" as const, sentence: counterWords.outOfReach }];
    return showCounter(c, form, { problems, status: 503 });
  }
  if (recording !== "recorded") {
    const problems = [{ field: "id" as const, sentence: refusals[recording] }];
    return showCounter(c, form, { problems, status: 409 });
  }
  return c.redirect(`${COUNTER}?${new URLSearchParams({ done: form.id, branch: form.branch })}`, 303);
}

async function write(c: CounterContext, finding: BenchFinding): Promise<Recording | "out-of-reach"> {
  if (c.env.DB === undefined) return "out-of-reach";
  try {
    return await recordFinding(c.env.DB, finding);
  } catch (error) {
    console.error("A bench finding could not be recorded.", error);
    return "out-of-reach";
  }
}
