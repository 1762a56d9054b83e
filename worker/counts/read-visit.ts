import { standings } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import { knownBranch, type Visit } from "./visit.ts";

/** What a body may look like, for the sentence that refuses another one. */
export const VISIT_SHAPE =
  "Send JSON with any of: branch, started, shown, answered, unsure (ids of questions), standing, condition.";

/** More questions than a conversation has. */
const MOST = 40;

/** Reads what the element sends. Null when anything in it is unknown: only known ids are ever counted. */
export function readVisit(flow: Flow, text: string): Visit | null {
  const body = parse(text);
  if (body === null) return null;
  const { branch, started, shown, answered, unsure, standing, condition, ...rest } = body;
  const lists = [shown, answered, unsure].map((list) => readQuestions(flow, list));
  const [wereShown, wereAnswered, wereUnsure] = lists;
  const verdict = readVerdict(flow, standing, condition);
  if (Object.keys(rest).length > 0 || !wereShown || !wereAnswered || !wereUnsure) return null;
  if (verdict === undefined || !isOneOf(started, [undefined, true])) return null;
  if (branch !== undefined && typeof branch !== "string") return null;
  return {
    branch: knownBranch(flow, branch),
    started: started === true,
    shown: wereShown,
    answered: wereAnswered,
    unsure: wereUnsure,
    verdict,
  };
}

function parse(text: string): Record<string, unknown> | null {
  try {
    const body: unknown = JSON.parse(text);
    return typeof body === "object" && body !== null && !Array.isArray(body) ? { ...body } : null;
  } catch {
    return null;
  }
}

function isOneOf(value: unknown, allowed: readonly unknown[]): boolean {
  return allowed.includes(value);
}

/** Each question at most once: a conversation cannot ask it twice. */
function readQuestions(flow: Flow, list: unknown): string[] | null {
  if (list === undefined) return [];
  if (!Array.isArray(list) || list.length > MOST) return null;
  const ids = list.filter((id): id is string => typeof id === "string" && flow.question(id) !== undefined);
  return ids.length === list.length ? [...new Set(ids)] : null;
}

/** Undefined when it is none that could be. */
function readVerdict(flow: Flow, standing: unknown, condition: unknown): Visit["verdict"] | undefined {
  if (standing === undefined) return condition === undefined ? null : undefined;
  const known = standings.find((one) => one === standing);
  if (known === undefined) return undefined;
  if (condition === undefined || condition === null) return { standing: known, condition: null };
  const isKnown = typeof condition === "string" && flow.condition(condition) !== undefined;
  return isKnown ? { standing: known, condition } : undefined;
}
