/**
 * `npm run -s ask -- "host=…&finding…"`: a case link's query, or a case code, in; JSON out.
 * Prints the next question, the verdict with every candidate's weight and reasons, and the plan. Exits 1 when a code
 * cannot be read; parts of a link that cannot be used are named under `problems` and the rest is answered.
 */
import { type Case, newCase } from "../../flows/case.ts";
import { readCode, writeCode } from "../../flows/case-code.ts";
import { readLink, writeLink } from "../../flows/case-link.ts";
import type { Flow } from "../../flows/flow.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { makePlan } from "../../flows/plan.ts";
import { judge } from "../../flows/verdict.ts";
import { loadFlow } from "./load-flow.ts";

const flow = await loadFlow();
const text = process.argv.slice(2).join(" ").trim();
const asked = readCase(flow, text);
if ("problem" in asked) {
  console.log(JSON.stringify({ problem: asked.problem }, null, 2));
  process.exit(1);
}
const { kase, problems } = asked;
const verdict = judge(flow, kase);
console.log(
  JSON.stringify(
    {
      link: writeLink(flow, kase),
      code: writeCode(flow, kase),
      answers: kase.answers,
      problems,
      next: nextQuestion(flow, kase),
      verdict,
      plan: makePlan(flow, kase, verdict),
    },
    null,
    2,
  ),
);

type Asked = { kase: Case; problems: unknown[] } | { problem: { code: string; sentence: string } };

function readCase(flow: Flow, text: string): Asked {
  if (text === "") return { kase: newCase(flow), problems: [] };
  const looksLikeLink = /[=&]./.test(text) || flow.finding(text) !== undefined;
  if (looksLikeLink) {
    const { case: kase, problems } = readLink(flow, text.replace(/^.*\?/, ""));
    return { kase, problems };
  }
  const read = readCode((edition) => (edition === flow.edition.number ? flow : undefined), text);
  if (read.ok) return { kase: read.case, problems: [] };
  return { problem: { code: read.code, sentence: read.sentence } };
}
