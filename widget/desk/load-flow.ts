import { type Flow, openFlow } from "../../flows/flow.ts";
import type { FirstParcel, ProseParcel } from "../../flows/parcel/shape.ts";
import { addProse, unpackFirst } from "../../flows/parcel/unpack.ts";

interface EditionName {
  number: number;
  hash: string;
}

/** The edition with its words, from the same parcels that the element loads. Throws when the server does not answer. */
export async function loadFlow(base: string): Promise<Flow> {
  const folder = folderOf(base, await readJson<EditionName>(`${base}embed/live.json`));
  const [first, prose] = await Promise.all([
    readJson<FirstParcel>(`${folder}/first.json`),
    readJson<ProseParcel>(`${folder}/prose.json`),
  ]);
  return openFlow(addProse(unpackFirst(first), prose));
}

/** An older edition, as far as it judges; undefined when it is gone or out of reach. */
export async function loadOldFlow(base: string, number: number): Promise<Flow | undefined> {
  try {
    const name = await readJson<EditionName>(`${base}embed/live.json?e=${number}`);
    if (name.number !== number) return undefined;
    return openFlow(unpackFirst(await readJson<FirstParcel>(`${folderOf(base, name)}/first.json`)));
  } catch {
    return undefined;
  }
}

export function folderOf(base: string, { number, hash }: EditionName): string {
  return `${base}embed/editions/${number}-${hash}`;
}

export async function readJson<T>(address: string): Promise<T> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`The server answered ${response.status}.`);
  return (await response.json()) as T;
}
