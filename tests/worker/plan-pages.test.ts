import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { type Case, giveAnswer, newCase } from "../../flows/case.ts";
import { readLink, writeLink } from "../../flows/case-link.ts";
import { type Flow, NOT_SURE, openFlow } from "../../flows/flow.ts";
import { nextQuestion } from "../../flows/next-question.ts";
import { makePlan } from "../../flows/plan.ts";
import { judge } from "../../flows/verdict.ts";
import { bundled, openFreshApp } from "./fresh-app.ts";

const flow = openFlow(bundled as Parameters<typeof openFlow>[0]);
const mites = finish(flow, "what-you-see=marks&host=pothos&mark-look=stipple&tap-test=dots");
const { ask, clock } = openFreshApp();
clock.now = Date.parse("2026-11-25T10:00:00Z");

/** Answers every open question with "not sure". */
function finish(flow: Flow, query: string): string {
  let kase: Case = { ...newCase(flow), answers: readLink(flow, query).case.answers };
  for (let next = nextQuestion(flow, kase); next; next = nextQuestion(flow, kase))
    kase = giveAnswer(flow, kase, next.id, NOT_SURE).case;
  return writeLink(flow, kase);
}

async function read(path: string, status = 200): Promise<string> {
  const response = await ask(path);
  expect(response.status, path).toBe(status);
  return (await response.text()).replaceAll("&amp;", "&");
}

const daysOf = (page: string) => [...page.matchAll(/<span class="lt-day">([^<]*)</g)].map(([, day]) => day);

describe("the days of a plan", () => {
  test("begin today, or on the day that was told", async () => {
    expect(daysOf(await read(`/check?${mites}`))[0]).toBe("Wed, Nov 25");
    expect(daysOf(await read(`/check?${mites}&start=2027-02-27&units=metric`))[0]).toBe("Sat 27 Feb");
  });

  test("follow the warmth of the room and say why", async () => {
    const [cool, warm] = [await read(`/check?${mites}&room=60F`), await read(`/check?${mites}&room=30C`)];
    expect(daysOf(cool)).not.toEqual(daysOf(warm));
    expect(warm).toContain("At 86 °F they are adults in about");
    expect(await read(`/check?${mites}&room=30C&units=metric`)).toContain("At 30 °C they are adults");
  });

  test("are taken along by links and forms, and change no verdict", async () => {
    const page = await read(`/check?${mites}&room=25C`);
    expect(page).toContain(`/calendar.ics?${mites}&room=25C`);
    expect(page).toContain(`/check?${mites}&change=host&room=25C`);
    expect(page).toContain('<input type="hidden" name="room" value="25C"/>');
    // What is kept of a case is the case alone, and the day.
    expect(page).toContain(`value="https://shop.example/check?${mites}&made=2026-11-25"`);
    const changed = await ask(`/check?${mites}&room=25C&change=host&to=basil`);
    expect(changed.headers.get("location")).toContain("&room=25C&made=2026-11-25#lt-now");
  });
});

describe("the calendar file", () => {
  test("is read by another reader, day by day as on the page", async () => {
    const response = await ask(`/calendar.ics?${mites}&start=2026-12-01&room=25C`);
    expect(response.headers.get("content-type")).toBe("text/calendar; charset=utf-8");
    expect(response.headers.get("content-disposition")).toContain("attachment");
    const text = await response.text();
    const events = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents("vevent");
    const starts = events.map((event) => String(event.getFirstPropertyValue("dtstart")));
    expect(starts[0]).toBe("2026-12-01");
    const page = await read(`/check?${mites}&start=2026-12-01&room=25C`);
    expect(new Set(starts).size).toBe(daysOf(page).length);
    expect(String(events[0]?.getFirstPropertyValue("dtstamp"))).toBe("2026-11-25T10:00:00Z");
    expect(String(events[0]?.getFirstPropertyValue("url"))).toContain("&began=2026-12-01");
  });

  test("stands in for numbers that cannot be, and waits for the answers", async () => {
    const response = await ask(`/calendar.ics?${mites}&start=2026-02-30&room=300`);
    expect(response.status).toBe(200);
    expect(await response.text()).toContain("DTSTART;VALUE=DATE:20261125");
    expect(await read("/calendar.ics?e=1&what-you-see=marks", 404)).toContain("Please answer the questions");
  });
});

describe("bad numbers", () => {
  const everything = mites;
  test.each([
    ["room=300", "The room must be between 5 and 40 °C (41 and 104 °F)."],
    ["room=warm", "Give the room temperature as a number"],
    ["start=2026-02-30", "Give the first day as year-month-day"],
    ["bottle=0", "Give a bottle between 50 mL and 20 L"],
    ["bottle=lots", "That is not a number. Give a bottle"],
  ])("%s: one sentence, what was typed stays, the plan stands", async (query, sentence) => {
    const page = await read(`/check?${everything}&${query}`);
    expect(page.split(sentence)).toHaveLength(2);
    const [name, value] = query.split("=");
    if (name !== "start") expect(page).toMatch(new RegExp(`name="${name}"[^>]* value="${value}"`));
    expect(daysOf(page)).toEqual(daysOf(await read(`/check?${everything}`)));
  });

  test("are shown as text, and never fail", async () => {
    const names = [
      "units",
      "room",
      "start",
      "bottle",
      "bottle-unit",
      "outdoor",
      "outdoor-humidity",
      "pot",
      "roots",
    ];
    for (const name of names) {
      const page = await read(`/check?${mites}&${name}=${encodeURIComponent('"><script>é\u0000')}`);
      expect(page).not.toContain("<script");
    }
  });
});

describe("sums", () => {
  test("what to measure for the bottle that was told", async () => {
    const page = await read(`/check?${mites}&bottle=2&bottle-unit=quart`);
    expect(page).toContain("a bottle of 2 quarts");
    expect(page).toMatch(/Put in [^<]* of insecticidal soap concentrate/);
    expect(page).toContain("The label comes first.");
  });

  test("the air in the room from the weather", async () => {
    const dry = withStep("raise-humidity");
    const told = await read(`/check?${dry}&outdoor=0&outdoor-humidity=80&units=metric`);
    expect(told).toContain("The room has about 20");
    expect(told).toContain("Magnus formula");
    const bad = await read(`/check?${dry}&outdoor=0&outdoor-humidity=800&units=metric`);
    expect(bad).toContain("Give an outdoor humidity between 1 and 100 percent.");
    expect(bad).toContain('value="800"');
  });

  test("the pot, the mix and the water to rinse with", async () => {
    const salty = withStep("leach-salts");
    const told = await read(`/check?${salty}&pot=15&units=metric`);
    expect(told).toContain("Rinse with");
    expect(await read(`/check?${salty}&pot=200&units=metric`)).toContain(
      "Give widths of the pot between 3 and 100 cm",
    );
  });

  test("a product may have a bottle of its own, and a bad one leaves the others alone", async () => {
    const own = "bottle.insecticidal-soap-concentrate=2&bottle-unit.insecticidal-soap-concentrate=litre";
    const page = await read(`/check?${mites}&units=metric&bottle=500&bottle-unit=ml&${own}`);
    expect(page).toContain("Fill up with water to 2 L");
    expect(page).toContain(`name="bottle.insecticidal-soap-concentrate"`);
    expect(page).toContain(`&${own}&made=`);
    expect(page).not.toContain("Not all of this link could be read");
    const bad = await read(
      `/check?${mites}&units=metric&bottle=500&bottle-unit=ml&bottle.insecticidal-soap-concentrate=0`,
    );
    expect(bad).toContain("Give a bottle between 50 mL and 20 L");
    expect(bad).toContain("Fill up with water to 500 mL");
    expect(bad).toContain('name="bottle.insecticidal-soap-concentrate" id="lt-soap-spray');
  });

  test("the shopping list tells home from shop, with shelves", async () => {
    const page = await read(`/check?${mites}`);
    const [, list = ""] = /<section class="lt-section lt-shopping">(.*?)<\/section>/s.exec(page) ?? [];
    expect(list).toMatch(
      /To buy.*insecticidal soap concentrate.*aisle 2, plant care.*Probably at home.*gloves/s,
    );
  });
});

/** A finished case whose plan holds the step, by telling everything that speaks for a condition. */
function withStep(remedy: string): string {
  for (const condition of flow.edition.conditions.filter(({ plan }) => plan.includes(remedy))) {
    const query = [...condition.evidence.hallmark, ...condition.evidence.supports]
      .slice(0, 3)
      .map((id) => `${id}=yes`);
    const link = finish(flow, `host=pothos&${query.join("&")}`);
    const kase = readLink(flow, link).case;
    if (makePlan(flow, kase, judge(flow, kase)).steps.some((step) => step.remedy === remedy)) return link;
  }
  throw new Error(`No case was found for ${remedy}.`);
}

describe("the second look", () => {
  test("is asked when asked for, and notes its day", async () => {
    const page = await read(`/check?${mites}&look=ask`);
    expect(page).toContain("How is the plant now?");
    expect(page).toContain('<input type="hidden" name="looked" value="2026-11-25"/>');
    expect(page).toContain("Show the plan again");
  });

  test("comes first on a later day than the plan began, and can wait", async () => {
    expect(await read(`/check?${mites}&began=2026-11-18`)).toContain("How is the plant now?");
    expect(await read(`/check?${mites}&began=2026-11-18&made=2026-11-25`)).toContain("What to do");
    expect(await read(`/check?${mites}&began=2026-11-25`)).toContain("What to do");
  });

  test("comes first on a later day than the link was kept, and the way past it is kept too", async () => {
    const page = await read(`/check?${mites}&made=2026-11-24`);
    expect(page).toContain("How is the plant now?");
    expect(page).not.toContain("Have you been treating it?");
    const [, past = ""] =
      /<a class="lt-link" href="([^"#]*)[^>]*data-lt="look">Show the plan again/.exec(page) ?? [];
    expect(past).toBe(`/check?${mites}&made=2026-11-25`);
    expect(await read(past)).toContain("What to do");
    // A day that cannot be is no day.
    for (const made of ["tomorrow", "2026-02-30", "1999-01-01", "2026-12-24"])
      expect(await read(`/check?${mites}&made=${made}`)).toContain("What to do");
    // Before the verdict there is nothing to ask about.
    expect(await read("/check?what-you-see=marks&made=2026-01-01")).toContain('name="host"');
  });

  test("comes first when a code is opened, with a way past it", async () => {
    const [, code = ""] = /lt-code"[^>]*value="([^"]*)"/.exec(await read(`/check?${mites}`)) ?? [];
    const opened = await ask(`/c/${code}`);
    const page = await read(opened.headers.get("location")?.replace(/#.*/, "") ?? "");
    expect(page).toContain("Have you been treating it?");
    expect(page).toContain("How is the plant now?");
    expect(page).toContain(
      `href="/check?${mites}&made=2026-11-25#lt-now" data-lt="look">Show the plan again`,
    );
    // A code that carries its day asks only when that day is over.
    const looked = `${mites}&look-again=better&looked=2026-11-25`;
    const [, later = ""] = /lt-code"[^>]*value="([^"]*)"/.exec(await read(`/check?${looked}`)) ?? [];
    const again = await ask(`/c/${later}`);
    expect(await read(again.headers.get("location")?.replace(/#.*/, "") ?? "")).toContain("What to do");
  });

  test("the slip carries the day as well", async () => {
    expect(await read(`/slip?${mites}&made=2026-11-01`)).toContain(`check?${mites}&made=2026-11-25</p>`);
  });

  test.each([
    ["look-again=better", "Finish the rounds you have begun"],
    ["look-again=same&tried=mechanical&technique=undersides", "mind what went wrong: Missed the backs"],
    ["look-again=same&tried=mechanical&technique=none", "Now go one step further"],
    ["look-again=worse&tried=chemical", "It got worse under a spray: bring a sample"],
    ["look-again=same&tried=mechanical&technique=rate&look-again-2=same", "Two looks and no better"],
  ])("%s leads on", async (looks, said) => {
    const page = await read(`/check?${mites}&began=2026-11-18&${looks}&looked=2026-11-25`);
    expect(page).toContain(said);
    expect(page).not.toContain("2026-11-18</span>");
  });

  test("something new opens the questions again", async () => {
    const page = await read(`/check?${mites}&began=2026-11-18&look-again=new&looked=2026-11-25`);
    expect(page).toContain('name="what-you-see-2"');
  });

  test("no spray stays in a plan that waits for a sample", async () => {
    const page = await read(`/check?${mites}&look-again=worse&tried=chemical&looked=2026-11-25`);
    expect(page).not.toContain("Spray with insecticidal soap");
    expect(page).toContain("lt-wanted");
  });
});
