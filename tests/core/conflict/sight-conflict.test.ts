import { describe, expect, it } from "vitest";
import type { Finding } from "../../../src/core/model/finding.ts";
import { resolveStandard } from "../../../src/core/standard/resolve-standard.ts";
import type { Standard } from "../../../src/core/standard/standard.ts";
import { features, type Layers, line, only, point, search, type TreeGiven } from "./scene.ts";

const FT = 0.3048;

/** Main Street east-west at 30 mph, a stopped street from the south with or without its sign on record. */
function layers(withSign: boolean): Layers {
  return {
    roads: features(
      "roads",
      {
        geometry: line([
          [-300, 0],
          [0, 0],
          [300, 0],
        ]),
        properties: { class: "collector", speed: "30 mph", name: "Main Street" },
      },
      {
        geometry: line([
          [0, 0],
          [0, -100],
        ]),
        properties: { class: "local", speed: "25 mph" },
      },
    ),
    ...(withSign
      ? { signs: features("signs", { geometry: point(6, -14), properties: { kind: "stop", facing: 180 } }) }
      : {}),
  };
}

/** Inside the triangle to the left, ten meters from the crossing. */
const LOW: TreeGiven = { x: -10, y: -8, heightM: 6, baseM: 1, radiusM: 2, error: 0 };

function standardWith(changes: Record<string, unknown>): Standard {
  const resolved = resolveStandard({ extends: "us-common", title: "test", ...changes });
  if ("faults" in resolved) throw new Error(resolved.faults.join("; "));
  return resolved.standard;
}

describe("a conflict in a sight triangle", () => {
  it("takes its window's top and clear-to from the one rule", () => {
    const standard = standardWith({ rules: { "sight-window": { minimum: "10 ft", clearTo: "12 ft" } } });
    const conflict = only(search([LOW], layers(true), standard).conflicts, "sight-triangle");
    expect([conflict.minimumM, conflict.clearToM, conflict.region.highM]).toEqual([10 * FT, 12 * FT, 12 * FT]);
    expect([conflict.region.lowM, conflict.certainty]).toEqual([2.5 * FT, "confirmed"]);
    // Its lowest leaves at 9 ft: free under 8 ft, in the window up to 10 ft.
    const high = { ...LOW, baseM: 9 * FT };
    const kinds = (of: Standard | undefined): string[] =>
      search([high], layers(true), of).conflicts.map(({ kind }) => kind);
    expect(kinds(undefined)).not.toContain("sight-triangle");
    expect(kinds(standard)).toContain("sight-triangle");
  });

  it("gives the points its headroom lies between, on the ground of the triangle and on the crown above", () => {
    const inside = only(search([LOW], layers(true)).conflicts, "sight-triangle");
    // The trunk stands in it: the crown's base, straight above the trunk's own ground.
    expect([inside.nearest!.thing.heightM, inside.nearest!.crown.heightM, inside.measuredM]).toEqual([0, 1, 1]);
    expect(inside.nearest!.thing.lonDeg).toBe(inside.nearest!.crown.lonDeg);
    // Beside it the underside of the ellipsoid where the triangle begins: 1 + 2.5 (1 - sqrt(1 - (d / 2)^2)), d the distance from the trunk.
    const beside = only(search([{ ...LOW, y: -10 }], layers(true)).conflicts, "sight-triangle");
    const d = beside.distanceM;
    expect(d).toBeGreaterThan(0);
    expect(d).toBeLessThan(2);
    expect(beside.nearest!.crown.heightM).toBeCloseTo(1 + 2.5 * (1 - Math.sqrt(1 - (d / 2) ** 2)), 6);
    expect(beside.nearest!.crown.heightM).toBeCloseTo(beside.measuredM, 9);
  });

  it("is possible at most where the control is assumed, and is measured all the same", () => {
    const found = search([LOW], layers(false));
    const conflict = only(found.conflicts, "sight-triangle");
    expect([conflict.certainty, conflict.basis, conflict.hazard]).toEqual(["possible", "assumed", null]);
    expect(conflict.doubt).toContain("a stop sign is assumed");
    expect(found.notChecked).not.toContain("sight-triangle");
  });

  it("is foreseen for a plant that grows up into the window", () => {
    // 0.6 m high, 0.1 m a year: at 2.5 ft = 0.762 m in 1.6 years, in the fall of 2027.
    const shrub: TreeGiven = { ...LOW, heightM: 0.6, baseM: 0, radiusM: 0.8, heightGrowthM: 0.1 };
    const conflict = only(search([shrub], layers(true)).conflicts, "sight-triangle");
    expect(conflict.reachedOn.slice(0, 4)).toBe("2027");
    expect([conflict.certainty, conflict.encroachmentM]).toEqual(["probable", 0]);
    expect(search([{ ...shrub, heightGrowthM: 0 }], layers(true)).conflicts.map(({ kind }) => kind)).not.toContain(
      "sight-triangle",
    );
  });
});

describe("a trunk in a sight triangle", () => {
  /** What is said of trees of some stem diameters, beside each other. */
  function trunks(dbhM: readonly (number | null)[], sight: Record<string, unknown> = {}): Finding[] {
    const standard = standardWith({ sight });
    const given = dbhM.map((thickM, at): TreeGiven => ({ ...LOW, x: -10 - at, baseM: 3, dbhM: thickM }));
    return search(given, layers(true), standard).findings.filter(({ code }) => code === "trunk-in-sight-triangle");
  }

  it("is told where it is wider than the standard lets stand, or of unknown width", () => {
    expect(trunks([0.3])).toEqual([]);
    expect(trunks([0.31])[0]!.reason).toContain("where trunks up to 1 ft may stand");
    expect(trunks([null])[0]!.reason).toContain("of unknown thickness");
    expect(trunks([0.5], { trunks: { maxWidth: null } })).toEqual([]);
  });

  it("is told from one more than may stand", () => {
    const found = trunks([0.1, 0.1, 0.1], { trunks: { maxWidth: "10 in", maxCount: 2 } });
    expect(found.map(({ feature, reason }) => [feature, reason.includes("trunk number 3")])).toEqual([["t2", true]]);
  });
});
