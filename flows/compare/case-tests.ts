import { type Answer, type Case, giveAnswer, newCase } from "../case.ts";
import { readLink, writeLink } from "../case-link.ts";
import type { Standing } from "../edition.ts";
import { type Flow, NOT_SURE } from "../flow.ts";
import { nextQuestion } from "../next-question.ts";
import { judge } from "../verdict.ts";

/** A conversation that an editor keeps, with how it has to end. */
export interface CaseTest {
  id: string;
  /** The query of a case link. Whatever else is asked gets "not sure", so that a new question breaks nothing by itself. */
  query: string;
  standing: Standing;
  /** Null where it has to end undetermined. */
  leader: string | null;
  /** Why it has to be so. */
  reason: string;
}

/** How a kept conversation ends under one edition. */
export interface TestOutcome {
  passes: boolean;
  standing: Standing;
  leader: string | null;
  /** The query of the case link, with all that was asked. */
  query: string;
  /** Questions that are asked after all that the kept conversation tells. By itself that breaks nothing. */
  asksNew: string[];
}

export interface TestComparison {
  test: CaseTest;
  live: TestOutcome;
  draft: TestOutcome;
  /** `broke`: passes under the live edition and not in the draft; `mended`: the other way round. */
  verdict: "passes" | "broke" | "mended" | "fails";
}

/** What a draft does to each kept conversation. */
export function compareTests(live: Flow, draft: Flow, tests: readonly CaseTest[]): TestComparison[] {
  return tests.map((test) => {
    const [was, is] = [runTest(live, test), runTest(draft, test)];
    const verdict = was.passes ? (is.passes ? "passes" : "broke") : is.passes ? "mended" : "fails";
    return { test, live: was, draft: is, verdict };
  });
}

/** How a kept conversation ends under an edition. */
export function runTest(
  flow: Flow,
  { query, standing, leader }: Pick<CaseTest, "query" | "standing" | "leader">,
): TestOutcome {
  let kase = readLink(flow, query).case;
  const asksNew: string[] = [];
  for (let next = nextQuestion(flow, kase); next; next = nextQuestion(flow, kase)) {
    asksNew.push(next.id);
    kase = giveAnswer(flow, kase, next.id, NOT_SURE).case;
  }
  const verdict = judge(flow, kase);
  const is = verdict.standing === "undetermined" ? null : verdict.leader;
  const passes = verdict.standing === standing && is === leader;
  return { passes, standing: verdict.standing, leader: is, query: writeLink(flow, kase), asksNew };
}

/** The conversation that a shopper has who knows these answers. An answer that the edition does not know becomes "not sure". */
export function replayAnswers(flow: Flow, answers: readonly Answer[]): Case {
  const told = new Map(answers.map(({ to, is }) => [to, is]));
  let kase = newCase(flow);
  for (let next = nextQuestion(flow, kase); next; next = nextQuestion(flow, kase)) {
    const is = told.get(next.id) ?? NOT_SURE;
    const known =
      next.kind === "host" ? flow.host(is) !== undefined : next.options.some(({ id }) => id === is);
    kase = giveAnswer(flow, kase, next.id, known ? is : NOT_SURE).case;
  }
  return kase;
}
