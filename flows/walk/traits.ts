import type { Host } from "../edition.ts";
import type { Flow } from "../flow.ts";

/** Hosts that no plan can tell apart: eaten or not, hurt by the same sprays, kept dry or not. */
export interface HostTraits {
  /** One host of the kind; undefined stands for a plant that is not known. */
  example: Host | undefined;
  hosts: Set<string | null>;
}

/** Groups all hosts, and "I don't know", by what a plan looks at. */
export function groupByTraits(flow: Flow): HostTraits[] {
  const groups = new Map<string, HostTraits>([["", { example: undefined, hosts: new Set([null]) }]]);
  for (const host of flow.edition.hosts) {
    const key = `${host.eaten}|${[...host.harmedBy].sort().join()}|${host.keepDry}`;
    const group = groups.get(key);
    if (group) group.hosts.add(host.id);
    else groups.set(key, { example: host, hosts: new Set([host.id]) });
  }
  return [...groups.values()];
}
