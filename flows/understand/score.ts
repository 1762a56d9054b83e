import { findHosts } from "../find-host.ts";
import type { Flow } from "../flow.ts";
import { understand } from "./understand.ts";

/** A case history's opening, with what stands in it. Findings by id; the plant in the words of the opening. */
export interface Opening {
  id: string;
  opening: string;
  in_opening: string[];
  absent_in_opening: string[];
  host_in_opening: string | null;
}

/** What went wrong with one opening. Empty lists and nulls: nothing. */
export interface Miss {
  id: string;
  opening: string;
  /** Stand in the opening and were not understood. */
  missed: string[];
  /** Were understood as present and do not stand there. */
  wrong: string[];
  /** Are denied there and were understood as present. */
  absentReadAsPresent: string[];
  host: { said: string | null; understood: string | null } | null;
  rest: string[];
}

/** Shares from 0 to 1, rounded to three places; null where there was nothing to count. */
export interface OpeningScore {
  openings: number;
  findings: number;
  findingPrecision: number | null;
  findingRecall: number | null;
  hosts: number;
  hostPrecision: number | null;
  hostRecall: number | null;
  absentReadAsPresent: number;
}

/**
 * Holds what is understood of openings against what stands in them. A vaguer finding follows from a sharper one and is
 * never counted by itself. So what was understood is right when it stands in the opening, or when something sharper does
 * ("brown tips" where the tips are dry and brown); what stands there is found when it, or something sharper, was
 * understood. Whoever claims more than was said has it counted as wrong, and the vaguer one as found.
 */
export function scoreOpenings(
  flow: Flow,
  openings: readonly Opening[],
): { misses: Miss[]; total: OpeningScore } {
  const { index, vaguer } = flow.findings;
  const close = (ids: readonly string[]) =>
    new Set(
      ids.flatMap((id) => [
        id,
        ...(vaguer[index.get(id) ?? -1] ?? []).map((i) => flow.edition.findings[i]?.id ?? ""),
      ]),
    );
  const count = {
    right: 0,
    understood: 0,
    found: 0,
    told: 0,
    hosts: 0,
    hostRight: 0,
    hostSaid: 0,
    absent: 0,
  };
  const misses: Miss[] = [];
  for (const opening of openings) {
    const heard = understand(flow, opening.opening);
    const present = heard.present.map(({ id }) => id);
    const [told, got] = [close(opening.in_opening), close(present)];
    const missed = opening.in_opening.filter((id) => !got.has(id));
    const wrong = present.filter((id) => !told.has(id));
    const absentReadAsPresent = opening.absent_in_opening.filter((id) => got.has(id));
    const host = heard.host?.id ?? null;
    const hostIsRight = host !== null && isNamed(flow, host, opening.host_in_opening);
    // A plant that the edition does not know cannot be understood.
    const hostIsNamed =
      hostIsRight ||
      (opening.host_in_opening !== null && findHosts(flow, opening.host_in_opening).length > 0);
    count.understood += present.length;
    count.right += present.length - wrong.length;
    count.told += opening.in_opening.length;
    count.found += opening.in_opening.length - missed.length;
    count.absent += absentReadAsPresent.length;
    count.hosts += hostIsNamed ? 1 : 0;
    count.hostSaid += host === null ? 0 : 1;
    count.hostRight += hostIsRight ? 1 : 0;
    const hostMiss = (host === null ? hostIsNamed : !hostIsRight)
      ? { said: opening.host_in_opening, understood: host }
      : null;
    if (missed.length + wrong.length + absentReadAsPresent.length > 0 || hostMiss) {
      misses.push({
        ...{ id: opening.id, opening: opening.opening },
        missed,
        wrong,
        absentReadAsPresent,
        host: hostMiss,
        rest: heard.rest,
      });
    }
  }
  return {
    misses,
    total: {
      openings: openings.length,
      findings: count.told,
      findingPrecision: share(count.right, count.understood),
      findingRecall: share(count.found, count.told),
      hosts: count.hosts,
      hostPrecision: share(count.hostRight, count.hostSaid),
      hostRecall: share(count.hostRight, count.hosts),
      absentReadAsPresent: count.absent,
    },
  };
}

function share(part: number, whole: number): number | null {
  return whole === 0 ? null : Math.round((part / whole) * 1000) / 1000;
}

/**
 * Whether the words of the opening, or those for one of several plants in them, lead to the plant: by the name search, or
 * by a nickname of the lexicon.
 */
function isNamed(flow: Flow, host: string, said: string | null): boolean {
  const names = said === null ? [] : [said, ...said.split(/ and |, ?/)];
  const nicknames = (flow.edition.lexicon?.hosts ?? []).flatMap((one) =>
    one.host === host ? one.names : [],
  );
  return names.some(
    (name) =>
      nicknames.includes(name.trim().toLowerCase().replaceAll(" ", "_")) ||
      findHosts(flow, name, 3).some(({ id }) => id === host),
  );
}
