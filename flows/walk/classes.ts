import { closeFindings, PRESENT } from "../finding-table.ts";
import type { Flow, Reply } from "../flow.ts";

/** Host plants that the evidence cannot tell apart: the same base value for every condition. */
export interface HostClass {
  start: Int16Array;
  /** Host ids; `null` is "I don't know". */
  hosts: (string | null)[];
}

/** Groups all answers to "which plant is it?" by what they say about the conditions. */
export function classifyHosts(flow: Flow): HostClass[] {
  const classes = new Map<string, HostClass>();
  const answers = flow.hostQuestion ? [null, ...flow.edition.hosts.map(({ id }) => id)] : [null];
  for (const host of answers) {
    const start = flow.evidence.start(host);
    const key = start.join();
    const found = classes.get(key);
    if (found) found.hosts.push(host);
    else classes.set(key, { start, hosts: [host] });
  }
  return [...classes.values()];
}

/**
 * After the opening, only some conditions can still gain anything. Classes that agree on all of those will never part,
 * so they travel as one group of class indexes.
 */
export function mergeClasses(flow: Flow, classes: readonly HostClass[], opening: Reply): number[][] {
  const relevant = [...conditionsInReach(flow, opening)].sort((a, b) => a - b);
  const groups = new Map<string, number[]>();
  classes.forEach(({ start }, i) => {
    const key = relevant.map((c) => start[c]).join();
    const group = groups.get(key);
    if (group) group.push(i);
    else groups.set(key, [i]);
  });
  return [...groups.values()];
}

/** Conditions that some finding may speak for in a conversation that opens with this reply. */
function conditionsInReach(flow: Flow, opening: Reply): Set<number> {
  const reached = new Set(opening.present);
  const isUnsure = opening.present.length === 0;
  for (let before = -1; before < reached.size; ) {
    before = reached.size;
    const known = closeFindings(flow.findings, reached, []);
    for (const prompt of flow.prompts) {
      const isOpen =
        prompt.gateAny.some((finding) => known[finding] === PRESENT) || (isUnsure && prompt.whenUnsure);
      if (isOpen) for (const reply of prompt.replies) for (const f of reply.present) reached.add(f);
    }
  }
  const known = closeFindings(flow.findings, reached, []);
  const conditions = new Set<number>();
  known.forEach((state, finding) => {
    if (state !== PRESENT) return;
    for (const { condition, weight } of flow.evidence.present[finding] ?? []) {
      if (weight > 0) conditions.add(condition);
    }
  });
  return conditions;
}
