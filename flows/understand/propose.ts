import { type Case, know } from "../case.ts";
import type { AskId, Fact, Question } from "../edition.ts";
import { ABSENT, PRESENT, UNKNOWN } from "../finding-table.ts";
import { type Flow, NOT_SURE } from "../flow.ts";
import { readReply } from "./read-reply.ts";
import { type Heard, type HeardFact, type Theory, understand } from "./understand.ts";

/** One thing to agree to: an answer of the case, with the words it was read from. */
export interface Chip {
  to: string;
  is: string;
  said: string;
  unsure: boolean;
}

/** A question about the home whose answer was half told: the answers that fit what was said. */
export interface HalfTold {
  question: Question;
  fits: string[];
  said: string;
}

/** What was understood of something typed, as far as it is new to the case. Nothing counts before it is agreed to. */
export interface Proposal {
  typed: string;
  /** The answer to the question in hand. */
  reply: Chip | null;
  /** The plant; more than one when several were named. Empty when the plant is known already. */
  plants: Chip[];
  present: Chip[];
  absent: Chip[];
  home: Chip[];
  halfTold: HalfTold[];
  theories: readonly Theory[];
  asks: AskId[];
  rest: string[];
  cut: boolean;
}

/** Reads what was typed while a question is in hand, or the verdict stands (`question` is null). */
export function propose(flow: Flow, kase: Case, question: Question | null, typed: string): Proposal {
  const heard = understand(flow, typed);
  const { known, host, answered } = know(flow, kase);
  const option = question === null ? undefined : readReply(flow, question, typed, heard);
  const reply =
    question && option !== undefined
      ? { to: question.id, is: option, said: typed.trim(), unsure: false }
      : null;
  const told = reply ? know(flow, { ...kase, answers: [...kase.answers, reply] }).known : known;
  const news = (list: readonly Heard[], state: number) =>
    list.flatMap(({ id, ...rest }) =>
      told[flow.findings.at(id)] === UNKNOWN
        ? [{ ...rest, to: id, is: state === PRESENT ? "yes" : "no" }]
        : [],
    );
  const hosts = [...(heard.host ? [heard.host] : []), ...heard.otherHosts];
  const isKnown = typeof host === "string" || flow.hostQuestion === undefined;
  const home = tellHome(flow, heard.facts, answered, reply);
  const isNothing =
    reply !== null && heard.present.length + heard.absent.length + hosts.length + heard.theories.length === 0;
  return {
    typed,
    reply,
    plants: isKnown
      ? []
      : hosts.map(({ id, ...rest }) => ({ ...rest, to: flow.hostQuestion?.id ?? "", is: id })),
    present: news(heard.present, PRESENT),
    absent: news(heard.absent, ABSENT),
    ...home,
    theories: heard.theories,
    asks: heard.asks.flatMap(({ id }) => (id === "what-is-it" ? [] : [id])),
    // A reply such as "soggy" was understood as a whole.
    rest: isNothing ? [] : heard.rest,
    cut: heard.cut,
  };
}

/** Facts as answers to the questions about the home: told in full where one answer fits, half told where several do. */
function tellHome(
  flow: Flow,
  facts: readonly HeardFact[],
  answered: ReadonlySet<string>,
  reply: Chip | null,
): Pick<Proposal, "home" | "halfTold"> {
  const home: Chip[] = [];
  const halfTold: HalfTold[] = [];
  for (const { question, replies } of flow.factPrompts) {
    if (answered.has(question.id) || reply?.to === question.id) continue;
    const about = (fact: Fact) => replies.some((one) => one.facts[fact] !== undefined);
    const told = facts.filter(({ fact }) => about(fact));
    if (told.length === 0) continue;
    const said = told.map((one) => one.said).join(", ");
    const fits = replies.filter(
      ({ id, facts: has }) => id !== NOT_SURE && told.every(({ fact, is }) => has[fact] === is),
    );
    const [only] = fits;
    if (only && fits.length === 1) home.push({ to: question.id, is: only.id, said, unsure: false });
    else if (fits.length > 1) halfTold.push({ question, fits: fits.map(({ id }) => id), said });
  }
  return { home, halfTold };
}

/** Whether nothing was typed but questions: then there is nothing to agree to. */
export function asksAlone({
  asks,
  reply,
  plants,
  present,
  absent,
  home,
  halfTold,
  theories,
  rest,
}: Proposal): boolean {
  const others = [plants, present, absent, home, halfTold, theories, rest];
  return asks.length > 0 && reply === null && others.every((list) => list.length === 0);
}
