/** What is wrong with a draft, each with the way to its field. */
import type { Files } from "../../flows/content/read-files.ts";
import { readField } from "../../flows/editing/field.ts";
import type { FieldProblem } from "../../flows/editing/place-problem.ts";
import { hrefTo, hrefToFile } from "./draft-frame.tsx";
import { evidenceName } from "./entry-changes.ts";
import { idOf, listFields } from "./entry-fields.ts";
import type { FormKind } from "./form-kinds.ts";

const MOST = 300;

interface ProblemListProps {
  draft: string;
  files: Files;
  problems: readonly FieldProblem[];
}

/** Every problem of the content. */
export function ProblemList({ draft, files, problems }: ProblemListProps) {
  if (problems.length === 0) return null;
  return (
    <section id="problems">
      <h2 class="lt-prompt">
        {problems.length === 1 ? "One thing is wrong in it" : `${problems.length} things are wrong in it`}
      </h2>
      <ul class="ed-list">
        {problems.slice(0, MOST).map((problem) => (
          <li>
            <OneProblem {...{ draft, files, problem }} />
          </li>
        ))}
      </ul>
      {problems.length > MOST && <p class="ed-faint">{`${problems.length - MOST} more come after these.`}</p>}
    </section>
  );
}

function OneProblem({ draft, files, problem }: { draft: string; files: Files; problem: FieldProblem }) {
  const { code, file, line, column, sentence, hint } = problem;
  const field = findFormField(files, problem);
  return (
    <>
      <p>{sentence}</p>
      <p class="ed-faint">{hint}</p>
      <p class="ed-row">
        {field && (
          <a class="lt-link" href={hrefToField(draft, field)}>
            {`Go to the field: ${field.label}`}
          </a>
        )}
        <a class="lt-link" href={`${hrefToFile(draft, file)}&line=${line}#text`}>
          {`${file}, line ${line}, column ${column} (${code})`}
        </a>
      </p>
    </>
  );
}

interface FormField {
  kind: FormKind;
  id: string;
  label: string;
  /** Of its element in the form. */
  anchor: string;
}

function hrefToField(draft: string, { kind, id, anchor }: FormField): string {
  return `${hrefTo(draft, "entry")}?kind=${kind}&id=${encodeURIComponent(id)}#${anchor}`;
}

const folders: Record<string, FormKind> = {
  conditions: "condition",
  questions: "question",
  remedies: "remedy",
};
const lists: Record<string, FormKind> = {
  "findings.yaml": "finding",
  "hosts.yaml": "host",
  "sources.yaml": "source",
  "products.yaml": "product",
  "drawings.yaml": "drawing",
};

/** The field of a form at which a problem shows; null when only the file has it. */
export function findFormField(files: Files, { file, path }: FieldProblem): FormField | null {
  const [, folder = "", name] = /^([a-z]+)\/([a-z0-9-]+)\.md$/.exec(file) ?? [];
  const inFolder = folders[folder];
  if (inFolder && name) return findInEntry(files, file, inFolder, name, [], path);
  const inList = lists[file];
  const [id, ...rest] = path;
  return inList && typeof id === "string" ? findInEntry(files, file, inList, id, [id], rest) : null;
}

function findInEntry(
  files: Files,
  file: string,
  kind: FormKind,
  id: string,
  base: FieldProblem["path"],
  path: FieldProblem["path"],
): FormField | null {
  if (path[0] === "evidence") {
    const finding = readField(files, { file, path: [...base, ...path] });
    const anchor = typeof finding === "string" ? idOf(evidenceName(finding)) : "f-evidence";
    return { kind, id, label: "what the findings say about it", anchor };
  }
  const fields = listFields(files, kind, id, { file, path: base });
  const holds = fields.filter((spec) => spec.path.every((step, i) => step === path[i]));
  const [best] = holds.sort((a, b) => b.path.length - a.path.length);
  return best ? { kind, id, label: best.label, anchor: idOf(best.path.join(".")) } : null;
}
