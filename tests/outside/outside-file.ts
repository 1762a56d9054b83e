import { readFileSync } from "node:fs";
import { parse } from "yaml";
import type { z } from "zod";
import type { Answer, Case } from "../../flows/case.ts";
import type { Flow } from "../../flows/flow.ts";

/** Reads a YAML list beside the tests and holds it against its schema. */
export function readOutside<T>(name: string, schema: z.ZodType<T>): T {
  return schema.parse(parse(readFileSync(new URL(name, import.meta.url), "utf8")));
}

export interface Known {
  present: readonly string[];
  absent: readonly string[];
  host?: string | undefined;
}

/** A case in which the owner volunteers just this. */
export function volunteer(flow: Flow, { present, absent, host }: Known): Case {
  const answers: Answer[] = [
    ...(host !== undefined && flow.hostQuestion ? [{ to: flow.hostQuestion.id, is: host }] : []),
    ...present.map((to) => ({ to, is: "yes" })),
    ...absent.map((to) => ({ to, is: "no" })),
  ];
  return { edition: flow.edition.number, answers };
}

/** The ids that the edition does not know. */
export function unknownIds(
  flow: Flow,
  ids: { findings: readonly string[]; conditions: readonly string[]; host?: string | undefined },
): string[] {
  return [
    ...ids.findings.filter((id) => !flow.finding(id)),
    ...ids.conditions.filter((id) => !flow.condition(id)),
    ...(ids.host === undefined || flow.host(ids.host) ? [] : [ids.host]),
  ];
}
