import type { CasePath } from "../../../flows/editing/case-path.ts";
import type { Tree } from "../../../flows/editing/tree.ts";
import { NOT_SURE } from "../../../flows/flow.ts";

interface PathListProps {
  path: CasePath;
  tree: Tree;
  problems: readonly string[];
}

/** The path of a case in words. */
export function PathList({ path: { steps, told, open, end }, tree, problems }: PathListProps) {
  const questions = new Map(tree.questions.map((question) => [question.id, question]));
  const say = (to: string, is: string) => {
    const answer = questions.get(to)?.answers.find(({ id }) => id === is);
    return answer?.label ?? (is === NOT_SURE ? "not sure" : is);
  };
  return (
    <section id="path" class="lt-section" tabindex={-1}>
      <h3>The path that is lit up</h3>
      {problems.length > 0 && (
        <ul>
          {problems.map((sentence) => (
            <li>{sentence}</li>
          ))}
        </ul>
      )}
      <ol>
        {steps.map(({ to, is }) => (
          <li>{`${questions.get(to)?.prompt ?? to} ${say(to, is)}`}</li>
        ))}
        {open !== null && <li>{`${questions.get(open)?.prompt ?? open} (open)`}</li>}
      </ol>
      {told.length > 0 && (
        <p>{`Told, but not asked for: ${told.map(({ to, is }) => `${questions.get(to)?.prompt ?? to} ${say(to, is)}`).join("; ")}.`}</p>
      )}
      {end !== null && <p>{`It ends ${end.standing}${end.leader === null ? "" : `: ${end.leader}`}.`}</p>}
    </section>
  );
}
