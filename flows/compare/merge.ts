import { type Flow, NOT_SURE, type Prompt } from "../flow.ts";

/** Both editions, and how an answer under one reads under the other. */
export interface Editions {
  live: Flow;
  draft: Flow;
}

/** An answer that a shopper can give to a question, as the places of the reply under each edition; -1 where it is not asked. */
export interface SharedReply {
  live: number;
  draft: number;
  /** Whether it establishes and excludes the same under both. */
  alike: boolean;
}

/** A question under both editions. */
export interface SharedPrompt {
  id: string;
  live: Prompt | undefined;
  draft: Prompt | undefined;
  replies: readonly SharedReply[];
}

/** A plant under both editions; `null` is "I don't know", also where an edition does not know the plant. */
export interface SharedHost {
  id: string | null;
  live: string | null;
  draft: string | null;
}

export type SideName = "live" | "draft";

/** The questions of two lists, by id. */
export function sharePrompts(live: readonly Prompt[], draft: readonly Prompt[]): SharedPrompt[] {
  const ids = new Set([...live, ...draft].map(({ question }) => question.id));
  const find = (prompts: readonly Prompt[], id: string) => prompts.find(({ question }) => question.id === id);
  return [...ids].map((id) => {
    const [a, b] = [find(live, id), find(draft, id)];
    return { id, live: a, draft: b, replies: shareReplies(a, b) };
  });
}

function shareReplies(live: Prompt | undefined, draft: Prompt | undefined): SharedReply[] {
  const ids = new Set([...(live?.replies ?? []), ...(draft?.replies ?? [])].map(({ id }) => id));
  const place = (prompt: Prompt | undefined, id: string): number => {
    if (!prompt) return -1;
    const at = prompt.replies.findIndex((reply) => reply.id === id);
    return at >= 0 ? at : prompt.replies.findIndex((reply) => reply.id === NOT_SURE);
  };
  const meaning = (prompt: Prompt | undefined, at: number) => {
    const reply = prompt?.replies[at];
    return JSON.stringify([reply?.present, reply?.absent]);
  };
  return [...ids].map((id) => {
    const [a, b] = [place(live, id), place(draft, id)];
    return { live: a, draft: b, alike: meaning(live, a) === meaning(draft, b) };
  });
}

export function shareHosts({ live, draft }: Editions): SharedHost[] {
  const isAsked = live.hostQuestion !== undefined || draft.hostQuestion !== undefined;
  const ids = isAsked ? [...live.edition.hosts, ...draft.edition.hosts].map(({ id }) => id) : [];
  const under = (flow: Flow, id: string) => (flow.hostQuestion && flow.host(id) ? id : null);
  const hosts = [...new Set(ids)].map((id) => ({ id, live: under(live, id), draft: under(draft, id) }));
  return [
    { id: null, live: null, draft: null },
    ...hosts.filter((host) => host.live !== null || host.draft !== null),
  ];
}

/** What the shopper can still answer when one side asks, given what the other side was told: replies grouped by the asker's. */
export function repliesFor(prompt: SharedPrompt, asker: SideName, told: number | undefined): number[] {
  const other = asker === "live" ? "draft" : "live";
  const open = told === undefined ? prompt.replies : prompt.replies.filter((reply) => reply[other] === told);
  return [...new Set(open.map((reply) => reply[asker]))];
}
