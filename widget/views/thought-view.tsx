import { readIds } from "../../flows/case-link.ts";
import { type AskId, askIds } from "../../flows/edition.ts";
import { Prose } from "./prose.tsx";
import { namedCondition, type Report, sayPoison, sayReason } from "./report.ts";
import { asked as questions } from "./say-words.ts";
import * as words from "./thought-words.ts";
import { spreads } from "./words.ts";

/** Whether the evidence agrees with what the owner thought, and why. The thought itself weighs nothing. */
export function ThoughtView({ report, thought }: { report: Report; thought: string | undefined }) {
  const { flow, verdict } = report;
  const conditions = readIds(thought).flatMap((id) => flow.condition(id) ?? []);
  if (conditions.length === 0) return null;
  const named = [namedCondition(report)?.id, ...(namedCondition(report) ? verdict.beside : [])];
  const right = conditions.filter(({ id }) => named.includes(id));
  return (
    <section class="lt-section">
      <h3>{words.yourIdea}</h3>
      {right.length > 0 && <p>{words.agrees(right.map(({ name }) => name).join(", "))}</p>}
      {right.length === 0 && (
        <ul>
          {conditions.map(({ id, name }) => (
            <li>{sayDoubt(report, id, name)}</li>
          ))}
        </ul>
      )}
    </section>
  );
}

function sayDoubt(report: Report, id: string, name: string): string {
  const candidate = report.verdict.candidates.find(({ condition }) => condition === id);
  const [against] = candidate?.reasonsAgainst ?? [];
  if (against) return words.speaksAgainst(name, sayReason(report.flow, against));
  const [speaks] = candidate?.reasonsFor ?? [];
  if (speaks && candidate?.speaks) return words.weaker(name, sayReason(report.flow, speaks));
  return words.nothingSpeaks(name);
}

/** The questions that were typed, answered from what the verdict knows. */
export function AnswersView({ report, asked }: { report: Report; asked: string | undefined }) {
  const ids = readIds(asked).filter(isAsk);
  if (ids.length === 0) return null;
  return (
    <section class="lt-section">
      <h3>{words.yourQuestions}</h3>
      {ids.map((id) => (
        <div class="lt-topic">
          <h4>{questions[id]}</h4>
          <Answer id={id} report={report} />
        </div>
      ))}
    </section>
  );
}

function isAsk(id: string): id is AskId {
  return id !== "what-is-it" && (askIds as readonly string[]).includes(id);
}

function Answer({ id, report }: { id: AskId; report: Report }) {
  const { flow, host } = report;
  const condition = namedCondition(report);
  if (id === "will-it-live") return condition ? <Prose of={condition.willItLive} /> : <p>{words.notYet}</p>;
  if (id === "will-it-spread") {
    if (!condition) return <p>{words.notYetSpread}</p>;
    return condition.doesItSpread.length > 0 ? (
      <Prose of={condition.doesItSpread} />
    ) : (
      <p>{spreads[condition.spreads]}</p>
    );
  }
  const said =
    id === "can-i-eat-it"
      ? sayEating(report)
      : [...sayPoison(host), ...cautions(report, id === "safe-for-pets" ? "pets" : "children")];
  return (
    <>
      <ul>
        {(said.length > 0 ? said : [words.notListed]).map((sentence) => (
          <li>{sentence}</li>
        ))}
      </ul>
      <p class="lt-poison-help">{flow.edition.shop.poisonHelp}</p>
    </>
  );
}

/** What the steps of the plan say to a home like this. */
function cautions({ plan, flow }: Report, fact: "pets" | "children" | "eaten"): string[] {
  return [...new Set(plan.steps.flatMap(({ remedy }) => flow.remedy(remedy)?.cautions[fact] ?? []))];
}

function sayEating(report: Report): string[] {
  const { host, plan, flow } = report;
  const sprays = plan.steps.some(({ remedy }) => flow.remedy(remedy)?.product === true);
  return [
    ...(host === null ? [words.eatUnknown] : host.eaten === "never" ? [words.eatNever(host.name)] : []),
    words.eatSick,
    ...(sprays ? [words.eatLabel] : []),
    ...cautions(report, "eaten"),
  ];
}
