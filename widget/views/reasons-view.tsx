import type { Flow } from "../../flows/flow.ts";
import type { Candidate } from "../../flows/verdict.ts";
import { Prose } from "./prose.tsx";
import { checkBetween, namedCondition, type Report, rivalsOf, sayReason } from "./report.ts";
import * as words from "./words.ts";

/** What speaks for a condition and what against it, in the shopper's own observations. */
export function ReasonsView({ flow, candidate, level }: { flow: Flow; candidate: Candidate; level: 4 | 5 }) {
  const Heading = level === 4 ? "h4" : "h5";
  return (
    <div class="lt-reasons">
      {candidate.reasonsFor.length > 0 && (
        <div>
          <Heading class="lt-label">{words.speaksFor}</Heading>
          <ul class="lt-for">
            {candidate.reasonsFor.map((reason) => (
              <li>{sayReason(flow, reason)}</li>
            ))}
          </ul>
        </div>
      )}
      <div>
        <Heading class="lt-label">{words.speaksAgainst}</Heading>
        {candidate.reasonsAgainst.length === 0 ? (
          <p>{words.nothingAgainst}</p>
        ) : (
          <ul class="lt-against">
            {candidate.reasonsAgainst.map((reason) => (
              <li>{sayReason(flow, reason)}</li>
            ))}
          </ul>
        )}
      </div>
    </div>
  );
}

/** The rivals, each with the check that separates it from the leader. */
export function RivalsView({ report }: { report: Report }) {
  const { flow, verdict } = report;
  const named = namedCondition(report);
  const rivals = rivalsOf(report);
  const check = verdict.separatingCheck;
  const apart = named && check && !rivals.some(({ condition }) => condition === check.from) ? check : null;
  if (rivals.length === 0 && apart === null) return null;
  return (
    <section class="lt-section">
      <h3>{named ? words.whatElse : words.closest}</h3>
      {rivals.map((rival) => (
        <RivalView flow={flow} rival={rival} against={named?.id ?? otherThan(rival, rivals)} />
      ))}
      {apart && named && (
        <CheckView
          one={named.name}
          other={flow.condition(apart.from)?.name ?? apart.from}
          check={apart.check}
        />
      )}
    </section>
  );
}

function otherThan(rival: Candidate, rivals: readonly Candidate[]): string | undefined {
  return rivals.find(({ condition }) => condition !== rival.condition)?.condition;
}

function RivalView({ flow, rival, against }: { flow: Flow; rival: Candidate; against: string | undefined }) {
  const name = flow.condition(rival.condition)?.name ?? rival.condition;
  const check = against === undefined ? null : checkBetween(flow, against, rival.condition);
  return (
    <article class="lt-rival">
      <h4>{name}</h4>
      <ReasonsView flow={flow} candidate={rival} level={5} />
      {check !== null && against !== undefined && (
        <CheckView one={flow.condition(against)?.name ?? against} other={name} check={check} />
      )}
    </article>
  );
}

type CheckViewProps = { one: string; other: string; check: Parameters<typeof Prose>[0]["of"] };

function CheckView({ one, other, check }: CheckViewProps) {
  return (
    <div class="lt-check">
      <p class="lt-label">{words.checkThat}</p>
      <p class="lt-hint">{words.checkApart(one, other)}</p>
      <Prose of={check} />
    </div>
  );
}
