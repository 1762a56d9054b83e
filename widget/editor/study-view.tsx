/** What was found about every conversation of a draft. */
import type { CaseTest, TestComparison } from "../../flows/compare/case-tests.ts";
import type { Cause } from "../../flows/compare/causes.ts";
import type { ChangeGroup, Comparison } from "../../flows/compare/report.ts";
import type { WalkReport } from "../../flows/walk/walk.ts";
import { sayChange, sayCount } from "../views/editor/study-report.ts";
import { type Doors, ExampleView, hrefToDraft } from "./example-view.tsx";
import type { Names } from "./protocol.ts";
import type { Findings } from "./study-run.ts";
import { makeChange, rules, sayGroup, sayPairs } from "./study-words.ts";

/** Groups shown at once. */
const MOST = 40;

interface StudyViewProps {
  found: Findings;
  doors: Doors;
}

export function StudyView({ found, doors }: StudyViewProps) {
  const { names, tests, comparison, causes, walk } = found;
  return (
    <>
      {comparison && <ChangePart {...{ names, comparison, causes, doors }} />}
      <TestPart {...{ names, tests, doors }} />
      {walk && <RulePart walk={walk} doors={doors} />}
    </>
  );
}

interface ChangePartProps {
  names: Names;
  comparison: Comparison;
  causes: readonly Cause[][];
  doors: Doors;
}

function ChangePart({ names, comparison, causes, doors }: ChangePartProps) {
  const { groups, longest, longerExample } = comparison;
  return (
    <section class="lt-section" id="changed">
      <h3>What changes</h3>
      <p class="lt-lead">{sayChange(makeChange(names, comparison), longest.draft)}</p>
      {groups.length > 0 && (
        <p class="lt-hint">
          The same shopper, giving the same answers under both editions, is counted as one conversation. Here
          they are by how they end, most of them first.
        </p>
      )}
      <ol class="ed-list">
        {groups.slice(0, MOST).map((group, i) => (
          <li>
            <GroupView {...{ names, group, doors }} causes={causes[i]} isOpen={i === 0} />
          </li>
        ))}
      </ol>
      {groups.length > MOST && (
        <p class="ed-faint">{`${sayCount(groups.length - MOST)} smaller groups come after these.`}</p>
      )}
      {longerExample && (
        <details class="lt-aside ed-unfold">
          <summary>
            {`The shortest conversation that grew the most: by ${longerExample.by} ${longerExample.by === 1 ? "question" : "questions"}`}
          </summary>
          <ExampleView {...{ names, doors }} live={longerExample.live} draft={longerExample.draft} />
        </details>
      )}
    </section>
  );
}

interface GroupViewProps {
  names: Names;
  group: ChangeGroup;
  causes: readonly Cause[] | undefined;
  doors: Doors;
  isOpen: boolean;
}

function GroupView({ names, group, causes, doors, isOpen }: GroupViewProps) {
  const { kind, pairs, longer, shorter, from, to, example } = group;
  const lengths = [
    longer > 0 && `${sayCount(longer)} longer`,
    shorter > 0 && `${sayCount(shorter)} shorter`,
  ].filter((part) => part !== false);
  return (
    <>
      <h4>{sayGroup(names, group)}</h4>
      <p class="ed-faint">{[sayPairs(pairs), ...lengths].join("; ")}</p>
      {causes && causes.length > 0 && (
        <>
          <p class="lt-label">
            {causes.some(({ alone }) => alone) ? "Because of" : "Because of these together"}
          </p>
          <ul>
            {causes.slice(0, 6).map(({ sentence }) => (
              <li>{sentence}</li>
            ))}
          </ul>
        </>
      )}
      <details class="lt-aside ed-unfold" open={isOpen}>
        <summary>The shortest of them, side by side</summary>
        <ExampleView {...{ names, doors }} {...example} ends={{ from, to }} isPlanShown={kind === "plan"} />
      </details>
    </>
  );
}

interface TestPartProps {
  names: Names;
  tests: readonly TestComparison[];
  doors: Doors;
}

const verdictWords = {
  broke: "breaks",
  mended: "holds now",
  fails: "broken, as before",
  passes: "holds",
} as const;

function TestPart({ names, tests, doors }: TestPartProps) {
  const telling = tests.filter(({ verdict, draft }) => verdict !== "passes" || draft.asksNew.length > 0);
  const holding = tests.filter(({ verdict }) => verdict === "passes" || verdict === "mended").length;
  return (
    <section class="lt-section" id="kept">
      <h3>Kept cases</h3>
      <p>
        {tests.length === 0
          ? "No case is kept yet."
          : `${holding} of ${tests.length} end as they should in this draft.`}
      </p>
      <ul class="ed-list">
        {telling.map((one) => (
          <li>
            <TestView {...{ names, doors, one }} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function TestView({ names, doors, one }: { names: Names; doors: Doors; one: TestComparison }) {
  const { test, live, draft, verdict } = one;
  const asks = draft.asksNew.map((id) => `“${names.questions[id]?.prompt ?? id}”`).join(", ");
  return (
    <>
      <p>
        <span class="ed-mark">{verdict === "passes" ? "asks something new" : verdictWords[verdict]}</span>{" "}
        {test.reason}
      </p>
      <p class="ed-faint">
        {`Should end: ${sayCase(names, test)}. In edition ${doors.liveNumber}: ${sayCase(names, live)}. In this draft: ${sayCase(names, draft)}.`}
      </p>
      {asks && (
        <p class="ed-faint">{`It asks ${asks}, which this case does not answer; “not sure” stands in.`}</p>
      )}
      <p class="ed-row">
        <a class="lt-link" href={`/check?${live.query}`}>{`Open it in edition ${doors.liveNumber}`}</a>
        <a class="lt-link" href={hrefToDraft(doors, draft.query)}>
          Open it in the draft
        </a>
      </p>
    </>
  );
}

function sayCase({ conditions }: Names, { standing, leader }: Pick<CaseTest, "standing" | "leader">): string {
  return leader === null ? "undetermined" : `${standing}, ${conditions[leader] ?? leader}`;
}

function RulePart({ walk, doors }: { walk: WalkReport; doors: Doors }) {
  const { conversations, longest, violations, byStanding } = walk;
  const broken = new Set(violations.map(({ invariant }) => invariant));
  return (
    <section class="lt-section" id="rules">
      <h3>Rules that must hold in every conversation</h3>
      <p class="lt-lead">
        {violations.length === 0
          ? `All of them hold, in each of ${sayCount(Number(conversations))} conversations.`
          : violations.length === 1
            ? "One is broken."
            : `${violations.length} times one is broken.`}
      </p>
      <ul class="ed-list">
        {violations.slice(0, 100).map(({ invariant, sentence, conversation }) => (
          <li>
            <p>
              <span class="ed-mark">broken</span> {rules[invariant] ?? invariant}
            </p>
            <p>{sentence}</p>
            {conversation && (
              <a class="lt-link" href={hrefToDraft(doors, conversation)}>
                Click through the shortest conversation that shows it
              </a>
            )}
          </li>
        ))}
      </ul>
      <details class="lt-aside ed-unfold">
        <summary>What was checked</summary>
        <ul>
          {Object.entries(rules).map(([invariant, sentence]) => (
            <li>
              {sentence} {broken.has(invariant) && <span class="ed-mark">broken</span>}
            </li>
          ))}
        </ul>
        <p class="ed-faint">
          {`${sayCount(Number(byStanding.suspected))} conversations end suspected, ${sayCount(Number(byStanding.leaning))} leaning, ${sayCount(Number(byStanding.undetermined))} undetermined. The longest asks ${longest} questions.`}
        </p>
      </details>
    </section>
  );
}
