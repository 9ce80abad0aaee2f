import { describe, expect, test } from "vitest";
import { ROAD_CLASSES } from "../../../src/core/model/surroundings.ts";
import { parseStandard, usCommon, usCommonSource } from "../../../src/core/standard/parse-standard.ts";

/** The parts of the shipped JSON that the tests break. */
interface Given {
  rules: Record<string, unknown>[];
  provenance: Record<string, unknown>;
  pruning?: unknown;
}
const copy = (): Given => structuredClone(usCommonSource) as Given;
const faultsOf = (json: unknown): string => {
  const parsed = parseStandard(json);
  return "faults" in parsed ? parsed.faults.join("\n") : "";
};

test("the shipped standard is in meters: feet times 0.3048, inches times 0.0254", () => {
  const { rules, sight } = usCommon();
  const rule = (id: string) => rules.find((one) => one.id === id);
  expect(rule("roadway-headroom")).toMatchObject({ minimumM: 14 * 0.3048, clearToM: 15 * 0.3048 });
  // 13 ft 6 in is 13.5 ft; 80 in is 2.032 m; 18 in is 0.4572 m.
  expect(rule("roadway-headroom")?.hazard?.belowM).toBeCloseTo(4.1148, 10);
  expect(rule("walkway-headroom")?.hazard?.belowM).toBeCloseTo(2.032, 10);
  expect(rule("conductor-distribution")?.minimumM).toBeCloseTo(0.4572, 10);
  expect(sight.windowLowM).toBeCloseTo(0.762, 10);
});

test("widths are ordered, minimum to maximum, for every road class", () => {
  const { widths } = usCommon();
  for (const roadClass of ROAD_CLASSES) {
    const { minM, typicalM, maxM } = widths[roadClass];
    expect(minM <= typicalM && typicalM <= maxM).toBe(true);
  }
});

test("every number stands in a member with a source, its own or one in provenance", () => {
  const provenance = new Set(Object.keys(copy().provenance));
  const isValue = (value: unknown) => typeof value === "number" || (typeof value === "string" && /^\d/.test(value));
  const unsourced: string[] = [];
  const visit = (value: unknown, path: string, isSourced: boolean): void => {
    if (isValue(value) && !isSourced) unsourced.push(path);
    if (typeof value !== "object" || value === null) return;
    const own = Object.hasOwn(value, "source") && path !== "pruning";
    for (const [key, member] of Object.entries(value)) {
      if (key === "provenance" || key === "source" || key === "section") continue;
      const at = path === "" ? key : `${path}.${key}`;
      visit(member, at, isSourced || own || provenance.has(at));
    }
  };
  visit(usCommonSource, "", false);
  expect(unsourced).toEqual([]);
});

describe("a faulty standard is refused with the place of each fault", () => {
  test.each([
    ["fourteen feet", "rules.0.minimum"],
    ["14", "rules.0.minimum"],
    ["-3 ft", "rules.0.minimum"],
    ["16 ft", "rules.0.minimum"],
  ])("minimum %s", (minimum, place) => {
    const json = copy();
    json.rules[0]!.minimum = minimum;
    expect(faultsOf(json)).toContain(place);
  });

  test("a bare number as clear-to, an unknown kind, a missing part", () => {
    const json = copy();
    json.rules[0]!.clearTo = "15";
    json.rules[1]!.kind = "hedge";
    delete json.pruning;
    const faults = faultsOf(json);
    for (const place of ["rules.0.clearTo", "rules.1.kind", "pruning"]) expect(faults).toContain(place);
  });

  test("no object at all", () => {
    for (const value of [null, 4, "us-common", []]) expect(faultsOf(value)).not.toBe("");
  });
});
