import { describe, expect, test } from "vitest";
import { isoDate } from "../../src/core/units/calendar.ts";
import { readDoseShare, readHeightM, readHours, readStemM } from "../../src/phone/read-figures.ts";
import { compareManifest } from "../../src/phone/views/manifest-check.ts";
import { staleWarnings, todayHere } from "../../src/phone/views/warnings.ts";
import { smallPage } from "./phone-sample.ts";

// Made on 15 Jan 2027; work is allowed from the first to the last of the window.
const page = {
  ...smallPage,
  asOf: isoDate("2027-01-15"),
  windowStart: isoDate("2027-01-10"),
  windowEnd: isoDate("2027-03-31"),
};
const warned = (today: string, kept: Parameters<typeof staleWarnings>[2] = []) =>
  staleWarnings(page, isoDate(today), kept).map((text) => text.slice(0, 24));

describe("staleWarnings", () => {
  test("says nothing of a packet that is up to thirty days old, within its dates", () => {
    expect(warned("2027-01-15")).toEqual([]);
    // 15 January and 30 days are 14 February.
    expect(warned("2027-02-14")).toEqual([]);
    expect(warned("2027-02-15")).toEqual(["This packet's plan is 31"]);
  });

  test("says that it is too early or too late", () => {
    expect(warned("2027-01-09")).toEqual(["Work in this zone is not"]);
    expect(warned("2027-03-31")).toEqual(["This packet's plan is 75"]);
    expect(warned("2027-04-01")).toEqual(["This packet's plan is 76", "The allowed dates of thi"]);
  });

  test("says that a newer revision was opened here, and that an older one has marks nobody has", () => {
    const kept = (revision: number, isUnexported: boolean) => [{ revision, isUnexported }];
    expect(warned("2027-01-20", kept(4, false))).toEqual(["Revision 4 of this zone "]);
    expect(warned("2027-01-20", kept(2, true))).toEqual(["Marks in revision 2 of t"]);
    expect(warned("2027-01-20", [...kept(2, false), ...kept(3, true)])).toEqual([]);
  });
});

test("todayHere is the day of the clock's own time zone", () => {
  expect(todayHere(new Date(2027, 2, 9, 23, 59))).toBe("2027-03-09");
});

test.each([
  [{ revision: 4 }, /is newer: revision 4, this page is revision 3/],
  [{ revision: 3 }, /Both are revision 3/],
  [{ revision: 2 }, /is older: revision 2/],
  [{ planId: "x" }, /another plan, x/],
  [{ zoneId: "z-9" }, /another zone, z-9/],
  [{ format: "boughline-completion" }, /not a packet's manifest/],
  [{ revision: "4" }, /not a packet's manifest/],
])("compareManifest reads %j", (change, expected) => {
  const { planId, zoneId } = smallPage;
  const manifest = { format: "boughline-packet", planId, zoneId, revision: 3, ...change };
  expect(compareManifest(smallPage, JSON.stringify(manifest))).toMatch(expected);
});

test.each(["", "{", "null", "7", "[]"])("compareManifest refuses %j", (text) => {
  expect(compareManifest(smallPage, text)).toMatch(/not a packet's manifest/);
});

test("figures are read in the page's unit and within what trees can be", () => {
  // 1 ft = 0.3048 m, 1 in = 25.4 mm, exactly; results to the millimeter.
  expect(readHeightM("10", "us")).toBe(3.048);
  expect(readHeightM("10", "metric")).toBe(10);
  expect(readHeightM("130", "metric")).toBe(130);
  expect(readHeightM("130.1", "metric")).toBeNull();
  expect(readHeightM("-1", "metric")).toBeNull();
  expect(readStemM("10", "us")).toBe(0.254);
  expect(readStemM("30", "metric")).toBe(0.3);
  expect(readDoseShare("12,5 %")).toBe(0.125);
  expect(readDoseShare("101")).toBeNull();
  expect(readDoseShare("")).toBeNull();
  expect(readHours("7.5 h")).toBe(7.5);
  expect(readHours("all day")).toBeNull();
});
