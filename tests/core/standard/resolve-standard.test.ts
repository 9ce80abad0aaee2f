import { describe, expect, it, test } from "vitest";
import { usCommonSource } from "../../../src/core/standard/parse-standard.ts";
import { resolveStandard } from "../../../src/core/standard/resolve-standard.ts";
import { SHIPPED_STANDARDS, shippedStandard } from "../../../src/core/standard/shipped-standards.ts";

const resolved = (given: unknown) => {
  const result = resolveStandard(given);
  if ("faults" in result) throw new Error(result.faults.join("\n"));
  return result;
};
/** What is below a legal floor; what a standard changes is told beside it. */
const belowFloor = (given: ReturnType<typeof resolved>) =>
  given.findings.filter(({ code }) => code === "below-legal-floor");
const city = (override: object) => resolved({ extends: "us-common", title: "Example", ...override });

it("takes a whole standard as it is", () => {
  const { standard, json, findings } = resolved(usCommonSource);
  expect(json).toBe(usCommonSource);
  expect(standard.changes).toEqual([]);
  expect(findings).toEqual([]);
});

it("takes a merged one again as it is, with its changes", () => {
  const first = city({ pruning: { cycleYears: 4 } });
  const again = resolved(first.json);
  expect(again.standard).toEqual(first.standard);
  expect(again.standard.changes.map(({ path }) => path)).toEqual(["pruning.cycleYears"]);
});

it("names the nearest shipped standard for one that is not", () => {
  const result = resolveStandard({ extends: "us-comon", title: "Example" });
  expect(result).toEqual({ faults: [expect.stringContaining('the nearest are "us-common"')] });
  for (const given of [null, 4, "us-common", [], { extends: null, title: "x" }]) {
    expect(resolveStandard(given)).toHaveProperty("faults");
  }
});

describe("a shipped standard", () => {
  test.each(SHIPPED_STANDARDS.map(({ id }) => [id] as const))("%s merges, under its own id", (id) => {
    const { standard, ...rest } = resolved(shippedStandard(id));
    expect(standard.id).toBe(id);
    // Miamisburg's 12 ft is under the height of a legal vehicle; no other goes below the law.
    expect(belowFloor({ standard, ...rest }).map(({ feature, field }) => [feature, field])).toEqual(
      id === "city-street-12-walk-8" ? [["roadway-headroom", "minimum"]] : [],
    );
  });
});

describe("below-legal-floor", () => {
  it("names the floor and its source", () => {
    const findings = belowFloor(city({ rules: { "walkway-headroom": { minimum: "78 in" } } }));
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({
      code: "below-legal-floor",
      severity: "warning",
      layer: "standard",
      feature: "walkway-headroom",
      field: "minimum",
      value: "78 in",
    });
    expect(findings[0]?.reason).toContain("80 in (ADA/ABA Accessibility Standards, 307.4");
  });

  it("is not given at the floor, however it is written", () => {
    for (const minimum of ["80 in", "6 ft 8 in", "2.032 m"]) {
      expect(belowFloor(city({ rules: { "walkway-headroom": { minimum } } }))).toEqual([]);
    }
  });

  test.each([
    ["roadway-headroom", { minimum: "13 ft" }, "13 ft 6 in"],
    ["conductor-distribution", { minimum: "12 in" }, "18 in"],
    ["bus-route-headroom", { hazard: { below: "13 ft" } }, "13 ft 6 in"],
    ["bikeway-headroom", { hazard: null }, "80 in"],
    // Taking the floor away, or lowering it, does not hide what is below it.
    ["walkway-headroom", { minimum: "78 in", floor: null }, "80 in"],
    ["walkway-headroom", { minimum: "78 in", floor: { minimum: "70 in" } }, "80 in"],
  ])("%s %j is below %s", (id, rule, floor) => {
    const findings = belowFloor(city({ rules: { [id]: rule } }));
    expect(findings.map(({ feature }) => feature)).toContain(id);
    expect(findings[0]?.reason).toContain(floor);
  });

  it("is given for a worker approach distance shorter than the legal one, at any voltage", () => {
    const approach = [
      { upToV: 200_000, distance: "20 ft" },
      { upToV: 800_000, distance: "20 ft" },
    ];
    const findings = belowFloor(city({ conductor: { approach } }));
    expect(findings).toMatchObject([{ code: "below-legal-floor", feature: "conductor", field: "approach" }]);
    expect(belowFloor(city({ conductor: { approach: [{ upToV: 800_000, distance: "24 ft" }] } }))).toEqual([]);
  });
});

describe("standard-changed", () => {
  it("tells every changed value once, without its source", () => {
    const { findings } = city({
      rules: { "roadway-headroom": { minimum: "15 ft", clearTo: "16 ft" } },
      pruning: { cycleYears: 4 },
      addRules: [],
    });
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ code: "standard-changed", severity: "info", layer: "standard", value: "3" });
    expect(findings[0]!.reason).toBe(
      '"Example" changes us-common: rules.roadway-headroom.minimum 14 ft to 15 ft; rules.roadway-headroom.clearTo 15 ft to 16 ft; pruning.cycleYears 5 to 4.',
    );
  });

  it("counts what would be too much to read, and names what is added", () => {
    const widths = Object.fromEntries(
      ["collector", "freeway", "minor-arterial", "local-access"].map((name) => [name, { lane: "10 ft", speedMph: 20 }]),
    );
    // Eight values, of which the lanes of local access roads are 10 ft already.
    expect(city({ widths }).findings[0]!.reason).toMatch(/; and 1 more\.$/);
    expect(resolved(shippedStandard("fire-lanes")).findings[0]!.reason).toContain("rules.fire-lane-headroom added");
  });

  it("is not given where nothing is changed", () => {
    expect(city({}).findings).toEqual([]);
    expect(city({ pruning: { cycleYears: 5 } }).findings).toEqual([]);
  });
});
