import { describe, expect, it } from "vitest";
import type { Lexicon } from "../../../flows/edition.ts";
import { understand } from "../../../flows/understand/understand.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

const flow = shippedFlow();
const lexicon = flow.edition.lexicon as Lexicon;

/** Every sentence that the first few words of each element of a way make. */
function sayWay(way: string): string[] {
  return way.split(" ").reduce<string[]>(
    (said, element) => {
      const words = element.split("|").flatMap((choice) => {
        const set = /^\{(.*)\}$/.exec(choice)?.[1];
        return set === undefined ? [choice] : (lexicon.words[set] ?? []).slice(0, 2);
      });
      const some = words.slice(0, 3).map((word) => word.replace(/^=/, "").replaceAll(/_=?/g, " "));
      return said.flatMap((start) => some.map((word) => `${start} ${word}`.trim())).slice(0, 6);
    },
    [""],
  );
}

const denials: ((said: string) => string)[] = [
  (said) => `no ${said}`,
  (said) => `without ${said}`,
  (said) => `There isn't any ${said}.`,
  (said) => `I don't see any ${said}`,
  (said) => `${said}? none`,
  (said) => `${said}: none`,
  (said) => `My basil has no ${said}, no holes and no dust`,
  (said) => `never had any ${said}`,
  (said) => `I can't find any ${said} anywhere`,
];

/** A denial before "not grow", or before "only", denies something else than the words after it. */
const turning = [...lexicon.turns.deny, ...lexicon.turns.turn].map((word) => word.replaceAll("_", " "));
const turns = (said: string) => turning.some((word) => ` ${said} `.includes(` ${word} `));

// Where denying the words tells the finding ("no drain hole"), a denial is no denial of it.
const plain = lexicon.findings.filter(({ whenDenied }) => whenDenied.length === 0);

describe("a denied finding is never read as present", () => {
  it.each(plain.map((finding) => [finding.id, finding] as const))("%s", (id, { ways }) => {
    const said = ways
      .filter((way) => !turns(way.replaceAll("|", " ")))
      .flatMap(sayWay)
      .filter((words) => !turns(words));
    const wrong = said
      .flatMap((words) => denials.map((deny) => deny(words)))
      .filter((sentence) => understand(flow, sentence).present.some((heard) => heard.id === id));
    expect(wrong.slice(0, 5)).toEqual([]);
  });

  it("and is read as present when it is told", () => {
    const unheard = plain.filter(
      ({ id, ways }) =>
        !ways.flatMap(sayWay).some((words) => {
          const { present } = understand(flow, `My plant has ${words}.`);
          const at = flow.findings.index.get(id) ?? -1;
          return present.some(
            (heard) => heard.id === id || flow.findings.vaguer[flow.findings.at(heard.id)]?.includes(at),
          );
        }),
    );
    expect(unheard.map(({ id }) => id)).toEqual([]);
  });

  it.each([
    ["no bugs", "no-insects-seen"],
    ["I can't find a single insect", "no-insects-seen"],
    ["the pot has no drainage", "no-drainage"],
    ["it has never been fertilized", "unfed-for-long"],
    ["the buds do not open", "buds-or-flowers-drop"],
    ["it won't bloom", "flower-or-fruit-trouble"],
    ["it isn't growing at all", "slow-decline-top-looks-clean"],
  ])("but “%s” tells %s", (said, id) => {
    expect(understand(flow, said).present.map((heard) => heard.id)).toContain(id);
  });
});
