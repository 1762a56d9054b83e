import type { Tree, TreeAnswer, TreeQuestion } from "../../../flows/editing/tree.ts";
import { treeWords } from "./tree-words.ts";

interface WordListProps {
  tree: Tree;
  /** Where a question is edited; null where it is not. */
  hrefOf: ((question: string) => string) | null;
}

/** The same as the drawing, in words: for screen readers, small screens, and whoever prefers to read. */
export function WordList({ tree, hrefOf }: WordListProps) {
  const prompts = new Map(tree.questions.map(({ id, prompt }) => [id, prompt]));
  return (
    <section class="lt-section">
      <h3>{treeWords.words}</h3>
      <ol class="ed-words">
        {tree.questions.map((question) => (
          <li
            id={`q-${question.id}`}
            tabindex={-1}
            class={question.neverAsked ? "ed-words-never" : undefined}
          >
            <p class="ed-words-prompt">
              {hrefOf ? (
                <a class="lt-link" href={hrefOf(question.id)}>
                  {question.prompt}
                </a>
              ) : (
                question.prompt
              )}{" "}
              <span class="ed-faint">{question.id}</span>
            </p>
            <p>
              {question.neverAsked && (
                <strong>{`✕ ${treeWords.neverAsked}: ${treeWords.faults[question.neverAsked]}. `}</strong>
              )}
              {sayWhen(question, tree.opening)}
            </p>
            <AnswerList answers={question.answers} prompts={prompts} />
          </li>
        ))}
      </ol>
    </section>
  );
}

function AnswerList({
  answers,
  prompts,
}: {
  answers: readonly TreeAnswer[];
  prompts: ReadonlyMap<string, string>;
}) {
  const leading = answers.filter(({ leadsTo }) => leadsTo.length > 0);
  const dead = answers.filter(({ isDeadEnd }) => isDeadEnd);
  if (leading.length + dead.length === 0) return null;
  return (
    <ul>
      {leading.map(({ label, leadsTo }) => (
        <li>
          {`${label}: leads to `}
          {leadsTo.map((id, i) => (
            <>
              {i > 0 && ", "}
              <a href={`#q-${id}`}>{prompts.get(id) ?? id}</a>
            </>
          ))}
        </li>
      ))}
      {dead.map(({ label }) => (
        <li>
          <strong>{`⊣ ${treeWords.deadEnd}: `}</strong>
          {`${label}. No condition listens, and no question follows.`}
        </li>
      ))}
    </ul>
  );
}

function sayWhen({ id, kind, when: { any, none } }: TreeQuestion, opening: string): string {
  if (id === opening) return "Always asked first.";
  if (kind === "host") return "Asked next, unless the plant was named already.";
  if (kind === "fact") return "Asked when a step of the plan depends on it.";
  if (kind === "look") return "Asked when a case is opened again.";
  const asked =
    any.length === 0
      ? "Asked whenever it can still matter"
      : `Asked when one of these was told: ${any.join("; ")}`;
  return `${asked}.${none.length === 0 ? "" : ` Not asked after: ${none.join("; ")}.`}`;
}
