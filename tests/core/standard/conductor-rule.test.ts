import { expect, it, test } from "vitest";
import { approachDistanceM, equipmentDistanceM } from "../../../src/core/standard/approach-distance.ts";
import { conductorRuleOf, holdsVoltage, minimumAtM } from "../../../src/core/standard/conductor-rule.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { ruleOf, shipped } from "./shipped.ts";

const standard = usCommon();
const rule = ruleOf(standard, "conductor-distribution");

test.each([
  [{ overV: 100, fromV: null, upToV: 200, belowV: null }, [101, 200], [100, 201]],
  [{ overV: null, fromV: 100, upToV: null, belowV: 200 }, [100, 199], [99, 200]],
  [{ overV: null, fromV: null, upToV: null, belowV: null }, [0, 1e6], []],
])("a class %j holds %j and not %j", (bounds, inside, outside) => {
  const one = { ...rule, ...bounds };
  expect(inside.every((voltageV) => holdsVoltage(one, voltageV))).toBe(true);
  expect(outside.some((voltageV) => holdsVoltage(one, voltageV))).toBe(false);
});

it("takes the first rule for an unknown voltage, or that of the assumed one", () => {
  expect(conductorRuleOf(standard, null)?.id).toBe("conductor-distribution");
  const wildland = shipped("california-wildland");
  const assumed = { ...wildland, conductor: { ...wildland.conductor, assumedVoltageV: 115_000 } };
  expect(conductorRuleOf(assumed, null)?.id).toBe("conductor-110-kv-up");
  expect(conductorRuleOf({ ...standard, rules: [] }, null)).toBeNull();
});

it("takes the largest minimum where classes overlap", () => {
  const larger = { ...rule, id: "larger", minimumM: 2 };
  expect(conductorRuleOf({ ...standard, rules: [rule, larger] }, 12_000)?.id).toBe("larger");
});

it("has one minimum at any altitude where a rule has no bands", () => {
  expect(minimumAtM(rule, 4000)).toBe(rule.minimumM);
});

it("looks a band up, its upper end included", () => {
  const banded = {
    ...rule,
    minimumM: 3,
    byAltitude: [
      { upToM: 100, minimumM: 1 },
      { upToM: 200, minimumM: 3 },
    ],
  };
  expect([-5, 100, 100.1, 200, 201, null].map((altitudeM) => minimumAtM(banded, altitudeM))).toEqual([
    1,
    1,
    3,
    3,
    null,
    3,
  ]);
});

it("an unknown voltage takes the largest distance, wherever it stands in the table", () => {
  const conductor = {
    ...standard.conductor,
    approach: [
      { upToV: 1000, distanceM: 9 },
      { upToV: 2000, distanceM: 4 },
    ],
    equipmentApproach: null,
  };
  const odd = { ...standard, conductor };
  expect([null, 500, 1000, 1001, 2000, 2001].map((voltageV) => approachDistanceM(odd, voltageV))).toEqual([
    9, 9, 9, 4, 4, 9,
  ]);
  expect(equipmentDistanceM(odd, 500)).toBeNull();
  expect(equipmentDistanceM(standard, null)).toBeCloseTo(45 * 0.3048, 9);
});
