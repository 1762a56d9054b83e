import type { Shop } from "../../flows/edition.ts";
import { judge } from "../../flows/verdict.ts";
import { type BenchResult, benchResults } from "./bench-findings.ts";
import { counterWords } from "./counter-words.ts";
import { COUNTER } from "./desk-links.ts";
import { type FindingForm, type FormProblem, NOT_LISTED } from "./finding-form.ts";
import type { Sample } from "./open-sample.ts";

export interface BenchFormProps {
  shop: Shop;
  sample: Sample;
  /** What the form holds, checked or not. */
  form: FindingForm;
  problems: readonly FormProblem[];
  /** The finding that is being corrected, in words. */
  correcting: string | null;
}

/** Where the bench says what it sees. Everything in it works without a script. */
export function BenchForm({ shop, sample, form, problems, correcting }: BenchFormProps) {
  return (
    <form class="lt-card" method="post" action={COUNTER} aria-labelledby="bench">
      <h2 class="lt-prompt" id="bench">
        {correcting ? counterWords.correctTitle : counterWords.benchTitle}
      </h2>
      {correcting && <p>{counterWords.correcting(correcting)}</p>}
      <Problems problems={problems} />
      <input type="hidden" name="code" value={sample.code} />
      <input type="hidden" name="id" value={form.id} />
      <input type="hidden" name="corrects" value={form.corrects} />
      <Results {...{ sample, form, problems }} isCorrection={correcting !== null} />
      <Other {...{ sample, form, problems }} />
      <div class="lt-fields">
        <Branches {...{ shop, form, problems }} />
        <div class="lt-field">
          <label class="lt-label" for="day">
            {counterWords.day}
          </label>
          <input
            class="lt-input"
            id="day"
            name="day"
            type="date"
            value={form.day}
            required
            {...mark(problems, "day")}
          />
        </div>
      </div>
      <p class="lt-hint">{counterWords.nothingPersonal}</p>
      <p class="lt-actions">
        <button class="lt-button" type="submit">
          {correcting ? counterWords.recordCorrection : counterWords.record}
        </button>
      </p>
    </form>
  );
}

function Problems({ problems }: { problems: readonly FormProblem[] }) {
  if (problems.length === 0) return null;
  return (
    <div class="lt-problem" role="alert">
      <p>{counterWords.problems}</p>
      <ul>
        {problems.map(({ field, sentence }) => (
          <li id={`problem-${field}`}>{sentence}</li>
        ))}
      </ul>
    </div>
  );
}

type Field = FormProblem["field"];

/** What ties a field to its problem. */
function mark(problems: readonly FormProblem[], field: Field) {
  return problems.some((problem) => problem.field === field)
    ? { "aria-invalid": "true" as const, "aria-describedby": `problem-${field}` }
    : {};
}

type PartProps = Pick<BenchFormProps, "sample" | "form" | "problems">;

function Results({ sample, form, problems, isCorrection }: PartProps & { isCorrection: boolean }) {
  const { flow, case: kase } = sample;
  const { leader, standing } = judge(flow, kase);
  const name = leader === null ? undefined : flow.condition(leader)?.name;
  const offered = benchResults.filter(
    (result) => (result !== "confirmed" || name !== undefined) && (result !== "withdrawn" || isCorrection),
  );
  const label = (result: BenchResult) => {
    if (result !== "confirmed" || name === undefined) return counterWords.results[result];
    return standing === "undetermined" ? counterWords.confirmedClosest(name) : counterWords.confirmed(name);
  };
  return (
    <fieldset class="lt-options st-results" {...mark(problems, "result")}>
      <legend class="lt-label">{counterWords.benchAsks}</legend>
      {offered.map((result) => (
        <label class="lt-option">
          <input type="radio" name="result" value={result} checked={form.result === result} required />
          <span>{label(result)}</span>
        </label>
      ))}
    </fieldset>
  );
}

function Other({ sample: { flow }, form, problems }: PartProps) {
  const conditions = flow.edition.conditions.toSorted((a, b) => (a.name < b.name ? -1 : 1));
  return (
    <div class="lt-field">
      <label class="lt-label" for="other">
        {counterWords.whichElse}
      </label>
      <select class="lt-input" id="other" name="other" {...mark(problems, "other")}>
        <option value="">{counterWords.chooseCondition}</option>
        <option value={NOT_LISTED} selected={form.other === NOT_LISTED}>
          {counterWords.notListed}
        </option>
        {conditions.map(({ id, name }) => (
          <option value={id} selected={form.other === id}>
            {name}
          </option>
        ))}
      </select>
    </div>
  );
}

function Branches({ shop, form, problems }: Pick<BenchFormProps, "shop" | "form" | "problems">) {
  return (
    <div class="lt-field">
      <label class="lt-label" for="branch">
        {counterWords.branch}
      </label>
      <select class="lt-input" id="branch" name="branch" required {...mark(problems, "branch")}>
        {shop.branches.length > 1 && <option value="">{counterWords.chooseBranch}</option>}
        {shop.branches.map(({ id, name }) => (
          <option value={id} selected={form.branch === id}>
            {name}
          </option>
        ))}
      </select>
    </div>
  );
}
