import type { Child } from "hono/jsx";
import type { Problem } from "../../flows/content/problems.ts";
import type { Files } from "../../flows/content/read-files.ts";
import { readField } from "../../flows/editing/field.ts";
import { toText } from "../../flows/editing/field-text.ts";
import { evidenceWords } from "../../flows/evidence-table.ts";
import { hrefTo } from "./draft-frame.tsx";
import { type Clash, evidenceName, nameOf, type Texts } from "./entry-changes.ts";
import { type FieldSpec, idOf } from "./entry-fields.ts";
import { type FormKind, isEntryForm, type Row } from "./form-kinds.ts";

export function EntryProblems({ problems }: { problems: readonly Problem[] }) {
  return (
    <>
      {problems.slice(0, 50).map(({ sentence, hint, line }) => (
        <div class="ed-problem" data-problems-of="the saved draft">
          <p>{sentence}</p>
          <p class="ed-faint">{`${hint} (line ${line})`}</p>
        </div>
      ))}
    </>
  );
}

/** Both versions of a field, side by side. The script makes the same for fields that are saved while typing. */
export function ClashView({ clash: { label, mine, theirs } }: { clash: Clash }) {
  return (
    <section class="lt-notices">
      <p>{`${label}: someone else changed this meanwhile. Yours stands in the form below; press Save to put it over theirs.`}</p>
      <div class="ed-both">
        <Version label="Yours" text={mine} />
        <Version label="Theirs" text={theirs} />
      </div>
    </section>
  );
}

function Version({ label, text }: { label: string; text: string }) {
  return (
    <div>
      <p class="lt-label">{label}</p>
      <pre class="ed-pre" tabindex={0}>
        {text}
      </pre>
    </div>
  );
}

interface FieldProps {
  spec: FieldSpec;
  text: string;
  isOpen: boolean;
  /** How a shopper reads it, for prose. */
  preview: Child;
}

export function Field({ spec, text, isOpen, preview }: FieldProps) {
  const name = nameOf(spec);
  const id = idOf(name);
  if (spec.as === "choice" || spec.as === "yes") {
    const words = spec.as === "yes" ? ["yes", "no"] : (spec.words ?? []);
    return (
      <fieldset class="ed-field" id={id}>
        <legend class="lt-label">{spec.label}</legend>
        <div class="ed-choice">
          {words.map((word) => (
            <label>
              <input type="radio" name={name} value={word} checked={text === word} disabled={!isOpen} />
              <span>{sayWord(word)}</span>
            </label>
          ))}
        </div>
      </fieldset>
    );
  }
  const label = (
    <label class="lt-label" for={id}>
      {spec.as === "lines" ? `${spec.label}, one on each line` : spec.label}
    </label>
  );
  if (spec.as === "prose") {
    return (
      <div class="ed-field ed-prose">
        <div>
          {label}
          <Area {...{ id, name, text, isOpen }} />
        </div>
        {preview}
      </div>
    );
  }
  return (
    <div class="ed-field">
      {label}
      {spec.as === "lines" ? (
        <Area {...{ id, name, text, isOpen }} />
      ) : (
        <input
          class="lt-input ed-wide"
          id={id}
          name={name}
          value={text}
          readonly={!isOpen}
          inputmode={spec.as === "number" ? "numeric" : undefined}
        />
      )}
    </div>
  );
}

function Area({ id, name, text, isOpen }: { id: string; name: string; text: string; isOpen: boolean }) {
  return (
    <textarea class="ed-area ed-area-short" id={id} name={name} readonly={!isOpen}>
      {`\n${text}`}
    </textarea>
  );
}

/** A value of the files as people say it. */
function sayWord(word: string): string {
  return word.replaceAll("-", " ");
}

interface EvidenceProps {
  findings: readonly Row[];
  texts: Texts;
  isOpen: boolean;
}

/** Every finding, with what it says about the condition. Those that say something come first. */
export function EvidenceTable({ findings, texts, isOpen }: EvidenceProps) {
  const says = ({ id }: Row) => (texts[evidenceName(id)] ?? "") !== "";
  return (
    <>
      <h2 class="lt-prompt ed-field" id="f-evidence">
        What the findings say about it
      </h2>
      <EvidenceRows
        rows={findings.filter(says)}
        {...{ texts, isOpen }}
        caption="Findings that say something"
      />
      <details class="lt-aside">
        <summary>Findings that say nothing so far</summary>
        <EvidenceRows
          rows={findings.filter((row) => !says(row))}
          {...{ texts, isOpen }}
          caption="Findings that say nothing so far"
        />
      </details>
    </>
  );
}

type RowsProps = Omit<EvidenceProps, "findings"> & { rows: readonly Row[]; caption: string };

function EvidenceRows({ rows, texts, caption, isOpen }: RowsProps) {
  return (
    <section class="ed-scroll" tabindex={0} aria-label={caption}>
      <table class="ed-table ed-evidence">
        <thead>
          <tr>
            <th scope="col">Finding</th>
            {[...evidenceWords, "nothing"].map((word) => (
              <th scope="col">{word}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ id, name }) => (
            <tr id={idOf(evidenceName(id))}>
              <th scope="row">{name || id}</th>
              {[...evidenceWords, ""].map((word) => (
                <td>
                  <label class="ed-radio">
                    <input
                      type="radio"
                      name={evidenceName(id)}
                      value={word}
                      checked={(texts[evidenceName(id)] ?? "") === word}
                      disabled={!isOpen}
                    />
                    <span class="ed-hidden-label">{`${name || id}: `}</span>
                    <span class="ed-radio-word">{word || "nothing"}</span>
                  </label>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** The sources that carry the claims of an entry, with the way to each. */
export function SourceList({
  draft,
  files,
  cited,
}: {
  draft: string;
  files: Files;
  cited: readonly string[];
}) {
  const items = readField(files, { file: "sources.yaml", path: [] });
  const known = new Map(
    (Array.isArray(items) ? (items as Record<string, unknown>[]) : []).map((one) => [toText(one?.id), one]),
  );
  if (cited.length === 0) return null;
  return (
    <section aria-label="Sources">
      <h2 class="lt-prompt">Sources</h2>
      <ul class="ed-sources">
        {cited.map((id) => {
          const source = known.get(id);
          return (
            <li>
              <a class="lt-link" href={`${hrefTo(draft, "entry")}?kind=source&id=${encodeURIComponent(id)}`}>
                {id}
              </a>{" "}
              {source === undefined
                ? "is not among the sources."
                : `${toText(source.publisher)}, ${toText(source.title)}${source.date === undefined ? "" : `, ${toText(source.date)}`} (tier ${toText(source.tier)})`}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

export function RetireForm({ draft, kind, id }: { draft: string; kind: FormKind; id: string }) {
  const name = isEntryForm(kind) ? "Retire it" : "Take it out";
  return (
    <details class="lt-aside">
      <summary>{name}</summary>
      <form method="post" action={hrefTo(draft, "retire")}>
        <input type="hidden" name="kind" value={kind} />
        <input type="hidden" name="id" value={id} />
        <p class="lt-hint">
          {isEntryForm(kind)
            ? "It goes out, with every place that names it. Its id is noted and never used again."
            : "It goes out of the draft. What was published with it stays as it was."}
        </p>
        <label class="lt-label" for="retire-why">
          Why?
        </label>
        <input class="lt-input" id="retire-why" name="why" required maxlength={500} />
        <p class="lt-actions">
          <button class="lt-button lt-button-plain" type="submit">
            {name}
          </button>
        </p>
      </form>
    </details>
  );
}
