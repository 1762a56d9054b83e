import type { Flow } from "../../flows/flow.ts";
import { makeReport } from "../../widget/check/make-report.ts";
import { describeAnswers } from "../../widget/views/describe-answer.ts";
import type { GuessInWords } from "../../widget/views/desk/desk-state.ts";
import { GuessesView } from "../../widget/views/desk/take-over-view.tsx";
import { Notices } from "../../widget/views/notices.tsx";
import { ReasonsView, RivalsView } from "../../widget/views/reasons-view.tsx";
import { sayVerdict } from "../../widget/views/report.ts";
import type { SignedIn } from "../people/person.ts";
import { PrivatePage } from "../people/private-page.tsx";
import type { BenchFinding } from "./bench-findings.ts";
import { BenchForm, type BenchFormProps } from "./bench-form.tsx";
import { counterWords } from "./counter-words.ts";
import { COUNTER, deskLinks, SIGN_OUT } from "./desk-links.ts";
import type { Sample } from "./open-sample.ts";
import { sayFinding } from "./say-finding.ts";
import { staffWords } from "./staff-words.ts";

interface CodeProblem {
  sentence: string;
  guesses: readonly GuessInWords[];
}

interface CounterPageProps {
  live: Flow;
  person: SignedIn;
  /** What was typed, to be mended. */
  typed: string;
  /** The branch that was chosen last, taken along to the next sample. */
  branch: string;
  /** Why the code could not be opened, and what it may have been. */
  codeProblem: CodeProblem | null;
  /** The finding that has just been recorded. */
  done: BenchFinding | null;
  sample: Sample | null;
  /** The findings of this case so far. */
  before: readonly BenchFinding[];
  bench: Omit<BenchFormProps, "sample" | "shop"> | null;
  latest: readonly BenchFinding[];
}

/** The sample counter: open a case, see what the check said, record what the bench sees. */
export function CounterPage(props: CounterPageProps) {
  const { live, person, typed, codeProblem, done, sample, before, bench, latest } = props;
  const { shop } = live.edition;
  return (
    <PrivatePage
      title={counterWords.title}
      room={staffWords.room}
      links={deskLinks}
      here={COUNTER}
      signOut={SIGN_OUT}
      {...{ shop, person }}
    >
      {done && (
        <p class="st-done" role="status">
          {counterWords.recorded(sayFinding(live, done))}
        </p>
      )}
      {sample === null && <OpenForm typed={typed} branch={props.branch} problem={codeProblem} />}
      {sample && <SampleView sample={sample} />}
      {sample && bench && (
        <>
          <Before live={live} findings={bench.correcting ? [] : before} />
          <BenchForm {...bench} {...{ sample, shop }} />
          <p>
            <a class="lt-link" href={COUNTER}>
              {counterWords.openNext}
            </a>
          </p>
        </>
      )}
      {sample === null && <Latest live={live} findings={latest} />}
    </PrivatePage>
  );
}

type OpenFormProps = { typed: string; branch: string; problem: CodeProblem | null };

function OpenForm({ typed, branch, problem }: OpenFormProps) {
  return (
    <form class="lt-card st-open" method="get" action={COUNTER}>
      {problem && (
        <p class="lt-problem" id="code-problem" role="alert">
          {problem.sentence}
        </p>
      )}
      {problem && problem.guesses.length > 0 && (
        <>
          <p>{counterWords.codeGuesses}</p>
          <GuessesView guesses={problem.guesses} hrefTo={(code) => hrefToCounter(code, branch)} />
        </>
      )}
      <label class="lt-label" for="code">
        {counterWords.codeField}
      </label>
      <p class="lt-hint" id="code-hint">
        {counterWords.codeHint}
      </p>
      <input
        class="lt-input"
        id="code"
        name="code"
        type="text"
        value={typed}
        maxlength={2000}
        autocomplete="off"
        autocapitalize="characters"
        spellcheck={false}
        autofocus
        required
        aria-describedby={problem ? "code-problem code-hint" : "code-hint"}
        aria-invalid={problem ? "true" : undefined}
      />
      {branch && <input type="hidden" name="branch" value={branch} />}
      <p class="lt-actions">
        <button class="lt-button" type="submit">
          {counterWords.open}
        </button>
      </p>
    </form>
  );
}

function hrefToCounter(code: string, branch: string): string {
  return `${COUNTER}?${new URLSearchParams({ code, ...(branch && { branch }) })}`;
}

/** What the shopper told and what the check made of it, as it was then. */
function SampleView({ sample: { flow, case: kase, code, notices } }: { sample: Sample }) {
  const report = makeReport(flow, kase, { base: "/" });
  const leader = report.verdict.candidates.find(({ condition }) => condition === report.verdict.leader);
  const told = describeAnswers(flow, kase);
  return (
    <article class="st-case" aria-labelledby="case">
      <h2 class="lt-prompt" id="case">
        {counterWords.caseTitle(code)}
      </h2>
      <Notices sentences={notices} />
      <section class="lt-section">
        <h3>{counterWords.said}</h3>
        <p class="st-verdict">{sayVerdict(flow, report.verdict)}</p>
        {leader?.speaks === true && (
          <details class="lt-aside">
            <summary>{`${counterWords.why}: ${flow.condition(leader.condition)?.name ?? leader.condition}`}</summary>
            <ReasonsView flow={flow} candidate={leader} level={4} />
          </details>
        )}
      </section>
      <section class="lt-section">
        <h3>{counterWords.told}</h3>
        {told.length === 0 && <p>{counterWords.nothingTold}</p>}
        <dl class="st-told">
          {told.map(({ prompt, answer }) => (
            <div>
              <dt>{prompt}</dt>
              <dd>{answer}</dd>
            </div>
          ))}
        </dl>
      </section>
      <RivalsView report={report} />
    </article>
  );
}

/** Findings of the same case. Two shoppers can share a code, so a second one is a question and no mistake. */
function Before({ live, findings }: { live: Flow; findings: readonly BenchFinding[] }) {
  if (findings.length === 0) return null;
  return (
    <section class="lt-notices" aria-label={counterWords.latest}>
      <p>{counterWords.already}</p>
      <Lines live={live} findings={findings} />
    </section>
  );
}

function Latest({ live, findings }: { live: Flow; findings: readonly BenchFinding[] }) {
  return (
    <section class="lt-section">
      <h2>{counterWords.latest}</h2>
      {findings.length === 0 ? <p>{counterWords.noneYet}</p> : <Lines live={live} findings={findings} />}
    </section>
  );
}

function Lines({ live, findings }: { live: Flow; findings: readonly BenchFinding[] }) {
  return (
    <ul class="lt-lines">
      {findings.map((finding) => (
        <li class="lt-line">
          <span class="lt-line-text">{sayFinding(live, finding)}</span>
          <a
            class="lt-link lt-change"
            href={`${COUNTER}?${new URLSearchParams({ code: finding.code, corrects: finding.id })}`}
            aria-label={counterWords.correctThis(sayFinding(live, finding))}
          >
            {counterWords.correct}
          </a>
        </li>
      ))}
    </ul>
  );
}
