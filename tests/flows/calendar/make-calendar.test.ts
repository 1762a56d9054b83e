import fc from "fast-check";
import ICAL from "ical.js";
import nodeIcal from "node-ical";
import { describe, expect, it } from "vitest";
import { addDays } from "../../../flows/calendar/civil-date.ts";
import { type CalendarWishes, makeCalendar } from "../../../flows/calendar/make-calendar.ts";
import { readLink } from "../../../flows/case-link.ts";
import { openFlow } from "../../../flows/flow.ts";
import { makePlan } from "../../../flows/plan.ts";
import { lookDue } from "../../../flows/second-look-due.ts";
import { judge } from "../../../flows/verdict.ts";
import { caseOf } from "../../support/cases.ts";
import { arbitraryCase } from "../../support/random-case.ts";
import { shippedFlow } from "../../support/shipped-flow.ts";

const flow = shippedFlow();
const mites = caseOf(flow, "fine-webbing", "moving-dots-on-paper", "pale-stippling", "host=spider-plant");
const wishes: CalendarWishes = {
  start: "2026-03-20",
  timeZone: "Europe/Zurich",
  locale: "en-GB",
  origin: "https://shop.example",
  now: Date.UTC(2026, 2, 20, 9, 30),
};

function make(kase = mites, change: Partial<CalendarWishes> = {}, of = flow) {
  const made = makeCalendar(of, kase, { ...wishes, ...change });
  if (!made.ok) throw new Error(made.sentence);
  return made;
}

function eventsOf(text: string): ICAL.Event[] {
  const calendar = new ICAL.Component(ICAL.parse(text));
  return calendar.getAllSubcomponents("vevent").map((event) => new ICAL.Event(event));
}

describe("the calendar file", () => {
  it("is read by two independent parsers with the same events", () => {
    const { text, days } = make();
    const first = eventsOf(text).map(({ uid, summary, startDate }) => ({
      uid,
      summary,
      on: startDate.toString(),
    }));
    const second = Object.values(nodeIcal.sync.parseICS(text)).flatMap((entry) =>
      entry?.type === "VEVENT" ? [{ uid: entry.uid, summary: String(entry.summary) }] : [],
    );
    expect(first.map(({ uid, summary }) => ({ uid, summary }))).toEqual(second);
    expect(first.map(({ on }) => on)).toEqual(days.map(({ date }) => date));
    expect(days.length).toBeGreaterThan(5);
  });

  it("each event is one whole day, with an alarm, a text and the link of the case", () => {
    const { text } = make();
    for (const event of eventsOf(text)) {
      expect(event.startDate.isDate).toBe(true);
      expect(event.endDate.toString()).toBe(addDays(event.startDate.toString(), 1));
      const [alarm] = event.component.getAllSubcomponents("valarm");
      expect(alarm?.getFirstPropertyValue("action")).toBe("DISPLAY");
      expect(String(alarm?.getFirstPropertyValue("trigger"))).toBe("PT9H");
      expect(event.description.length).toBeGreaterThan(40);
      const url = String(event.component.getFirstPropertyValue("url"));
      expect(event.description).toContain(url);
      const { case: opened, problems } = readLink(flow, url.slice(url.indexOf("?")));
      expect(problems).toEqual([]);
      expect(opened.answers).toEqual(expect.arrayContaining([...mites.answers]));
      expect(opened.answers).toContainEqual({ to: "began", is: "2026-03-20" });
    }
  });

  it("opened from an event on a later day, the case asks how the plant is", () => {
    const { text } = make(finish());
    const url = String(eventsOf(text)[0]?.component.getFirstPropertyValue("url"));
    const { case: opened } = readLink(flow, url.slice(url.indexOf("?")));
    expect(lookDue(flow, opened, "2026-03-27")).toMatchObject({ due: true, days: 7 });
    expect(lookDue(flow, opened, "2026-03-20").due).toBe(false);
  });

  it("keeps to the day on the wall when the clocks change, whatever the reader's zone", () => {
    // 29 March 2026 in Europe, 8 March in America, and back on 25 October and 1 November.
    for (const start of ["2026-02-27", "2026-03-27", "2026-10-20", "2026-12-30"]) {
      const { days, text } = make(mites, { start });
      const soap = days.filter(({ step }) => step === "soap-spray").map(({ date }) => date);
      const gaps = soap
        .slice(1)
        .map((date, i) => (Date.parse(date) - Date.parse(soap[i] ?? "")) / 86_400_000);
      expect(new Set(gaps).size).toBe(1);
      expect(text).not.toMatch(/^DT(START|END)[^\r]*T\d{6}/m);
      expect(text).not.toContain("TZID");
    }
  });

  it("a second download updates the first: same UIDs, higher SEQUENCE", () => {
    const first = eventsOf(make().text);
    const later = eventsOf(
      make(mites, { now: wishes.now + 5 * 60_000, start: "2026-03-21", roomCelsius: 21.4 }).text,
    );
    const uids = first.map(({ uid }) => uid);
    expect(new Set(uids).size).toBe(uids.length);
    expect(later.map(({ uid }) => uid).sort()).toEqual([...uids].sort());
    expect(Math.min(...later.map(({ sequence }) => sequence))).toBeGreaterThan(
      Math.max(...first.map(({ sequence }) => sequence)),
    );
  });

  it("a later file takes back what it no longer has, and a first file nothing", () => {
    const cold = make(mites, { roomCelsius: 14 });
    const warm = make(mites, { roomCelsius: 28, now: wishes.now + 86_400_000, replaces: true });
    const statusOf = (text: string) =>
      new Map(
        eventsOf(text).map(({ uid, component }) => [uid, component.getFirstPropertyValue("status")] as const),
      );
    expect([...statusOf(cold.text).values()]).not.toContain("CANCELLED");
    const now = statusOf(warm.text);
    const gone = [...statusOf(cold.text).keys()].filter((uid) => now.get(uid) === "CANCELLED");
    expect(gone.length).toBeGreaterThan(0);
    for (const uid of statusOf(cold.text).keys()) expect(now.has(uid), uid).toBe(true);
    expect([...now.values()].filter((status) => status !== "CANCELLED")).toHaveLength(warm.days.length);
    // The other reader agrees, and sees a higher sequence on what was taken back.
    const sequences = (text: string) =>
      new Map(
        Object.values(nodeIcal.sync.parseICS(text)).flatMap((entry) =>
          entry?.type === "VEVENT" ? [[entry.uid, entry] as const] : [],
        ),
      );
    const [before, after] = [sequences(cold.text), sequences(warm.text)];
    for (const uid of gone) {
      expect(after.get(uid)?.status).toBe("CANCELLED");
      expect(Number(after.get(uid)?.sequence)).toBeGreaterThan(Number(before.get(uid)?.sequence));
    }
  });

  it("nothing of an earlier file is left behind, whatever the plan and the room were", () => {
    fc.assert(
      fc.property(
        arbitraryCase(flow),
        fc.double({ min: 5, max: 40, noNaN: true }),
        fc.double({ min: 5, max: 40, noNaN: true }),
        (kase, then, now) => {
          const earlier = make(kase, { roomCelsius: then });
          const later = make(kase, { roomCelsius: now, start: "2026-04-02", replaces: true });
          const known = new Set(eventsOf(later.text).map(({ uid }) => uid));
          return eventsOf(earlier.text).every(({ uid }) => known.has(uid));
        },
      ),
      { numRuns: 40 },
    );
  });

  it("a later look keeps the UIDs of the first download", () => {
    const looked = {
      ...mites,
      answers: [...mites.answers, { to: "began", is: "2026-03-20" }, { to: "look-again", is: "better" }],
    };
    const uids = new Set(eventsOf(make().text).map(({ uid }) => uid));
    for (const { uid } of eventsOf(make(looked).text)) expect(uids).toContain(uid);
  });

  it("one remedy of each method, or those that were chosen", () => {
    expect(new Set(make().days.map(({ step }) => step))).toEqual(
      new Set(["wash-leaves", "soap-spray", "look"]),
    );
    expect(new Set(make(mites, { remedies: ["oil-spray"] }).days.map(({ step }) => step))).toEqual(
      new Set(["oil-spray", "look"]),
    );
  });

  it("every treatment day is a step of the plan, and a product day says that the label is the law", () => {
    fc.assert(
      fc.property(arbitraryCase(flow), fc.double({ min: 5, max: 40, noNaN: true }), (kase, roomCelsius) => {
        const { days, text } = make(kase, { roomCelsius });
        const steps = makePlan(flow, kase, judge(flow, kase)).steps;
        for (const day of days) {
          if (day.step === "look") continue;
          const step = steps.find(({ remedy }) => remedy === day.step);
          expect(step).toBeDefined();
          for (const caution of step?.cautions ?? []) expect(day.text).toContain(caution);
          if (step?.labelIsLaw) expect(day.text).toContain("The label is the law");
        }
        expect(eventsOf(text)).toHaveLength(days.length);
      }),
      { numRuns: 200 },
    );
  });

  it("hostile names in the content and the address break nothing", () => {
    const nasty = "a;b,c\\d\r\nEND:VEVENT\nBEGIN:VEVENT \u0000😀".repeat(9);
    const edition = structuredClone(flow.edition);
    edition.shop.name = nasty;
    for (const remedy of edition.remedies) {
      remedy.name = nasty;
      remedy.amount = nasty;
    }
    const { text, days } = make(mites, {}, openFlow(edition));
    expect(eventsOf(text)).toHaveLength(days.length);
    expect(eventsOf(text)[0]?.summary).toContain("a;b,c\\d\nEND:VEVENT");
    for (const line of text.split("\r\n"))
      expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
  });

  it.each([
    [{ start: "2026-02-30" }, "CALENDAR_START"],
    [{ start: "tomorrow" }, "CALENDAR_START"],
    [{ timeZone: "Europe/Zurich\r\nX:1" }, "CALENDAR_ZONE"],
    [{ origin: "javascript:alert(1)" }, "CALENDAR_ORIGIN"],
    [{ origin: "https://shop.example/\r\nX:1" }, "CALENDAR_ORIGIN"],
    [{ now: Number.NaN }, "CALENDAR_NOW"],
    [{ roomCelsius: 300 }, "ROOM_OUT_OF_RANGE"],
  ] as const)("%j is refused with a sentence", (change, code) => {
    const made = makeCalendar(flow, mites, { ...wishes, ...change });
    expect(made).toMatchObject({ ok: false, code, sentence: expect.stringMatching(/\.$/) });
  });

  it("chooses °F for a reader in the United States", () => {
    const text = (locale: string) =>
      make(mites, { locale }).days.find(({ step }) => step === "soap-spray")?.text;
    expect(text("en-US")).toContain("70 °F");
    expect(text("de-CH")).toContain("21 °C");
  });
});

/** The case carried to its end, so that a look can follow. */
function finish() {
  const answers = [
    ...mites.answers,
    { to: "household", is: "neither" },
    { to: "flowering-or-outdoors", is: "no" },
    { to: "eaten", is: "not-sure" },
  ];
  return { ...mites, answers };
}
