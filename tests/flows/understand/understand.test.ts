import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { understand } from "../../../flows/understand/understand.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";
import { tinyFlow } from "../../support/tiny-flow.ts";

const flow = shippedFlow();
const hear = (text: string) => {
  const { host, present, absent, facts, theories, asks } = understand(flow, text);
  return {
    host: host?.id ?? null,
    present: present.map(({ id }) => id),
    absent: absent.map(({ id }) => id),
    facts: Object.fromEntries(facts.map(({ fact, is }) => [fact, is])),
    theories: theories.map(({ conditions, denied }) => (denied ? "not " : "") + conditions.join("+")),
    asks: asks.map(({ id }) => id),
  };
};

describe("an opening line", () => {
  it("with a theory, a finding and a household", () => {
    const heard = hear("my ficus has a fungus, white fuzzy stuff in the joints, also there's a cat");
    expect(heard.present).toEqual(["white-cottony-tufts"]);
    expect(heard.facts).toEqual({ pets: "yes" });
    expect(heard.theories).toHaveLength(1);
    expect(heard.theories[0]).toContain("powdery-mildew");
  });

  it.each([
    ["spider mites?", ["spider-mites"]],
    ["I think it is mealybugs", ["mealybugs"]],
    ["could it be root rot", ["root-rot+crown-or-stem-rot"]],
    ["it's not scale", ["not soft-scale+armored-scale"]],
  ])("“%s” is a theory and no finding", (text, theories) => {
    expect(hear(text)).toMatchObject({ theories, present: [] });
  });

  it.each([
    ["Will it live?", "will-it-live"],
    ["can I save it", "will-it-live"],
    ["is it safe for my dog?", "safe-for-pets"],
    ["can I still eat the basil?", "can-i-eat-it"],
    ["will it spread to my other plants", "will-it-spread"],
  ])("“%s” is a question", (text, ask) => {
    expect(hear(text).asks).toContain(ask);
    expect(hear(text).present).toEqual([]);
  });

  it.each([
    ["if the leaves turn yellow, what do I do?"],
    ["should I look for webs?"],
    ["are there webs?"],
    ["how do I prevent sticky leaves"],
    ["worried about webs"],
  ])("“%s” tells no finding", (text) => {
    expect(hear(text).present).toEqual([]);
  });

  it.each([
    ["no webs, leaves are yellow", ["yellow-leaves"], ["fine-webbing"]],
    ["no webs or yellow leaves but it droops", ["limp-or-drooping"], ["yellow-leaves", "fine-webbing"]],
    ["the leaves aren't yellow", [], ["yellow-leaves"]],
    ["I don't know why the leaves are yellow", ["yellow-leaves"], []],
    ["not only are the leaves sticky, there are webs", ["sticky-film", "fine-webbing"], []],
    ["webs? none. leaves droop", ["limp-or-drooping"], ["fine-webbing"]],
  ])("“%s”", (text, present, absent) => {
    expect(hear(text).present.toSorted()).toEqual(present.toSorted());
    expect(hear(text).absent.toSorted()).toEqual(absent.toSorted());
  });

  it.each([
    ["my pothus has yelow leaves", "pothos", "yellow-leaves"],
    ["Sticky leafs on the fidle leaf fig", "fiddle-leaf-fig", "sticky-film"],
    ["MONSTERA!!! BROWN SPOTS", "monstera", "brown-spots"],
    ["philodendron droopping", "philodendron", "limp-or-drooping"],
  ])("“%s” is read in spite of slips", (text, host, finding) => {
    expect(hear(text)).toMatchObject({ host, present: [finding] });
  });

  it("keeps what is not understood, in its own words", () => {
    const text = "The neighbor plays the trumpet at night. My fern droops.";
    expect(understand(flow, text).rest).toEqual(["The neighbor plays the trumpet at night"]);
  });

  it("quotes the words it was read from", () => {
    const text = "Since May my pothos has, I think, fine webs under its leaves.";
    const { present, host } = understand(flow, text);
    for (const heard of [...present, ...(host ? [host] : [])]) expect(text).toContain(heard.said);
  });
});

describe("whatever is typed", () => {
  const bits = fc.constantFrom(
    ..."no not webs white fuzzy leaves my ficus , . ? ! and or but if sticky {leaf} | _ = don't 25° 🌿 \u0000 \ud800 cat — ' ’ é".split(
      " ",
    ),
  );
  const text = fc.oneof(
    fc.string({ unit: "binary", maxLength: 120 }),
    fc.array(bits, { maxLength: 40 }).map((words) => words.join(" ")),
  );

  it("never throws, names only what exists, quotes only what was typed, and is the same again", () => {
    fc.assert(
      fc.property(text, (typed) => {
        const heard = understand(flow, typed);
        expect(understand(flow, typed)).toEqual(heard);
        for (const { id, said } of [...heard.present, ...heard.absent]) {
          expect(flow.finding(id)).toBeDefined();
          expect(typed).toContain(said);
        }
        const absent = heard.absent.map(({ id }) => id);
        expect(heard.present.filter(({ id }) => absent.includes(id))).toEqual([]);
        if (heard.host) expect(flow.host(heard.host.id)).toBeDefined();
        for (const { conditions } of heard.theories)
          for (const id of conditions) expect(flow.condition(id)).toBeDefined();
      }),
      { numRuns: 10_000 },
    );
  });

  it("takes no longer than it should, however it is built", () => {
    const hostile = [
      "no ".repeat(400),
      "white ".repeat(300),
      "leaf,".repeat(300),
      "a".repeat(5000),
      "'".repeat(5000),
      "? none ".repeat(200),
    ];
    const started = performance.now();
    for (const typed of hostile) understand(flow, typed);
    // Six texts of the greatest length; each takes some hundredths of a second.
    expect(performance.now() - started).toBeLessThan(6_000);
  });

  it("is not understood where the edition has no lexicon", () => {
    expect(understand(tinyFlow(), "white fuzz on my basil")).toMatchObject({
      host: null,
      present: [],
      rest: ["white fuzz on my basil"],
    });
  });
});
