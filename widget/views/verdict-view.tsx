import type { Child } from "hono/jsx";
import type { Standing } from "../../flows/edition.ts";
import { KeepView } from "./keep-view.tsx";
import { LookAgainView, OutcomeView } from "./look-view.tsx";
import { HouseholdView, OutlookView } from "./outlook-view.tsx";
import { PlanView, type StepSums } from "./plan-view.tsx";
import { Prose } from "./prose.tsx";
import { ReasonsView, RivalsView } from "./reasons-view.tsx";
import { namedCondition, type Report, sayVerdict } from "./report.ts";
import { SampleView } from "./sample-view.tsx";
import type { Ways } from "./ways.ts";
import * as words from "./words.ts";

interface VerdictViewProps {
  report: Report;
  ways: Ways;
  /** What the verdict says to the owner's own idea and questions. */
  remarks: Child;
  /** Days, amounts and shopping list. */
  sums: StepSums & { all: Child };
}

/** The verdict with its reasons, the plan, the outlook, the sample request, and the way to keep all of it. */
export function VerdictView({ report, ways, remarks, sums }: VerdictViewProps) {
  const { flow, verdict } = report;
  const condition = namedCondition(report);
  const wanted = verdict.bringSample || condition === null;
  return (
    <article class="lt-verdict" part="verdict" aria-labelledby={ways.id("now")}>
      <header class="lt-verdict-head">
        <p class="lt-eyebrow">{words.verdict}</p>
        <h2 class="lt-verdict-name" id={ways.id("now")} tabindex={-1}>
          {sayVerdict(flow, verdict)}
        </h2>
        <p class="lt-lead">{saySureness(condition === null ? "undetermined" : verdict.standing)}</p>
        {condition !== null && condition.alsoCalled.length > 0 && (
          <p class="lt-hint">{words.alsoCalled(condition.alsoCalled.join(", "))}</p>
        )}
      </header>
      <OutcomeView report={report} />
      {remarks}
      {wanted && <SampleView flow={flow} branch={report.branch} wanted />}
      {condition !== null && <ConditionView {...{ report, ways }} />}
      <BesideView report={report} />
      <PlanView report={report} sums={sums} />
      {sums.all}
      <HouseholdView report={report} />
      {condition !== null && <OutlookView condition={condition} />}
      <RivalsView report={report} pictures={ways.pictures} />
      {!wanted && <SampleView flow={flow} branch={report.branch} wanted={false} />}
      {report.canLook && <LookAgainView ways={ways} />}
      <KeepView link={report.link} code={report.code} ways={ways} />
      <SourcesView report={report} />
    </article>
  );
}

function saySureness(standing: Standing): string {
  return standing === "undetermined" ? words.undeterminedWhy : words.howSure[standing];
}

function ConditionView({ report, ways }: { report: Report; ways: Ways }) {
  const condition = namedCondition(report);
  if (condition === null) return null;
  const candidate = report.verdict.candidates.find((one) => one.condition === condition.id);
  return (
    <section class="lt-section">
      <h3>{words.whatItIs}</h3>
      <div class="lt-leading">{ways.pictures?.condition(condition)}</div>
      <Prose of={condition.whatItIs} />
      {candidate && <ReasonsView flow={report.flow} candidate={candidate} level={4} />}
      {condition.whatBringsItOn.length > 0 && (
        <div class="lt-screen-only">
          <h4>{words.whatBringsItOn}</h4>
          <Prose of={condition.whatBringsItOn} />
        </div>
      )}
    </section>
  );
}

/** Second causes, each with its own reasons. */
function BesideView({ report }: { report: Report }) {
  const { flow, verdict } = report;
  if (verdict.standing === "undetermined" || verdict.beside.length === 0) return null;
  return (
    <section class="lt-section">
      <h3>{words.beside}</h3>
      {verdict.beside.map((id) => {
        const condition = flow.condition(id);
        const candidate = verdict.candidates.find((one) => one.condition === id);
        if (!condition || !candidate) return null;
        return (
          <article class="lt-rival">
            <h4>{condition.name}</h4>
            <Prose of={condition.whatItIs} />
            <ReasonsView flow={flow} candidate={candidate} level={5} />
          </article>
        );
      })}
    </section>
  );
}

/** The papers behind what is said of the condition. Claims without a paper are not listed. */
function SourcesView({ report }: { report: Report }) {
  const ids = namedCondition(report)?.sources ?? [];
  const sources = ids.flatMap((id) => report.flow.source(id) ?? []).filter(({ tier }) => tier !== "none");
  if (sources.length === 0) return null;
  return (
    <details class="lt-aside lt-sources">
      <summary>{words.sources}</summary>
      <ul>
        {sources.map(({ publisher, title, url }) => (
          <li>
            {url === null ? (
              `${publisher}: ${title}`
            ) : (
              <a class="lt-link" href={url} rel="noreferrer">
                {`${publisher}: ${title}`}
              </a>
            )}
          </li>
        ))}
      </ul>
    </details>
  );
}
