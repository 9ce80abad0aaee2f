import { describe, expect, it } from "vitest";
import type { TreeSetting } from "../../../src/core/model/conflict.ts";
import { crewFor, visitHours } from "../../../src/core/prescription/crew.ts";
import { conflict, setting, standard, tree } from "./scene.ts";

const low = { reachM: 3, limbM: 0.03, sidesDeg: [90] };
const line = (over: Partial<NonNullable<TreeSetting["conductor"]>> = {}): TreeSetting =>
  setting({
    conductor: {
      withId: "c",
      crownGapM: 6,
      trunkDistanceM: 10,
      bearingDeg: 90,
      heightM: 9,
      voltageV: 12_470,
      approachM: 3.048,
      ...over,
    },
  });

describe("who may do it", () => {
  it("sends a ground crew only within pole reach and limb size", () => {
    expect(crewFor(tree(), setting(), [], low, standard)).toBe("ground");
    expect(crewFor(tree(), setting(), [], { ...low, reachM: 4.01 }, standard)).toBe("aerial");
    expect(crewFor(tree(), setting(), [], { ...low, limbM: 0.051 }, standard)).toBe("aerial");
  });

  it("never sends a plain ground crew where nobody knows the lines", () => {
    expect(crewFor(tree(), setting({ conductorsKnown: false }), [], low, standard)).toBe("aerial");
  });

  it("needs line clearance within the approach distance of what is cut", () => {
    expect(crewFor(tree(), line({ crownGapM: 3.0 }), [], low, standard)).toBe("line-clearance");
    expect(crewFor(tree(), line({ crownGapM: 3.1 }), [], low, standard)).toBe("ground");
    // The far side of a crown whose trunk stands clear of the line.
    expect(crewFor(tree(), line({ crownGapM: 3.0 }), [], { ...low, sidesDeg: [270] }, standard)).toBe("ground");
    // All round, or a trunk within the distance itself.
    expect(crewFor(tree(), line({ crownGapM: 3.0 }), [], { ...low, sidesDeg: [null] }, standard)).toBe(
      "line-clearance",
    );
    expect(
      crewFor(tree(), line({ crownGapM: 3.0, trunkDistanceM: 2 }), [], { ...low, sidesDeg: [270] }, standard),
    ).toBe("line-clearance");
  });

  it("needs line clearance where a limb falls past a lower line", () => {
    // Crown edge 4 m out, line 6 m from the trunk: 2 m beside the limb's fall, and below the cut at 5 m.
    const below = line({ crownGapM: 3.5, trunkDistanceM: 6, heightM: 4 });
    expect(crewFor(tree(), below, [], { ...low, reachM: 5 }, standard)).toBe("line-clearance");
  });

  it("keeps the ground crew out of the approach distance the setting gives, whatever it is", () => {
    // 24 ft = 7.3 m, the largest of the table, which a line of unknown voltage gets.
    const unknown = (crownGapM: number) =>
      line({ voltageV: null, approachM: 24 * 0.3048, crownGapM, trunkDistanceM: 15 });
    expect(crewFor(tree(), unknown(7.2), [], low, standard)).toBe("line-clearance");
    expect(crewFor(tree(), unknown(7.4), [], low, standard)).toBe("ground");
  });

  it("leaves the inside of the minimum of 50 kV and more to the utility", () => {
    const wire = conflict("conductor", 0.3, { distanceM: 4 });
    expect(crewFor(tree(), line({ voltageV: 69_000 }), [wire], low, standard)).toBe("utility");
    expect(crewFor(tree(), line({ voltageV: 12_470 }), [wire], low, standard)).toBe("line-clearance");
    expect(
      crewFor(tree(), line({ voltageV: 69_000 }), [conflict("conductor", 0.6, { distanceM: 4 })], low, standard),
    ).toBe("line-clearance");
  });
});

it("takes minutes by stem diameter and set-up", () => {
  // 35 cm: (29.4 + 14) / 60 hours; a stem on a limit belongs to the thicker row: 31 cm the same.
  expect(visitHours(tree({ dbhM: 0.35 }), standard)).toBeCloseTo(43.4 / 60, 3);
  expect(visitHours(tree({ dbhM: 0.31 }), standard)).toBeCloseTo(43.4 / 60, 3);
  expect(visitHours(tree({ dbhM: 0.9 }), standard)).toBeCloseTo(71.4 / 60, 3);
  // No diameter: 12 m over 40 is 30 cm by our estimate.
  expect(visitHours(tree({ dbhM: null }), standard)).toBeCloseTo(35.4 / 60, 3);
});
