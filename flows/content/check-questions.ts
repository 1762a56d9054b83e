import { facts, methods } from "../edition.ts";
import { lookQuestionIds } from "../flow.ts";
import { lookWords } from "../second-look.ts";
import { type Closure, followImplies } from "./check-findings.ts";
import type { Content, QuestionEntry } from "./content.ts";
import { makeProblem, type Problem } from "./problems.ts";

export function checkQuestions(content: Content): Problem[] {
  const follow = followImplies(content.findings.entries.map(({ value }) => value));
  return [
    ...content.questions.entries.flatMap((entry) => checkQuestion(entry, follow)),
    ...checkHostQuestionExists(content),
    ...checkFactsAsked(content),
    ...checkLooksWhole(content),
    ...checkOrder(content),
  ];
}

function checkQuestion(entry: QuestionEntry, follow: Closure): Problem[] {
  switch (entry.value.kind) {
    case "finding":
      return checkFindingQuestion(entry, follow);
    case "host":
      return checkHostQuestion(entry);
    case "fact":
      return checkFactQuestion(entry);
    case "look":
      return checkLookQuestion(entry);
  }
}

function checkFindingQuestion({ value, at }: QuestionEntry, follow: Closure): Problem[] {
  if (value.options.length === 0) {
    return [makeProblem("OPTIONS_MISSING", at(["options"]), `The question “${value.id}” has no answers.`)];
  }
  const firstNone = value.options.findIndex((option) => option.none);
  return value.options.flatMap((option, index) => {
    const problems: Problem[] = [];
    if (Object.keys(option.facts).length > 0) {
      const sentence = `“${option.id}” states a fact about the household in a question about findings.`;
      problems.push(makeProblem("FACT_QUESTION", at(["options", index, "facts"]), sentence));
    }
    if (option.none && (option.present.length > 0 || index !== firstNone)) {
      const sentence =
        index === firstNone
          ? `“${option.id}” is “none of these”, yet establishes something.`
          : `“${option.id}” is a second “none of these”.`;
      problems.push(makeProblem("OPTION_NONE", at(["options", index]), sentence));
    }
    const established = new Set(option.present.flatMap((id) => [...follow(id)]));
    option.absent.forEach((id, position) => {
      if (!established.has(id)) return;
      const place = at(["options", index, "absent", position]);
      problems.push(
        makeProblem("OPTION_CONTRADICTION", place, `“${option.id}” both establishes and excludes “${id}”.`),
      );
    });
    return problems;
  });
}

function checkHostQuestion({ value, at }: QuestionEntry): Problem[] {
  if (value.id !== "host")
    return [makeProblem("HOST_QUESTION", at(["id"]), `The host question has the id “${value.id}”.`)];
  if (value.options.length === 0) return [];
  return [
    makeProblem(
      "HOST_QUESTION",
      at(["options"]),
      "The host question has options; it is answered with a plant.",
    ),
  ];
}

/** Its answers must speak of the same facts, or one of them would leave a fact open without saying so. */
function checkFactQuestion({ value, at }: QuestionEntry): Problem[] {
  if (value.options.length === 0) {
    return [makeProblem("OPTIONS_MISSING", at(["options"]), `The question “${value.id}” has no answers.`)];
  }
  const asked = facts.filter((fact) => value.options.some((option) => option.facts[fact] !== undefined));
  return value.options.flatMap((option, index) => {
    const place = at(["options", index]);
    if (option.none || option.present.length + option.absent.length > 0) {
      return [
        makeProblem(
          "FACT_QUESTION",
          place,
          `“${option.id}” is about the household and cannot speak of findings.`,
        ),
      ];
    }
    const open =
      asked.length === 0 ? facts.slice(0, 1) : asked.filter((fact) => option.facts[fact] === undefined);
    if (open.length === 0) return [];
    return [
      makeProblem("FACT_QUESTION", place, `“${option.id}” does not say yes or no to: ${open.join(", ")}.`),
    ];
  });
}

const lookOptions: Record<string, readonly string[]> = {
  [lookQuestionIds.again]: lookWords,
  [lookQuestionIds.tried]: methods,
};

/** The rules of the second look know these questions, and the answers to two of them, by their ids. */
function checkLookQuestion({ value, at }: QuestionEntry): Problem[] {
  const ids: string[] = Object.values(lookQuestionIds);
  const found = value.options.map(({ id }) => id);
  const wanted = lookOptions[value.id];
  if (!ids.includes(value.id)) {
    return [makeProblem("LOOK_QUESTION", at(["id"]), `The second look has no question “${value.id}”.`)];
  }
  if (wanted && (found.length !== wanted.length || wanted.some((id) => !found.includes(id)))) {
    const sentence = `The answers of “${value.id}” must be: ${wanted.join(", ")}.`;
    return [makeProblem("LOOK_QUESTION", at(["options"]), sentence)];
  }
  if (!wanted && value.options.filter(({ none }) => none).length !== 1) {
    const sentence = `“${value.id}” needs one answer with none: true, for all done as it should be.`;
    return [makeProblem("LOOK_QUESTION", at(["options"]), sentence)];
  }
  return value.options.flatMap(({ id, present, absent, facts: said }, index) =>
    present.length + absent.length + Object.keys(said).length === 0
      ? []
      : [
          makeProblem(
            "LOOK_QUESTION",
            at(["options", index]),
            `“${id}” is about the treatment and cannot speak of findings or the household.`,
          ),
        ],
  );
}

/** All of the second look, or none of it. */
function checkLooksWhole({ questions }: Content): Problem[] {
  const ids = Object.values(lookQuestionIds);
  const missing = ids.filter((id) => !questions.ids.has(id));
  if (missing.length === ids.length || !questions.whole) return [];
  return missing.map((id) =>
    makeProblem(
      "LOOK_QUESTION",
      { file: `questions/${id}.md`, line: 1, column: 1 },
      `The second look lacks its question “${id}”.`,
    ),
  );
}

/** The engine asks for the plant by this id. */
function checkHostQuestionExists({ questions }: Content): Problem[] {
  if (questions.ids.has("host")) {
    return questions.entries.flatMap(({ value, at }) =>
      value.id === "host" && value.kind !== "host"
        ? [makeProblem("HOST_QUESTION", at(["id"]), "The question “host” is not of kind host.")]
        : [],
    );
  }
  return [
    makeProblem(
      "HOST_QUESTION",
      { file: "questions/host.md", line: 1, column: 1 },
      "There is no question “host”.",
    ),
  ];
}

/** A fact that nobody can state would stay unknown, and so dangerous, for ever. */
function checkFactsAsked({ questions }: Content): Problem[] {
  if (!questions.whole) return [];
  const options = questions.entries.flatMap(({ value }) => (value.kind === "fact" ? value.options : []));
  return facts.flatMap((fact) => {
    const missing = (["yes", "no"] as const).filter(
      (is) => !options.some((option) => option.facts[fact] === is),
    );
    if (missing.length === 0) return [];
    const place = { file: `questions/${fact}.md`, line: 1, column: 1 };
    return [
      makeProblem("FACT_QUESTION", place, `No answer says ${missing.join(" or ")} to the fact “${fact}”.`),
    ];
  });
}

function checkOrder({ questions, conversation }: Content): Problem[] {
  if (conversation === null) return [];
  const { opening, order, when_unsure: whenUnsure } = conversation.value;
  const { at } = conversation;
  const twice = order.flatMap((id, index) =>
    id === opening || order.indexOf(id) < index
      ? [makeProblem("ORDER_TWICE", at(["order", index]), `The question “${id}” comes earlier already.`)]
      : [],
  );
  const kinds = new Map(questions.entries.map(({ value }) => [value.id, value.kind]));
  const named = [
    { id: opening, place: at(["opening"]) },
    ...order.map((id, index) => ({ id, place: at(["order", index]) })),
    ...whenUnsure.map((id, index) => ({ id, place: at(["when_unsure", index]) })),
  ];
  const wrongKind = named.flatMap(({ id, place }) =>
    (kinds.get(id) ?? "finding") === "finding"
      ? []
      : [makeProblem("ORDER_KIND", place, `“${id}” does not ask for findings.`)],
  );
  const incomplete = questions.entries.flatMap(({ value, at: within }) =>
    value.kind !== "finding" || value.id === opening || order.includes(value.id)
      ? []
      : [makeProblem("ORDER_INCOMPLETE", within(["id"]), `The question “${value.id}” is not in the order.`)],
  );
  return [...twice, ...wrongKind, ...incomplete];
}
