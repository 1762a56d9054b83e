import type { Report } from "../views/report.ts";
import { ShoppingView, StepSums, SumsView } from "../views/sums-view.tsx";
import { AnswersView, ThoughtView } from "../views/thought-view.tsx";
import { VerdictView } from "../views/verdict-view.tsx";
import type { Ways } from "../views/ways.ts";
import type { CheckState } from "./decide.ts";
import { makeFigures } from "./make-figures.ts";
import { writeCalendar } from "./write-calendar.ts";

interface PlannedVerdictProps {
  state: CheckState;
  report: Report;
  ways: Ways;
}

/** The verdict and its plan, with days, amounts and shopping list worked out. */
export function PlannedVerdict({ state, report, ways }: PlannedVerdictProps) {
  const { case: kase, typed, today } = state;
  const figures = makeFigures(report, kase, typed, today);
  const { saveCalendar } = ways;
  const save =
    saveCalendar &&
    ((event: Event, replace: boolean) =>
      saveCalendar(event, (now) => {
        const file = writeCalendar({ report, case: kase, typed, today, now, replace });
        return file.ok ? file.text : null;
      }));
  return (
    <VerdictView
      {...{ report, ways }}
      remarks={
        <>
          <AnswersView report={report} asked={typed.asked} />
          <ThoughtView report={report} thought={typed.thought} />
        </>
      }
      sums={{
        step: (remedy) => <StepSums {...{ figures, remedy, ways }} />,
        hasDays: (remedy) => figures.paces.has(remedy),
        all: (
          <>
            <SumsView {...{ figures, ways, save }} />
            <ShoppingView figures={figures} />
          </>
        ),
      }}
    />
  );
}
