import { describe, expect, it } from "vitest";
import {
  ruleSpan,
  rulesAgainst,
  rulesFor,
  type SeasonWindows,
  seasonWindows,
} from "../../../src/core/schedule/season-windows.ts";
import type { SeasonRule } from "../../../src/core/standard/standard.ts";
import { dateOfDay, isoDate } from "../../../src/core/units/calendar.ts";
import { AS_OF, standard, traits, tree } from "../prescription/scene.ts";

const idsFor = (of: Parameters<typeof tree>[0], region: string | null = null) =>
  rulesFor(tree(of), standard.seasons, region).map(({ id }) => id);
const ruleOf = (id: string): SeasonRule => standard.seasons.find((rule) => rule.id === id)!;
/** Windows that end in a year from the as-of date on, as texts. */
const spans = ({ windows }: SeasonWindows) =>
  windows
    .map(({ startDay, endDay }) => `${dateOfDay(startDay)} ${dateOfDay(endDay)}`)
    .filter((text) => text > "2026-07" && text < "2028");

describe("which rules bind a tree", () => {
  it("goes by kind and genus", () => {
    expect(idsFor({})).toEqual(["first-flush", "fall-hardening"]);
    expect(idsFor({ traits: traits({ genus: "Acer", bleeds: true }) })).toEqual([
      "first-flush",
      "fall-hardening",
      "bleeding",
    ]);
    expect(idsFor({ traits: traits({ isEvergreen: true }) })).toEqual([]);
    expect(idsFor({ form: "palm" })).toEqual([]);
  });

  it("goes by region, a country covering its parts, and binds nowhere while it is unknown", () => {
    const oak = { traits: traits({ genus: "Quercus" }) };
    expect(idsFor(oak, "US-WI")).toContain("oak-wilt-wi");
    expect(idsFor(oak, "US-MI")).not.toContain("oak-wilt-wi");
    expect(idsFor(oak, null)).toEqual(["first-flush", "fall-hardening"]);
    const birch = { traits: traits({ genus: "Betula" }) };
    expect(idsFor(birch, "US-WI")).toContain("birch-borer");
    expect(idsFor(birch, "CA-AB")).not.toContain("birch-borer");
    // A longer code that only begins alike is another place.
    expect(idsFor(birch, "USX")).not.toContain("birch-borer");
  });

  it("has no dormancy rule in the tropics, up to 23.5 degrees on both sides", () => {
    expect(idsFor({ latDeg: 23.4 })).toEqual([]);
    expect(idsFor({ latDeg: -23.4 })).toEqual([]);
    expect(idsFor({ latDeg: 23.5 })).not.toEqual([]);
    expect(idsFor({ latDeg: 20, traits: traits({ genus: "Quercus" }) }, "US-TX")).toEqual(["oak-wilt-tx"]);
  });
});

describe("windows", () => {
  const windowsOf = (ids: readonly string[], isSouth = false) => seasonWindows(ids.map(ruleOf), isSouth, AS_OF, 3);

  it("are the days that no rule forbids, inclusive and over New Year", () => {
    // Avoids 1 April to 15 June and 15 September to 31 October.
    expect(spans(windowsOf(["first-flush", "fall-hardening"]))).toEqual([
      "2026-11-01 2027-03-31",
      "2027-06-16 2027-09-14",
      "2027-11-01 2028-03-31",
    ]);
  });

  it("move by six months in the south for generic rules only", () => {
    // 1 April to 15 June becomes 1 October to 15 December.
    expect(ruleSpan(ruleOf("first-flush"), true)).toEqual(["10-01", "12-15"]);
    expect(ruleSpan(ruleOf("oak-wilt-wi"), true)).toEqual(["04-01", "07-31"]);
    // 15 March to 31 August becomes 15 September to the end of February, which has 29 days in a leap year only.
    expect(ruleSpan(ruleOf("fire-blight"), true)).toEqual(["09-15", "02-29"]);
    const south = windowsOf(["fire-blight"], true);
    expect(spans(south)).toEqual(["2027-03-01 2027-09-14"]);
  });

  it("let preferences give way where fewer than 60 days would be left", () => {
    // Apples: fire blight 15 March to 31 August, bloom 1 December to 31 March, hardening 15 September to 31 October,
    // flush 1 April to 15 June leave 1 to 14 September and November, 44 days.
    const apple = windowsOf(["first-flush", "fall-hardening", "fire-blight", "spring-bloom"]);
    expect(apple.setAside.map(({ id }) => id)).toEqual(["fall-hardening", "spring-bloom"]);
    expect(spans(apple)).toEqual(["2026-09-01 2027-03-14", "2027-09-01 2028-03-14"]);
  });

  it("are any time where nothing binds, and none where all is forbidden", () => {
    expect(seasonWindows([], false, AS_OF, 3)).toMatchObject({ isAnyTime: true, windows: [] });
    const always = { ...ruleOf("elm-ab"), avoidFrom: "01-01", avoidTo: "12-31" };
    expect(seasonWindows([always], false, AS_OF, 3)).toMatchObject({ isAnyTime: false, windows: [] });
  });
});

it("names the rules against a date, with both ends in", () => {
  const rules = [ruleOf("oak-wilt-wi")];
  const isAgainst = (date: string) => rulesAgainst(rules, false, isoDate(date)).length === 1;
  expect(["2026-03-31", "2026-04-01", "2026-07-31", "2026-08-01"].map(isAgainst)).toEqual([false, true, true, false]);
});
