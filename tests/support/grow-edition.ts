import type { Edition } from "../../flows/edition.ts";

/**
 * An edition so many times as large: every finding, condition, remedy and question about the plant stands in it again, under
 * ids of its own, and the opening has an answer that leads into each copy. Host plants and household stay as they are.
 */
export function growEdition(edition: Edition, times: number): Edition {
  const { opening } = edition.conversation;
  const own = edition.questions.filter(({ kind, id }) => kind === "finding" && id !== opening);
  const renamed = new Set(
    [edition.findings, edition.conditions, edition.remedies, own].flatMap((entries) =>
      entries.map(({ id }) => id),
    ),
  );
  const copies = Array.from(
    { length: times },
    (_, n) =>
      <T>(value: T) =>
        n === 0 ? value : rename(value, renamed, n),
  );
  const grow = <T>(values: readonly T[]): T[] => copies.flatMap((copy) => values.map(copy));
  return {
    ...edition,
    findings: grow(edition.findings),
    conditions: grow(edition.conditions),
    remedies: grow(edition.remedies),
    questions: [
      ...edition.questions
        .filter((question) => !own.includes(question))
        .map((question) =>
          question.id === opening
            ? {
                ...question,
                options: copies.flatMap((copy, n) =>
                  question.options.map((option) => ({
                    ...copy(option),
                    id: n === 0 ? option.id : `${option.id}-${n}`,
                  })),
                ),
              }
            : question,
        ),
      ...grow(own),
    ],
    conversation: {
      ...edition.conversation,
      order: copies.flatMap((copy, n) =>
        edition.conversation.order.filter((id) => n === 0 || renamed.has(id)).map(copy),
      ),
      whenUnsure: grow(edition.conversation.whenUnsure).filter((id, at, all) => all.indexOf(id) === at),
    },
    ...(edition.lexicon && {
      lexicon: {
        ...edition.lexicon,
        findings: grow(edition.lexicon.findings),
        theories: grow(edition.lexicon.theories),
      },
    }),
  };
}

/** The same value with a number behind every text that is one of the ids. */
function rename<T>(value: T, ids: ReadonlySet<string>, n: number): T {
  return JSON.parse(JSON.stringify(value), (_key, part: unknown) =>
    typeof part === "string" && ids.has(part) ? `${part}-copy-${n}` : part,
  ) as T;
}
