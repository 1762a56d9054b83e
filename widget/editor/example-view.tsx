import type { CaseView, ChangeGroup } from "../../flows/compare/report.ts";
import type { Names } from "./protocol.ts";
import { sayEnd } from "./study-words.ts";

/** Where the conversations of a report open. */
export interface Doors {
  /** Address of the draft. */
  draft: string;
  liveNumber: number;
}

export function hrefToDraft({ draft }: Doors, link: string): string {
  return `${draft}/look/check?${link}`;
}

interface ExampleProps {
  names: Names;
  doors: Doors;
  live: CaseView;
  draft: CaseView;
  ends?: Pick<ChangeGroup, "from" | "to">;
  isPlanShown?: boolean;
}

/** One pair of conversations side by side. What differs is marked in words and by weight, not by color. */
export function ExampleView({ names, doors, live, draft, ends, isPlanShown = false }: ExampleProps) {
  const edition = `Edition ${doors.liveNumber}`;
  return (
    <div class="ed-both">
      <Side
        {...{ names, view: live, other: draft, title: edition }}
        end={ends && sayEnd(names, ends.from)}
        isPlanShown={isPlanShown}
        href={`/check?${live.link}`}
        open={`Open it in edition ${doors.liveNumber}`}
      />
      <Side
        {...{ names, view: draft, other: live, title: "This draft" }}
        end={ends && sayEnd(names, ends.to)}
        isPlanShown={isPlanShown}
        href={hrefToDraft(doors, draft.link)}
        open="Open it in the draft"
      />
    </div>
  );
}

interface SideProps {
  names: Names;
  title: string;
  view: CaseView;
  other: CaseView;
  end: string | undefined;
  isPlanShown: boolean;
  href: string;
  open: string;
}

function Side({ names, title, view, other, end, isPlanShown, href, open }: SideProps) {
  return (
    <div>
      <p class="lt-label">{title}</p>
      <ol class="ed-talk">
        {view.answers.map(({ to, is }) => {
          const question = names.questions[to];
          const there = other.answers.find((answer) => answer.to === to);
          const mark = there === undefined ? "only here" : there.is === is ? "" : "another answer";
          return (
            <li>
              <span class="lt-line-prompt">{question?.prompt ?? to}</span>
              <span class="lt-line-answer">
                {question?.answers[is] ?? is} {mark && <span class="ed-mark">{mark}</span>}
              </span>
            </li>
          );
        })}
      </ol>
      {end && <p class="ed-end">{end}</p>}
      {isPlanShown && <Steps {...{ names, steps: view.steps, others: other.steps }} />}
      <p>
        <a class="lt-link" href={href}>
          {open}
        </a>
      </p>
    </div>
  );
}

function Steps({
  names,
  steps,
  others,
}: {
  names: Names;
  steps: readonly string[];
  others: readonly string[];
}) {
  return (
    <>
      <p class="lt-hint">The plan:</p>
      <ol>
        {steps.map((id) => (
          <li>
            {names.remedies[id] ?? id} {!others.includes(id) && <span class="ed-mark">only here</span>}
          </li>
        ))}
      </ol>
    </>
  );
}
