import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { calendarText } from "../../../src/core/calendar-file/calendar-text.ts";
import { contentLine, escapedText } from "../../../src/core/calendar-file/content-line.ts";
import type { Plan } from "../../../src/core/model/plan.ts";
import type { Zone } from "../../../src/core/model/zone.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { planOfWork } from "../zone/plan-of-work.ts";

const STANDARD = usCommon();
const octets = (line: string): number => new TextEncoder().encode(line).length;

function zoneWith(more: Partial<Zone>): Zone {
  return {
    zoneId: "z-1",
    name: "Alder Street; north, 1",
    state: "draft",
    crew: "aerial",
    visitIds: ["A/1", "B/1"],
    treeIds: ["A", "B"],
    hours: 7.5,
    windowStart: isoDate("2026-11-01"),
    windowEnd: isoDate("2027-03-31"),
    due: isoDate("2027-02-14"),
    urgency: "next-window",
    streets: ["Alder Street"],
    walkM: 10,
    hazards: [],
    closure: {
      kind: "lane",
      roadName: "Alder Street",
      speedKmh: 40,
      taperM: null,
      bufferM: null,
      signSpacingM: [],
      note: "",
      control: null,
    },
    area: { type: "MultiPolygon", coordinates: [] },
    ...more,
  };
}

function planWith(zone: Partial<Zone>): Plan {
  const plan = planOfWork(
    [
      { id: "A", at: [0, 0], tree: { owner: "Elm Hill Homes", isProtected: true } },
      { id: "B", at: [9, 0], tree: { owner: "City of Elm" }, visit: { urgency: "now", due: isoDate("2026-11-20") } },
      { id: "C", at: [90, 0], visit: { urgency: "now", due: isoDate("2026-11-09") } },
    ],
    { zones: [zoneWith(zone)] },
  );
  return { ...plan, prescriptions: plan.prescriptions.map((one) => ({ ...one, visits: one.visits.slice(0, 1) })) };
}

const eventsOf = (text: string): ICAL.Event[] =>
  new ICAL.Component(ICAL.parse(text) as never).getAllSubcomponents("vevent").map((one) => new ICAL.Event(one));
const told = (plan: Plan): [string, string, string][] =>
  eventsOf(calendarText(plan, STANDARD)).map(({ uid, startDate, summary }) => [uid, startDate.toString(), summary]);

describe("a plan's calendar", () => {
  it("has an event a zone, its notices counted back in calendar days, and the deadlines", () => {
    expect(told(planWith({ plannedOn: isoDate("2027-01-20") }))).toEqual([
      ["z-1@p.boughline", "2027-01-20", "Alder Street; north, 1 (aerial)"],
      ["z-1-parking-notice@p.boughline", "2027-01-17", "Post no-parking signs at the work: Alder Street; north, 1"],
      [
        "z-1-closure-request@p.boughline",
        "2027-01-06",
        "Ask the road authority about the closure: Alder Street; north, 1",
      ],
      [
        "z-1-owner-permission@p.boughline",
        "2026-12-21",
        "Ask the owners of the trees for permission: Alder Street; north, 1",
      ],
      ["z-1-protected-permit@p.boughline", "2026-12-21", "Get the permits for protected trees: Alder Street; north, 1"],
      ["deadline-2026-11-20-z-1@p.boughline", "2026-11-20", "Deadline: 1 tree, Alder Street; north, 1"],
      ["deadline-2026-11-09@p.boughline", "2026-11-09", "Deadline: 1 tree, in no zone"],
    ]);
  });

  it("stands on the last day in time while no day is planned, under the same ids", () => {
    const planned = told(planWith({ plannedOn: isoDate("2027-01-20") }));
    const open = told(planWith({}));
    expect(open.map(([uid]) => uid)).toEqual(planned.map(([uid]) => uid));
    expect(open[0]!.slice(1)).toEqual(["2027-02-14", "Latest: Alder Street; north, 1 (aerial)"]);
    const closing = told(planWith({ windowEnd: isoDate("2027-01-31") }));
    expect(closing[0]![1]).toBe("2027-01-31");
  });

  it("says of a notice that would have been due already", () => {
    const text = calendarText(planWith({ plannedOn: isoDate("2026-11-12") }), STANDARD);
    const late = eventsOf(text).filter(({ description }) => description.includes("ask at once"));
    expect(late.map(({ uid }) => uid)).toEqual([
      "z-1-closure-request@p.boughline",
      "z-1-owner-permission@p.boughline",
      "z-1-protected-permit@p.boughline",
    ]);
  });

  it("leaves out what is done, and names neither owner nor address", () => {
    expect(told(planWith({ state: "done" })).map(([uid]) => uid)).toEqual([
      "deadline-2026-11-09@p.boughline",
      "deadline-2026-11-20@p.boughline",
    ]);
    expect(calendarText(planWith({}), STANDARD)).not.toContain("Elm Hill");
  });

  it("keeps RFC 5545: CRLF, lines of 75 octets, whole days, each id once, stamps from the plan's date", () => {
    const name = `Straße ${"Ö🌳".repeat(60)}`;
    const text = calendarText(planWith({ name }), STANDARD);
    expect(text.endsWith("END:VCALENDAR\r\n")).toBe(true);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    for (const line of text.split("\r\n")) expect(octets(line)).toBeLessThanOrEqual(75);
    const events = eventsOf(text);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    for (const event of events) {
      expect(event.startDate.isDate).toBe(true);
      expect(event.endDate.subtractDate(event.startDate).toSeconds()).toBe(86_400);
      expect(event.component.getFirstPropertyValue("dtstamp")?.toString()).toBe("2026-11-02T00:00:00Z");
      expect(event.component.getFirstPropertyValue("sequence")).toBe(1);
    }
    expect(events[0]!.summary).toBe(`Latest: ${name} (aerial)`);
    expect(calendarText(planWith({ name }), STANDARD)).toBe(text);
  });
});

describe("text in a content line", () => {
  it("comes back as it was from an independent parser, whatever it holds", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 300 }), (text) => {
        const shown = text
          .replace(/\r\n?/g, "\n")
          .replace(/[\p{Cc}\p{Cs}]/gu, (c) => (c === "\n" || c === "\t" ? c : ""));
        const line = contentLine("SUMMARY", escapedText(text));
        for (const piece of line.split("\r\n")) expect(octets(piece)).toBeLessThanOrEqual(75);
        const calendar = `BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n${line}END:VEVENT\r\nEND:VCALENDAR\r\n`;
        expect(eventsOf(calendar)[0]!.component.getFirstPropertyValue("summary")).toBe(shown);
      }),
    );
  });

  it("folds as the standard's own example, and unfolds by taking out break and space (RFC 5545, 3.1)", () => {
    const text = "This is a long description that exists on a long line. ".repeat(4);
    const line = contentLine("DESCRIPTION", text);
    expect(line.split("\r\n").length).toBeGreaterThan(3);
    expect(line.replaceAll("\r\n ", "")).toBe(`DESCRIPTION:${text}\r\n`);
  });

  it("escapes backslash, semicolon, comma and line break, and not the colon (RFC 5545, 3.3.11)", () => {
    expect(escapedText("a\\b; c, d: e\nf\r\ng\u0000")).toBe("a\\\\b\\; c\\, d: e\\nf\\ng");
  });
});
