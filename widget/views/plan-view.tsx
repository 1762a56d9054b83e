import type { Child } from "hono/jsx";
import { type Phase, phases, type Remedy } from "../../flows/edition.ts";
import type { Flow } from "../../flows/flow.ts";
import type { PlanStep } from "../../flows/plan.ts";
import { Prose } from "./prose.tsx";
import { namedCondition, type Report } from "./report.ts";
import * as words from "./words.ts";

interface PlanViewProps {
  report: Report;
  sums: StepSums;
}

/** Days and amounts of single steps, where they are worked out. */
export interface StepSums {
  step(remedy: string): Child;
  /** Whether the step has its days, and needs no word on how often in general. */
  hasDays(remedy: string): boolean;
}

/** The plan, phase by phase; within a phase the gentlest method comes first. */
export function PlanView({ report, sums }: PlanViewProps) {
  const { flow, plan, host } = report;
  if (plan.steps.length === 0) return null;
  return (
    <section class="lt-section lt-plan" part="plan">
      <h3>{words.plan}</h3>
      {phases.map((phase) => (
        <PhaseView {...{ report, sums, phase }} />
      ))}
      {host === null && <p class="lt-hint">{words.unknownHost}</p>}
      {plan.leftOut.length > 0 && <LeftOutView flow={flow} leftOut={plan.leftOut} />}
    </section>
  );
}

function PhaseView({ report, sums, phase }: PlanViewProps & { phase: Phase }) {
  const steps = report.plan.steps.filter((step) => step.phase === phase);
  if (steps.length === 0) return null;
  const only = namedCondition(report)?.id;
  return (
    <section class="lt-phase">
      <h4>{words.phases[phase]}</h4>
      <ol class="lt-steps">
        {steps.map((step) => {
          const remedy = report.flow.remedy(step.remedy);
          return remedy && <StepView {...{ flow: report.flow, step, remedy, leader: only, sums }} />;
        })}
      </ol>
    </section>
  );
}

interface StepViewProps {
  flow: Flow;
  step: PlanStep;
  remedy: Remedy;
  leader: string | undefined;
  sums: PlanViewProps["sums"];
}

/** Today's steps stand open; later ones unfold when their time comes. On paper all of them are open. */
function StepView({ flow, step, remedy, leader, sums }: StepViewProps) {
  const others = step.treats.filter((id) => id !== leader).map((id) => flow.condition(id)?.name ?? id);
  return (
    <li class="lt-step">
      <details class="lt-fold" open={step.phase === "today"}>
        <summary>
          <h5>{remedy.name}</h5>
          <span class="lt-method">
            {words.methods[remedy.method]}
            {remedy.minutes !== null && `, ${words.minutes(remedy.minutes)}`}
          </span>
        </summary>
        {others.length > 0 && <p class="lt-hint">{words.treats(others.join(", "))}</p>}
        <Prose of={remedy.steps} />
        <StepFacts remedy={remedy} hasDays={sums.hasDays(remedy.id)} />
        {sums.step(remedy.id)}
        {step.cautions.length > 0 && (
          <div class="lt-caution">
            <p class="lt-label">{words.care}</p>
            <ul>
              {step.cautions.map((caution) => (
                <li>{caution}</li>
              ))}
            </ul>
          </div>
        )}
      </details>
      {step.labelIsLaw && <p class="lt-law">{words.labelIsLaw}</p>}
    </li>
  );
}

function StepFacts({ remedy, hasDays }: { remedy: Remedy; hasDays: boolean }) {
  const rows: [string, string][] = [];
  if (remedy.amount !== null) rows.push([words.amount, remedy.amount]);
  if (remedy.needs.length > 0) rows.push([words.needs, remedy.needs.join(", ")]);
  if (remedy.repeat !== null && !hasDays) rows.push([words.repeat, sayRepeat(remedy.repeat)]);
  if (rows.length === 0) return null;
  return (
    <dl class="lt-facts">
      {rows.map(([term, value]) => (
        <div>
          <dt>{term}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

function sayRepeat({ everyDays, times, until }: NonNullable<Remedy["repeat"]>): string {
  const parts = [words.everyDays(...everyDays), words.times(...times)];
  if (until !== null) parts.push(words.until(until));
  return parts.join(", ");
}

function LeftOutView({ flow, leftOut }: { flow: Flow; leftOut: Report["plan"]["leftOut"] }) {
  return (
    <div class="lt-left-out">
      <h4>{words.leftOut}</h4>
      <ul>
        {leftOut.map(({ remedy, because }) => (
          <li>
            {flow.remedy(remedy)?.name ?? remedy}: {words.because[because]}.
          </li>
        ))}
      </ul>
    </div>
  );
}
