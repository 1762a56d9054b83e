import type { Edition } from "../edition.ts";
import { type EvidenceWord, evidenceWords } from "../evidence-table.ts";

export const unitKinds = [
  "finding",
  "question",
  "condition",
  "host",
  "remedy",
  "weights",
  "conversation",
] as const;
export type UnitKind = (typeof unitKinds)[number];

/** The smallest thing that can change by itself and bear on a conversation. */
export interface Unit {
  kind: UnitKind;
  /** Empty for the weights and the conversation. */
  id: string;
  /** The field; empty where the whole entry is new or gone. */
  field: string;
  /** In the trade's words. */
  sentence: string;
  /** Makes this one thing in an edition as it is in another. */
  take(into: Edition, from: Edition): void;
}

const shelves = {
  finding: "findings",
  question: "questions",
  condition: "conditions",
  host: "hosts",
  remedy: "remedies",
} as const;
type ShelfKind = keyof typeof shelves;

const fields: Record<ShelfKind, Readonly<Record<string, string>>> = {
  finding: {
    kind: "the kind",
    vague: "whether it is vague",
    circumstance: "whether it is a circumstance",
    implies: "what it implies",
    combines: "what makes it up",
  },
  question: { kind: "the kind", askWhen: "when it is asked", options: "what its answers say" },
  condition: {
    kind: "the kind",
    howCommon: "how common it is",
    prone: "the plants prone to it",
    immune: "the plants that never get it",
    onlyOn: "the plants it lives on",
    whenAbsent: "what absence says",
    looksLike: "the look-alikes",
    broughtOnBy: "what brings it on",
    brings: "what it brings",
    plan: "the plan",
    needsSample: "whether it needs a sample",
  },
  host: {
    groups: "the plant groups",
    eaten: "whether it is eaten",
    harmedBy: "what harms it",
    keepDry: "whether it is kept dry",
  },
  remedy: {
    method: "the method",
    toxicity: "the toxicity",
    product: "whether it is a product",
    forFoodPlants: "whether it is for food plants",
    phase: "the phase",
    neverWhen: "when it is never given",
    cautions: "the cautions",
    needsStanding: "the standing it needs",
    lastResort: "whether it is the last resort",
  },
};

const settings = {
  weights: {
    present: "what is present",
    absent: "what is absent",
    howCommon: "how common",
    host: "the host plant",
    silentRival: "the silent rival",
    lead: "the leads",
    reach: "the reach",
  },
  conversation: {
    opening: "the opening",
    order: "the order of questions",
    mostQuestions: "the most questions",
    whenUnsure: "the questions for the unsure",
    firstAid: "the first aid",
  },
} as const;

type Fields = Record<string, unknown>;

/** Editions are plain JSON. */
export function copyOf<T>(value: T): T {
  return value === undefined ? value : (JSON.parse(JSON.stringify(value)) as T);
}

/** Everything that differs and bears on a conversation, each thing by itself. */
export function listUnits(live: Edition, draft: Edition): Unit[] {
  const kinds = Object.keys(shelves) as ShelfKind[];
  return [...kinds.flatMap((kind) => unitsOfShelf(live, draft, kind)), ...unitsOfSettings(live, draft)];
}

function shelf(edition: Edition, kind: ShelfKind): { id: string }[] {
  return edition[shelves[kind]];
}

function unitsOfShelf(live: Edition, draft: Edition, kind: ShelfKind): Unit[] {
  const ids = new Set([...shelf(live, kind), ...shelf(draft, kind)].map(({ id }) => id));
  return [...ids].flatMap((id): Unit[] => {
    const [was, is] = [find(live, kind, id), find(draft, kind, id)];
    const name = nameOf(draft, kind, id) ?? nameOf(live, kind, id) ?? id;
    if (!was || !is) {
      const sentence = `${name}: ${was ? "taken away" : "new"}.`;
      return [{ kind, id, field: "", sentence, take: (into, from) => takeEntry(into, from, kind, id) }];
    }
    const [a, b] = [was as Fields, is as Fields];
    const plain = Object.entries(fields[kind]).flatMap(([field, words]): Unit[] =>
      bearing(field, a[field]) === bearing(field, b[field])
        ? []
        : [
            {
              kind,
              id,
              field,
              sentence: `${name}: ${words} changed.`,
              take: (into, from) => takeField(into, from, kind, id, field),
            },
          ],
    );
    return kind === "condition" ? [...plain, ...unitsOfEvidence(live, draft, id, name)] : plain;
  });
}

/** Words aside: labels, checks and the text of cautions. */
function bearing(field: string, value: unknown): string {
  if (field === "options") {
    const options = value as Edition["questions"][number]["options"];
    return JSON.stringify(options.map(({ label: _, ...rest }) => rest));
  }
  if (field === "looksLike") return JSON.stringify((value as { other: string }[]).map(({ other }) => other));
  if (field === "cautions") {
    return JSON.stringify(
      Object.entries(value as Record<string, string[]>).map(([key, texts]) => [key, texts.length]),
    );
  }
  return JSON.stringify(value ?? false);
}

function unitsOfEvidence(live: Edition, draft: Edition, id: string, name: string): Unit[] {
  const findings = new Set([...live.findings, ...draft.findings].map((finding) => finding.id));
  return [...findings].flatMap((finding): Unit[] => {
    const [was, is] = [wordFor(live, id, finding), wordFor(draft, id, finding)];
    if (was === is) return [];
    const shown = nameOf(draft, "finding", finding) ?? nameOf(live, "finding", finding) ?? finding;
    const told =
      was === undefined
        ? `added to ${is}`
        : is === undefined
          ? `taken out of ${was}`
          : `moved from ${was} to ${is}`;
    const take = (into: Edition, from: Edition) => setWord(into, id, finding, wordFor(from, id, finding));
    return [
      { kind: "condition", id, field: `evidence.${finding}`, sentence: `${name}: “${shown}” ${told}.`, take },
    ];
  });
}

function wordFor(edition: Edition, condition: string, finding: string): EvidenceWord | undefined {
  const evidence = edition.conditions.find(({ id }) => id === condition)?.evidence;
  return evidenceWords.find((word) => evidence?.[word].includes(finding));
}

function setWord(edition: Edition, condition: string, finding: string, to: EvidenceWord | undefined): void {
  const evidence = edition.conditions.find(({ id }) => id === condition)?.evidence;
  if (!evidence) return;
  for (const word of evidenceWords) evidence[word] = evidence[word].filter((id) => id !== finding);
  if (to) evidence[to].push(finding);
}

function unitsOfSettings(live: Edition, draft: Edition): Unit[] {
  return (["weights", "conversation"] as const).flatMap((kind) => {
    const [was, is] = [live[kind] as unknown as Fields, draft[kind] as unknown as Fields];
    return Object.entries(settings[kind]).flatMap(([field, words]): Unit[] => {
      const same =
        field === "order"
          ? sharedOrder(live, draft) === sharedOrder(draft, live)
          : JSON.stringify(was[field]) === JSON.stringify(is[field]);
      if (same) return [];
      const take = (into: Edition, from: Edition) => {
        (into[kind] as unknown as Fields)[field] = copyOf((from[kind] as unknown as Fields)[field]);
      };
      const subject = kind === "weights" ? "The weights" : "The conversation";
      return [{ kind, id: "", field, sentence: `${subject}: ${words} changed.`, take }];
    });
  });
}

function sharedOrder(edition: Edition, other: Edition): string {
  return edition.conversation.order.filter((id) => other.conversation.order.includes(id)).join();
}

function find(edition: Edition, kind: ShelfKind, id: string): { id: string } | undefined {
  return shelf(edition, kind).find((entry) => entry.id === id);
}

function nameOf(edition: Edition, kind: ShelfKind, id: string): string | undefined {
  const entry = find(edition, kind, id);
  if (!entry) return undefined;
  return "prompt" in entry ? `“${String(entry.prompt)}”` : "name" in entry ? String(entry.name) : undefined;
}

/** An entry comes in, or goes. A question comes with its place in the order. */
function takeEntry(into: Edition, from: Edition, kind: ShelfKind, id: string): void {
  const list = shelf(into, kind);
  const at = list.findIndex((entry) => entry.id === id);
  if (at >= 0) list.splice(at, 1);
  const entry = find(from, kind, id);
  if (!entry) return;
  const source = shelf(from, kind);
  const before = source
    .slice(0, source.indexOf(entry))
    .findLast((one) => list.some((other) => other.id === one.id));
  list.splice(list.findIndex((one) => one.id === before?.id) + 1, 0, copyOf(entry));
  const { order } = from.conversation;
  if (kind !== "question" || !order.includes(id) || into.conversation.order.includes(id)) return;
  const prior = order.slice(0, order.indexOf(id)).findLast((one) => into.conversation.order.includes(one));
  into.conversation.order.splice(prior === undefined ? 0 : into.conversation.order.indexOf(prior) + 1, 0, id);
}

function takeField(into: Edition, from: Edition, kind: ShelfKind, id: string, field: string): void {
  const [target, source] = [
    find(into, kind, id) as Fields | undefined,
    find(from, kind, id) as Fields | undefined,
  ];
  if (target && source) target[field] = copyOf(source[field]);
}
