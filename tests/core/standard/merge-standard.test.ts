import fc from "fast-check";
import { describe, expect, it, test } from "vitest";
import { mergeStandard } from "../../../src/core/standard/merge-standard.ts";
import { parseStandard, usCommonSource } from "../../../src/core/standard/parse-standard.ts";
import { shippedStandard } from "../../../src/core/standard/shipped-standards.ts";
import type { Source, Standard } from "../../../src/core/standard/standard.ts";
import { ruleOf } from "./shipped.ts";

const CITY: Source = { title: "City of Example, tree code", edition: "2024", section: "12.04", known: "read" };

const mergeOf = (override: object, base: unknown = usCommonSource) => {
  const merged = mergeStandard(base, { extends: "us-common", title: "Example", ...override });
  if ("faults" in merged) throw new Error(merged.faults.join("\n"));
  return merged;
};
const standardOf = (json: unknown): Standard => {
  const parsed = parseStandard(json);
  if ("faults" in parsed) throw new Error(parsed.faults.join("\n"));
  return parsed.standard;
};
const faultsOf = (override: object): string[] => {
  const merged = mergeStandard(usCommonSource, { extends: "us-common", title: "Example", ...override });
  return "faults" in merged ? merged.faults : [];
};

describe("an override of single values", () => {
  const { merged, changes } = mergeOf({
    rules: { "roadway-headroom": { minimum: "15 ft", source: CITY } },
    pruning: { cycleYears: 4 },
  });
  const standard = standardOf(merged);

  it("changes these values and no other", () => {
    const before = standardOf(usCommonSource);
    expect(ruleOf(standard, "roadway-headroom").minimumM).toBeCloseTo(15 * 0.3048, 9);
    expect(standard.pruning.cycleYears).toBe(4);
    const as = (one: Standard): object => ({
      ...one,
      id: null,
      title: null,
      mergedFrom: null,
      changes: null,
      provenance: null,
      rules: one.rules.filter(({ id }) => id !== "roadway-headroom"),
      pruning: { ...one.pruning, cycleYears: null },
    });
    expect(as(standard)).toEqual(as(before));
    const road = { minimumM: 0, published: "", source: null };
    expect({ ...ruleOf(standard, "roadway-headroom"), ...road }).toEqual({
      ...ruleOf(before, "roadway-headroom"),
      ...road,
    });
  });

  it("lists each change with what it was and who set it", () => {
    expect(changes.map(({ path, from, to, by }) => [path, from, to, by])).toEqual([
      ["rules.roadway-headroom.minimum", "14 ft", "15 ft", "Example"],
      ["rules.roadway-headroom.source", expect.objectContaining({ known: "read" }), CITY, "Example"],
      ["pruning.cycleYears", 5, 4, "Example"],
    ]);
    expect(changes[0]?.source).toEqual(CITY);
    expect(changes[2]?.source.title).toContain('"Example", which names no source');
  });

  it("keeps the changes and the base in the merged file, which is whole", () => {
    expect(standard.changes).toEqual(changes);
    expect(standard.mergedFrom).toEqual(["us-common"]);
    expect(standard.id).toBe("us-common-changed");
    expect(Object.hasOwn(merged, "extends")).toBe(false);
  });

  it("leaves no changed value under the source of the old one", () => {
    expect(ruleOf(standard, "roadway-headroom").source).toEqual(CITY);
    expect(standard.provenance["pruning.cycleYears"]?.title).toContain("names no source");
  });

  it("leaves what it was given as it was", () => {
    expect(standardOf(usCommonSource).pruning.cycleYears).toBe(5);
  });
});

describe("who says a changed value", () => {
  it("is the source beside it, for the changed value alone", () => {
    const { merged } = mergeOf({ pruning: { cycleYears: 4, source: CITY } });
    expect(standardOf(merged).provenance["pruning.cycleYears"]).toEqual(CITY);
    expect(standardOf(merged).pruning.source).toEqual(standardOf(usCommonSource).pruning.source);
  });

  it("is else the override's own", () => {
    const { merged, changes } = mergeOf({ source: CITY, rules: { "walkway-headroom": { minimum: "9 ft" } } });
    expect(changes[0]?.source).toEqual(CITY);
    expect(ruleOf(standardOf(merged), "walkway-headroom").source).toEqual(CITY);
  });

  it("of a clear-to alone stands in provenance; the minimum keeps its own", () => {
    const { merged } = mergeOf({ rules: { "walkway-headroom": { clearTo: "10 ft", source: CITY } } });
    const standard = standardOf(merged);
    expect(standard.provenance["rules.walkway-headroom.clearTo"]).toEqual(CITY);
    expect(ruleOf(standard, "walkway-headroom").source).toEqual(
      ruleOf(standardOf(usCommonSource), "walkway-headroom").source,
    );
  });

  it("is told anew where a profile's value is changed again", () => {
    const first = mergeStandard(usCommonSource, shippedStandard("city-street-16-walk-8"));
    if ("faults" in first) throw new Error(first.faults.join("\n"));
    const { merged } = mergeOf(
      { rules: { "roadway-headroom": { minimum: "17 ft", clearTo: "18 ft", source: CITY } } },
      first.merged,
    );
    const standard = standardOf(merged);
    expect(standard.mergedFrom).toEqual(["us-common", "city-street-16-walk-8"]);
    expect(Object.hasOwn(standard.provenance, "rules.roadway-headroom.clearTo")).toBe(false);
    const ofMinimum = standard.changes.filter(({ path }) => path === "rules.roadway-headroom.minimum");
    expect(ofMinimum.map(({ from, to }) => [from, to])).toEqual([
      ["14 ft", "16 ft"],
      ["16 ft", "17 ft"],
    ]);
  });
});

describe("other parts", () => {
  it("widths, deadlines, seasons, single lengths and lists", () => {
    const { merged } = mergeOf({
      source: CITY,
      widths: { collector: { typical: "38 ft" } },
      deadlines: { "sign-hidden": 3 },
      seasons: { "oak-wilt-wi": { avoidTo: "08-15" } },
      walkwayWidth: "6 ft",
      conductor: { altitude: "1200 ft" },
      crew: { minutesPerTree: [{ dbhBelow: "1000 cm", minutes: 30 }] },
      rules: { "walkway-headroom": { hazard: { below: "84 in" } } },
    });
    const standard = standardOf(merged);
    expect(standard.widths.collector.typicalM).toBeCloseTo(38 * 0.3048, 9);
    expect(standard.widths.collector.minM).toBeCloseTo(20 * 0.3048, 9);
    expect(standard.deadlines["sign-hidden"]).toBe(3);
    expect(standard.seasons.find(({ id }) => id === "oak-wilt-wi")).toMatchObject({ avoidTo: "08-15", source: CITY });
    expect(standard.walkwayWidthM).toBeCloseTo(6 * 0.3048, 9);
    expect(standard.conductor.altitudeM).toBeCloseTo(1200 * 0.3048, 9);
    expect(standard.crew.minutesPerTree).toHaveLength(1);
    expect(ruleOf(standard, "walkway-headroom").hazard).toMatchObject({ kind: "walk-headroom" });
    // One each, and the season's source.
    expect(standard.changes).toHaveLength(8);
  });

  it("rules and seasons can be added; they stand last", () => {
    const { id: _id, ...season } = standardOf(usCommonSource).seasons[0]!;
    const { merged, changes } = mergeOf({ addSeasons: [{ id: "ours", ...season }] });
    expect(standardOf(merged).seasons.at(-1)?.id).toBe("ours");
    expect(changes[0]).toMatchObject({ path: "seasons.ours", from: null });
  });
});

describe("faults", () => {
  test.each([
    [
      { rules: { "roadway-hedroom": { minimum: "15 ft" } } },
      'rules.roadway-hedroom: No such rule; the nearest are "roadway-headroom"',
    ],
    [
      { rules: { "roadway-headroom": { minimun: "15 ft" } } },
      'rules.roadway-headroom.minimun: No such field; the nearest are "minimum"',
    ],
    [{ pruning: { cycleYear: 4 } }, 'pruning.cycleYear: No such field; the nearest are "cycleYears"'],
    [{ prunning: {} }, 'prunning: No such field; the nearest are "pruning"'],
    [{ seasons: { "oak-wilt": {} } }, 'seasons.oak-wilt: No such season; the nearest are "oak-wilt-wi"'],
    [
      { rules: { "roadway-headroom": { minimum: "15" } } },
      "rules.roadway-headroom.minimum: Expected a length with its unit",
    ],
    [
      { rules: { "roadway-headroom": { minimum: "16 ft" } } },
      "rules.roadway-headroom.minimum: Expected a minimum of at most clearTo, 15 ft",
    ],
    [{ rules: { "roadway-headroom": { kind: "walkway" } } }, "rules.roadway-headroom.kind: No such field"],
    [{ title: 4 }, "title: "],
  ])("%j", (override, fault) => {
    expect(faultsOf(override).join("\n")).toContain(fault);
  });

  it("an id added twice", () => {
    const rule = (usCommonSource as { rules: object[] }).rules[0];
    expect(faultsOf({ addRules: [rule] })).toEqual(["roadway-headroom: Expected an id once, got it twice"]);
  });

  it("names that mean something to the language are names like others", () => {
    const hostile = JSON.parse(
      '{"rules":{"__proto__":{"minimum":"15 ft"},"constructor":{}},"provenance":{}}',
    ) as object;
    expect(faultsOf(hostile).length).toBeGreaterThan(0);
    expect(({} as { minimum?: string }).minimum).toBeUndefined();
  });
});

test("merging nothing changes nothing, and any minimum that is merged is the one that is read", () => {
  expect(mergeOf({}).changes).toEqual([]);
  const rule = fc.constantFrom("roadway-headroom", "walkway-headroom", "building-side");
  const run = fc.property(rule, fc.integer({ min: 1, max: 40 }), (id, feet) => {
    const { merged, changes } = mergeOf({ rules: { [id]: { minimum: `${feet} ft`, clearTo: "40 ft" } } });
    expect(ruleOf(standardOf(merged), id).minimumM).toBeCloseTo(feet * 0.3048, 9);
    // Taking the changes back gives the rule as it was.
    const back = Object.fromEntries(
      changes.filter(({ path }) => path.startsWith("rules.")).map(({ path, from }) => [path.split(".").at(-1)!, from]),
    );
    const undone = mergeOf({ rules: { [id]: back } }, merged).merged;
    expect(ruleOf(standardOf(undone), id)).toEqual(ruleOf(standardOf(usCommonSource), id));
  });
  fc.assert(run, { seed: 1, numRuns: 60 });
});
