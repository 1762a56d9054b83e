import { regionsIn } from "../pictures.ts";
import type { Content, Entry, QuestionEntry } from "./content.ts";
import { makeProblem, type Place, type Problem } from "./problems.ts";
import type { DrawingItem } from "./schemas.ts";

export function checkDrawings(content: Content): Problem[] {
  return [
    ...checkFilesListed(content),
    ...checkClaims(content.drawings.entries),
    ...checkAnswers(content),
    ...content.questions.entries.flatMap((entry) => checkPress(entry, content)),
  ];
}

/** Every file has its words, and every entry its file. */
function checkFilesListed({ drawings, pictures }: Content): Problem[] {
  const missing = drawings.entries
    .filter(({ value }) => !pictures.has(value.id))
    .map(({ value, at }) =>
      makeProblem("DRAWING_MISSING", at(["id"]), `There is no file drawings/${value.id}.svg.`),
    );
  const unlisted = [...pictures.keys()]
    .filter((id) => !drawings.ids.has(id))
    .map((id) =>
      makeProblem(
        "DRAWING_UNKNOWN",
        { file: `drawings/${id}.svg`, line: 1, column: 1 },
        `“${id}” is not listed in drawings.yaml.`,
      ),
    );
  return [...missing, ...unlisted];
}

/** Each thing has one drawing at most, so that it looks the same wherever it is shown. */
function checkClaims(entries: readonly Entry<DrawingItem>[]): Problem[] {
  const claims = entries.flatMap(({ value, at }) => [
    ...(["findings", "checks", "conditions"] as const).flatMap((list) =>
      [...new Set(value[list])].map((id) => ({
        what: `${list} ${id}`,
        place: at([list, value[list].indexOf(id)]),
      })),
    ),
    ...value.answers.map(({ to, is }, index) => ({
      what: `answers ${to} ${is}`,
      place: at(["answers", index]),
    })),
  ]);
  const owned = new Set<string>();
  return claims.flatMap(({ what, place }) => {
    const isNew = !owned.has(what);
    owned.add(what);
    return isNew ? [] : [makeProblem("DRAWING_TWICE", place, `Another drawing has ${what} already.`)];
  });
}

function checkAnswers({ drawings, questions }: Content): Problem[] {
  return drawings.entries.flatMap(({ value, at }) =>
    value.answers.flatMap(({ to, is }, index) => {
      const question = questions.entries.find((entry) => entry.value.id === to)?.value;
      if (question === undefined || question.options.some(({ id }) => id === is)) return [];
      return [makeProblem("WORD_UNKNOWN", at(["answers", index, "is"]), `“${to}” has no answer “${is}”.`)];
    }),
  );
}

/** Answers and regions of a picture that can be pressed: each region leads to one answer. */
function checkPress({ value, at }: QuestionEntry, { drawings, pictures }: Content): Problem[] {
  const regions = value.options.flatMap(({ region }, index) =>
    region === undefined ? [] : [{ region, place: at(["options", index, "region"]) }],
  );
  const complain = (place: Place, sentence: string) => makeProblem("DRAWING_REGION", place, sentence);
  if (value.picture === undefined)
    return regions.map(({ place }) => complain(place, `“${value.id}” has no picture to press.`));
  if (!drawings.ids.has(value.picture))
    return [makeProblem("DRAWING_UNKNOWN", at(["picture"]), `There is no drawing “${value.picture}”.`)];
  const parts = pictures.get(value.picture);
  if (!parts) return [];
  const there = regionsIn(parts);
  const named = regions.map(({ region }) => region);
  return [
    ...regions
      .filter(({ region }, index) => !there.includes(region) || named.indexOf(region) < index)
      .map(({ region, place }) =>
        complain(place, `“${region}” is no region of “${value.picture}”, or an answer has it already.`),
      ),
    ...(regions.length > 0 ? [] : [complain(at(["picture"]), `No answer of “${value.id}” has a region.`)]),
  ];
}
