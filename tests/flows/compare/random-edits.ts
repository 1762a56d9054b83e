import fc from "fast-check";
import { type Edition, facts, frequencies, methods, neverWhens, phases } from "../../../flows/edition.ts";
import { evidenceWords } from "../../../flows/evidence-table.ts";
import { tinyFlow } from "../../support/tiny-flow.ts";

/** The tiny content with two plants and two fact questions: small enough to hold every conversation against every other. */
export function smallEdition(): Edition {
  const edition = structuredClone(tinyFlow().edition);
  edition.hosts = edition.hosts.slice(0, 2);
  edition.questions = edition.questions.filter(({ id, kind }) => kind !== "look" && id !== "household");
  edition.conversation.mostQuestions = 3;
  return edition;
}

type Change = (edition: Edition) => void;

function pick<T>(list: readonly T[], n: number): T | undefined {
  return list[n % Math.max(1, list.length)];
}

/** Each kind of edit that an editor can make and that bears on conversations. `a`, `b` and `c` choose what and how. */
const kinds: Record<string, (a: number, b: number, c: number) => Change> = {
  evidence: (a, b, c) => (edition) => {
    const evidence = pick(edition.conditions, a)?.evidence;
    const finding = pick(edition.findings, b)?.id ?? "";
    if (!evidence) return;
    for (const word of evidenceWords) evidence[word] = evidence[word].filter((id) => id !== finding);
    if (c % 5 < 4) evidence[evidenceWords[c % 4] ?? "supports"].push(finding);
  },
  absence: (a, b, c) => (edition) => {
    const condition = pick(edition.conditions, a);
    const finding = pick(edition.findings, b)?.id ?? "";
    if (condition)
      condition.whenAbsent = { against: c % 2 ? [finding] : [], excludes: c % 2 ? [] : [finding] };
  },
  common: (a, b) => (edition) => {
    const condition = pick(edition.conditions, a);
    if (condition) condition.howCommon = pick(frequencies, b) ?? "rare";
  },
  hosts: (a, b, c) => (edition) => {
    const condition = pick(edition.conditions, a);
    const host = pick(edition.hosts, b)?.id ?? "";
    if (condition) condition[(["prone", "immune", "onlyOn"] as const)[c % 3] ?? "prone"] = [host];
  },
  links: (a, b, c) => (edition) => {
    const condition = pick(edition.conditions, a);
    const other = pick(edition.conditions, b)?.id ?? "";
    if (!condition || condition.id === other) return;
    if (c % 3 === 0) condition.looksLike = [{ other, check: [] }];
    else condition[c % 3 === 1 ? "broughtOnBy" : "brings"] = [other];
  },
  plan: (a, b, c) => (edition) => {
    const condition = pick(edition.conditions, a);
    const remedy = pick(edition.remedies, b)?.id ?? "";
    if (!condition) return;
    condition.plan = condition.plan.filter((id) => id !== remedy);
    if (c % 2) condition.plan.splice(c % (condition.plan.length + 1), 0, remedy);
  },
  sample: (a) => (edition) => {
    const condition = pick(edition.conditions, a);
    if (condition) condition.needsSample = !condition.needsSample;
  },
  remedy: (a, b, c) => (edition) => {
    const remedy = pick(edition.remedies, a);
    if (!remedy) return;
    if (c % 5 === 0) remedy.neverWhen = [pick(neverWhens, b) ?? "eaten"];
    if (c % 5 === 1) remedy.phase = pick(phases, b) ?? "today";
    if (c % 5 === 2) remedy.method = pick(methods, b) ?? "cultural";
    if (c % 5 === 3)
      remedy.cautions = { ...remedy.cautions, [pick(facts, b) ?? "pets"]: c % 2 ? [] : ["Careful."] };
    if (c % 5 === 4) remedy.needsStanding = b % 2 ? "suspected" : "leaning";
  },
  order: (a, b) => (edition) => {
    const { order } = edition.conversation;
    const moved = order.splice(a % order.length, 1);
    order.splice(b % (order.length + 1), 0, ...moved);
  },
  most: (a) => (edition) => {
    edition.conversation.mostQuestions = 1 + (a % 4);
  },
  gate: (a, b, c) => (edition) => {
    const question = pick(
      edition.questions.filter(({ kind, id }) => kind === "finding" && id !== edition.conversation.opening),
      a,
    );
    const finding = pick(edition.findings, b)?.id ?? "";
    if (question)
      question.askWhen = { ...question.askWhen, [c % 2 ? "any" : "none"]: c % 3 ? [finding] : [] };
  },
  answer: (a, b, c) => (edition) => {
    const question = pick(
      edition.questions.filter(({ kind }) => kind === "finding"),
      a,
    );
    const option = pick(question?.options ?? [], b);
    if (!question || !option) return;
    if (c % 4 === 0) question.options = question.options.filter((one) => one !== option);
    else if (c % 4 === 1)
      question.options.push({
        ...option,
        id: `new-${b % 2}`,
        none: false,
        present: [pick(edition.findings, c)?.id ?? ""],
      });
    else if (c % 4 === 2) option.present = [pick(edition.findings, c)?.id ?? ""];
    else option.none = !option.none;
  },
  question: (a, b, c) => (edition) => {
    const { conversation } = edition;
    const id = "new-question";
    if (conversation.order.includes(id)) return;
    const present = [pick(edition.findings, a)?.id ?? ""];
    const base = { label: "", none: false, facts: {} };
    edition.questions.push({
      id,
      kind: "finding",
      prompt: "",
      why: "",
      howToCheck: [],
      askWhen: { any: c % 2 ? [pick(edition.findings, b)?.id ?? ""] : [], none: [] },
      options: [
        { ...base, id: "yes", present, absent: [] },
        { ...base, id: "no", present: [], absent: present },
      ],
    });
    conversation.order.splice(c % (conversation.order.length + 1), 0, id);
  },
  retire: (a) => (edition) => {
    const { conversation } = edition;
    const id = pick(conversation.order, a);
    conversation.order = conversation.order.filter((one) => one !== id);
    conversation.whenUnsure = conversation.whenUnsure.filter((one) => one !== id);
    edition.questions = edition.questions.filter((question) => question.id !== id);
  },
  unsure: (a) => (edition) => {
    edition.conversation.whenUnsure = [pick(edition.conversation.order, a) ?? ""].filter((id) => id !== "");
  },
  opening: (a) => (edition) => {
    const { conversation } = edition;
    const at = a % Math.max(1, conversation.order.length);
    const opening = conversation.order[at];
    if (opening === undefined) return;
    conversation.order[at] = conversation.opening;
    conversation.opening = opening;
  },
  weights: (a, b) => (edition) => {
    const { weights } = edition;
    const by = (b % 7) - 3;
    if (a % 6 === 0) weights.lead.suspected = Math.max(0, weights.lead.suspected + by);
    if (a % 6 === 1) weights.lead.leaning = Math.max(0, weights.lead.leaning + by);
    if (a % 6 === 2) weights.reach = Math.max(0, weights.reach + by);
    if (a % 6 === 3) weights.silentRival += by;
    if (a % 6 === 4) weights.present.supports = Math.max(0, weights.present.supports + by);
    if (a % 6 === 5) weights.host.prone = Math.max(0, weights.host.prone + by);
  },
  findings: (a, b, c) => (edition) => {
    const finding = edition.findings[a % edition.findings.length];
    const other = edition.findings[b % edition.findings.length]?.id ?? "";
    if (!finding || finding.id === other) return;
    if (c % 4 === 0) finding.vague = !finding.vague;
    if (c % 4 === 1) finding.circumstance = !finding.circumstance;
    if (c % 4 === 2) finding.implies = [other];
    if (c % 4 === 3) finding.combines = [other];
  },
  plant: (a, b, c) => (edition) => {
    const host = pick(edition.hosts, a);
    if (!host) return;
    if (c % 4 === 0) host.eaten = (["never", "sometimes", "always"] as const)[b % 3] ?? "never";
    if (c % 4 === 1) host.harmedBy = b % 2 ? ["soap"] : [];
    if (c % 4 === 2) edition.hosts.push({ ...host, id: "new-plant" });
    if (c % 4 === 3 && edition.hosts.length > 1) edition.hosts = edition.hosts.filter((one) => one !== host);
  },
  facts: (a, b) => (edition) => {
    const question = pick(
      edition.questions.filter(({ kind }) => kind === "fact"),
      a,
    );
    if (!question) return;
    if (b % 2) edition.questions = edition.questions.filter((one) => one !== question);
    else question.options = question.options.slice(0, 1);
  },
};

/** The edition after one to three random edits. */
export function arbitraryEdits(edition: Edition): fc.Arbitrary<Edition> {
  const edit = fc
    .tuple(
      fc.constantFrom(...Object.keys(kinds)),
      fc.nat({ max: 500 }),
      fc.nat({ max: 500 }),
      fc.nat({ max: 500 }),
    )
    .map(([kind, a, b, c]) => kinds[kind]?.(a, b, c));
  return fc.array(edit, { minLength: 1, maxLength: 3 }).map((edits) => {
    const draft = structuredClone(edition);
    for (const change of edits) change?.(draft);
    return draft;
  });
}
