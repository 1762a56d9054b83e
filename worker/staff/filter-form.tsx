import type { Shop } from "../../flows/edition.ts";
import { counterWords } from "./counter-words.ts";
import { FIGURES } from "./desk-links.ts";
import { type FilterField, type FilterRead, writeFilter } from "./figures-filter.ts";
import { figuresWords } from "./figures-words.ts";

interface FilterFormProps {
  shop: Shop;
  read: FilterRead;
}

/** Which branch and which days the figures and their files are about. */
export function FilterForm({ shop, read: { filter, typed, problems } }: FilterFormProps) {
  return (
    <form class="lt-card st-filter" method="get" action={FIGURES} aria-label={figuresWords.filter}>
      {problems.length > 0 && (
        <div class="lt-problem" role="alert">
          <ul>
            {problems.map(({ field, sentence }) => (
              <li id={`problem-${field}`}>{sentence}</li>
            ))}
          </ul>
        </div>
      )}
      <div class="st-fields">
        <div class="lt-field">
          <label class="lt-label" for="branch">
            {counterWords.branch}
          </label>
          <select class="lt-input" id="branch" name="branch" {...mark(problems, "branch")}>
            <option value="">{figuresWords.allBranches}</option>
            {shop.branches.map(({ id, name }) => (
              <option value={id} selected={filter.branch === id}>
                {name}
              </option>
            ))}
          </select>
        </div>
        <Day field="from" label={figuresWords.fromDay} {...{ typed, problems }} />
        <Day field="to" label={figuresWords.toDay} {...{ typed, problems }} />
        <p class="lt-actions">
          <button class="lt-button" type="submit">
            {figuresWords.show}
          </button>
          {writeFilter(filter) !== "" && (
            <a class="lt-link" href={FIGURES}>
              {figuresWords.showAll}
            </a>
          )}
        </p>
      </div>
    </form>
  );
}

interface DayProps extends Pick<FilterRead, "typed" | "problems"> {
  field: "from" | "to";
  label: string;
}

/** A day that is none goes into a plain field: a field for days would not show it, so that it could not be mended. */
function Day({ field, label, typed, problems }: DayProps) {
  const isBad = problems.some((problem) => problem.field === field);
  return (
    <div class="lt-field">
      <label class="lt-label" for={field}>
        {label}
      </label>
      <input
        class="lt-input"
        id={field}
        name={field}
        type={isBad ? "text" : "date"}
        value={typed[field]}
        {...mark(problems, field)}
      />
    </div>
  );
}

/** What ties a field to its problem. */
function mark(problems: FilterRead["problems"], field: FilterField) {
  return problems.some((problem) => problem.field === field)
    ? { "aria-invalid": "true" as const, "aria-describedby": `problem-${field}` }
    : {};
}
