import { describe, expect, it } from "vitest";
import { grownTree } from "../../src/core/crown/grown-tree.ts";
import { traits, tree } from "./prescription/scene.ts";

describe("grownTree", () => {
  it("widens by the radius rate, lowers the base by the droop, and grows taller up to the mature height", () => {
    const young = tree({ heightM: 12, baseM: 3, radiusM: 4, headroomOverRoadM: 4.4 });
    const later = grownTree(young, 5, 0.05);
    // 0.15 m a year for 5 years; 0.05 m a year of droop; 0.4 m a year of height.
    expect(later.radius.valueM).toBeCloseTo(4.75, 9);
    expect(later.radii.northM).toBeCloseTo(4.75, 9);
    expect(later.crownBase.valueM).toBeCloseTo(2.75, 9);
    expect(later.height.valueM).toBeCloseTo(14, 9);
    expect(later.headroomOverRoadM).toBeCloseTo(4.15, 9);
    const old = grownTree(tree({ heightM: 21, traits: traits({ matureHeightM: 20 }) }), 5, 0.05);
    expect(old.height.valueM).toBe(21);
  });

  it("keeps the width of an interval and its basis", () => {
    const given = tree();
    const size = { valueM: 4, lowM: 3.5, highM: 5, basis: "estimated" as const, source: "an equation" };
    const later = grownTree({ ...given, radius: size }, 2, 0);
    expect(later.radius.highM - later.radius.lowM).toBeCloseTo(1.5, 9);
    expect(later.radius.basis).toBe("estimated");
  });
});
