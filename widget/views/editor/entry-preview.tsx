import type { Block, Question } from "../../../flows/edition.ts";
import { Prose } from "../prose.tsx";
import { QuestionCard } from "../question-card.tsx";
import type { Ways } from "../ways.ts";

/** A piece of prose as a shopper reads it. */
export function ProsePreview({ of }: { of: readonly Block[] }) {
  return of.length === 0 ? <p class="lt-hint">Nothing to read yet.</p> : <Prose of={of} />;
}

export interface QuestionTexts {
  prompt: string;
  why: string;
  options: readonly { id: string; label: string }[];
  howToCheck: readonly Block[];
}

/** A question as the check asks it. Nothing can be pressed in it. */
export function QuestionPreview({ prompt, why, options, howToCheck }: QuestionTexts) {
  const question: Question = {
    ...{
      id: "preview",
      kind: "finding",
      prompt,
      why,
      howToCheck: [...howToCheck],
      askWhen: { any: [], none: [] },
    },
    options: options.map((option) => ({ ...option, present: [], absent: [], none: false, facts: {} })),
  };
  return (
    <fieldset disabled class="lt-fieldset">
      <legend class="ed-hidden-label">A question to look at</legend>
      <QuestionCard question={question} ways={stillWays} number={1} />
    </fieldset>
  );
}

const stillWays: Ways = {
  id: (name) => `preview-${name}`,
  action: "#",
  carried: [],
  actionAt: () => "",
  hrefToChange: () => "",
  hrefToKeep: "",
  hrefToStart: "",
  hrefBack: null,
  hrefToLook: "",
  hrefToCalendar: "",
  hrefToSay: "",
  hrefToSlip: "",
  hrefToPrint: null,
};
