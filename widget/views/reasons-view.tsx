import type { Flow } from "../../flows/flow.ts";
import type { Candidate } from "../../flows/verdict.ts";
import { Prose } from "./prose.tsx";
import { checkBetween, namedCondition, type Report, rivalsOf, sayReason } from "./report.ts";
import type { PictureViews } from "./ways.ts";
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

interface RivalsViewProps {
  report: Report;
  pictures?: PictureViews | undefined;
}

/** The rivals, each with the check that separates it from the leader; the nearest with both drawings beside it. */
export function RivalsView({ report, pictures }: RivalsViewProps) {
  const { flow, verdict } = report;
  const named = namedCondition(report);
  const rivals = rivalsOf(report);
  const check = verdict.separatingCheck;
  const apart = named && check && !rivals.some(({ condition }) => condition === check.from) ? check : null;
  if (rivals.length === 0 && apart === null) return null;
  const alikes = rivals.map((rival) => {
    const against = named?.id ?? otherThan(rival, rivals);
    return {
      rival,
      against,
      check: against === undefined ? null : checkBetween(flow, against, rival.condition),
    };
  });
  const nearest = alikes.find((alike) => alike.check !== null)?.rival;
  return (
    <section class="lt-section">
      <h3>{named ? words.whatElse : words.closest}</h3>
      {alikes.map(({ rival, against, check: between }) => (
        <article class="lt-rival">
          <h4>{flow.condition(rival.condition)?.name ?? rival.condition}</h4>
          <ReasonsView flow={flow} candidate={rival} level={5} />
          {between !== null && against !== undefined && (
            <CheckView
              {...{ flow, pictures: rival === nearest ? pictures : undefined }}
              one={against}
              other={rival.condition}
              check={between}
            />
          )}
        </article>
      ))}
      {apart && named && (
        <CheckView
          {...{ flow, pictures: nearest === undefined ? pictures : undefined }}
          one={named.id}
          other={apart.from}
          check={apart.check}
        />
      )}
    </section>
  );
}

function otherThan(rival: Candidate, rivals: readonly Candidate[]): string | undefined {
  return rivals.find(({ condition }) => condition !== rival.condition)?.condition;
}

interface CheckViewProps {
  flow: Flow;
  /** Ids of the two conditions. */
  one: string;
  other: string;
  check: Parameters<typeof Prose>[0]["of"];
  /** Given where the two are shown side by side. */
  pictures: PictureViews | undefined;
}

function CheckView({ flow, pictures, one, other, check }: CheckViewProps) {
  const [left, right] = [one, other].map((id) => ({ id, name: flow.condition(id)?.name ?? id }));
  if (!left || !right) return null;
  const told = (
    <div class="lt-check">
      <p class="lt-label">{words.checkThat}</p>
      <p class="lt-hint">{words.checkApart(left.name, right.name)}</p>
      <Prose of={check} />
    </div>
  );
  if (!pictures?.areApart(left, right)) return told;
  return (
    <div class="lt-pair">
      {pictures.condition(left)}
      {told}
      {pictures.condition(right)}
    </div>
  );
}
