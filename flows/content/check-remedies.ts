import type { Content, RemedyEntry } from "./content.ts";
import { makeProblem, type Problem } from "./problems.ts";

/** Sources that own up to having none. */
const pseudoSources = ["common-practice", "from-memory"];

export function checkRemedies(content: Content): Problem[] {
  return [...content.remedies.entries.flatMap(checkRemedy), ...checkFirstAid(content)];
}

export function checkSources({ sources }: Content): Problem[] {
  return sources.entries.flatMap(({ value, at }) =>
    value.tier === "none" && !pseudoSources.includes(value.id)
      ? [makeProblem("SOURCE_TIER", at(["tier"]), `The source “${value.id}” is of tier none.`)]
      : [],
  );
}

function checkRemedy({ value, at }: RemedyEntry): Problem[] {
  const keptOffFood = value.never_when.includes("eaten");
  const problems: Problem[] = [];
  if (value.toxicity === 3 && !(keptOffFood && value.never_when.includes("flowering-or-outdoors"))) {
    const sentence = `The systemic “${value.id}” is not kept from plants that are eaten, in flower or outdoors.`;
    problems.push(makeProblem("SYSTEMIC_UNGUARDED", at(["toxicity"]), sentence));
  } else if (value.product && !value.for_food_plants && !keptOffFood) {
    const sentence = `The product “${value.id}” is not for food plants, yet not kept from them.`;
    problems.push(makeProblem("PRODUCT_ON_FOOD", at(["for_food_plants"]), sentence));
  }
  return problems;
}

function checkFirstAid({ conversation, remedies }: Content): Problem[] {
  const chemicals = new Set(
    remedies.entries.filter(({ value }) => value.method === "chemical").map(({ value }) => value.id),
  );
  return (conversation?.value.first_aid ?? []).flatMap((id, index) =>
    chemicals.has(id) && conversation
      ? [
          makeProblem(
            "FIRST_AID_CHEMICAL",
            conversation.at(["first_aid", index]),
            `“${id}” is a chemical remedy.`,
          ),
        ]
      : [],
  );
}
