import type { Block, Condition } from "../../flows/edition.ts";
import { Prose } from "./prose.tsx";
import { type Report, sayPoison } from "./report.ts";
import * as words from "./words.ts";

/** What the shopper asks next: will it live, will it spread, how to keep it away, when to stop. */
export function OutlookView({ condition }: { condition: Condition }) {
  return (
    <section class="lt-section lt-outlook">
      <Topic title={words.willItLive} of={condition.willItLive} />
      <Topic
        title={words.doesItSpread}
        of={
          condition.doesItSpread.length > 0 ? condition.doesItSpread : say(words.spreads[condition.spreads])
        }
      />
      <Topic title={words.prevention} of={condition.prevention} screenOnly />
      <Topic title={words.whenToGiveUp} of={condition.whenToGiveUp} />
      <Topic title={words.whenToBringIn} of={condition.whenToBringIn} />
    </section>
  );
}

function say(text: string): Block[] {
  return [{ t: "p", of: [{ t: "text", text }] }];
}

interface TopicProps {
  title: string;
  of: readonly Block[];
  /** Left out on paper, where the plan's last phase says much the same. */
  screenOnly?: boolean;
}

function Topic({ title, of, screenOnly = false }: TopicProps) {
  if (of.length === 0) return null;
  return (
    <div class={screenOnly ? "lt-topic lt-screen-only" : "lt-topic"}>
      <h3>{title}</h3>
      <Prose of={of} />
    </div>
  );
}

/** Cautions for this plant in this household, and whom to call when something was swallowed. */
export function HouseholdView({ report }: { report: Report }) {
  const { plan, flow, host } = report;
  const said = plan.household
    .filter(({ fact, state }) => isWorthSaying(report, fact, state))
    .map(({ fact, state }) => words.households[fact][state]);
  return (
    <section class="lt-section lt-household">
      <h3>{words.household}</h3>
      <ul>
        {[...sayPoison(host), ...said].map((sentence) => (
          <li>{sentence}</li>
        ))}
      </ul>
      <p class="lt-poison-help">{flow.edition.shop.poisonHelp}</p>
    </section>
  );
}

/** A fact that is ruled out needs no line; one that is unknown needs it only when a step depends on it. */
function isWorthSaying(
  { plan, flow }: Report,
  fact: keyof typeof words.households,
  state: "yes" | "no" | "unknown",
) {
  if (state === "no") return false;
  return [...plan.steps, ...plan.leftOut].some((step) => {
    const remedy = flow.remedy(step.remedy);
    return (
      remedy !== undefined &&
      (remedy.neverWhen.includes(fact) ||
        remedy.cautions[fact].length > 0 ||
        (fact === "eaten" && remedy.product))
    );
  });
}
