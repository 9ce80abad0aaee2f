import { describe, expect, it } from "vitest";
import { causeWords } from "../../../src/core/prescription/cause-words.ts";
import { thingsWords, thingWords } from "../../../src/core/prescription/conflict-words.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { conflict, tree } from "./scene.ts";

// The scene's crown is 4 m wide and 12 m high; its things lie 1 m to the east.
const saying = (...given: Parameters<typeof conflict>) => causeWords(conflict(...given), tree(), "metric");
const later = { reachedOn: isoDate("2029-05-04") };

describe("what is open", () => {
  it("is told with what was measured and what is needed", () => {
    expect(saying("roadway", 3.1)).toBe("Branches hang 3.1 m above the lane; 4.3 m is needed.");
    expect(saying("building-side", 0.4)).toBe("Branches come within 0.4 m of the wall; 0.9 m is needed.");
    expect(saying("sight-triangle", 1.2)).toBe(
      "Leaves hang down to 1.2 m, in the view at the intersection; it must be clear up to 2.4 m.",
    );
  });

  it("has no figure where branches touch: neither nothing above the ground nor meters past a wall", () => {
    expect(saying("walkway", 0)).toBe("Branches reach down to the ground over the walk; 2.4 m is needed.");
    expect(saying("building-side", -2.1)).toBe("Branches touch the wall; 0.9 m of free space is needed.");
    expect(saying("building-side", 0.04)).toBe("Branches touch the wall; 0.9 m of free space is needed.");
    expect(saying("conductor", -0.5)).toBe(
      "The overhead line runs through the crown or touches it; 0.5 m of free space is needed.",
    );
    const roof = {
      ...conflict("roadway", -9),
      kind: "building-roof",
      minimumM: 1.8288,
      withName: "Elm House",
    } as const;
    expect(causeWords(roof, tree(), "metric")).toBe(
      "Branches touch or overhang the edge of the roof of Elm House; 1.8 m above it must be free.",
    );
  });

  it("is told in words where rounding hides the difference", () => {
    // 4.25 and 4.2672 m both read 4.3 m; 14 ft less a quarter inch reads 14 ft.
    expect(saying("roadway", 4.25)).toBe("Branches hang just less than the 4.3 m needed above the lane.");
    expect(causeWords(conflict("roadway", 14 * 0.3048 - 0.006), tree(), "us")).toBe(
      "Branches hang just less than the 14 ft needed above the lane.",
    );
    expect(saying("building-side", 0.9)).toBe("Branches come just nearer to the wall than the 0.9 m needed.");
  });
});

describe("what is still to come", () => {
  it("is told with its date", () => {
    expect(saying("roadway", 4.6, later)).toBe(
      "Branches hang 4.6 m above the lane; it will be less than the 4.3 m needed by 4 May 2029.",
    );
    expect(saying("roadway", 4.3, later)).toBe(
      "Branches hang just over the 4.3 m needed above the lane; it will be less by 4 May 2029.",
    );
    expect(saying("building-side", 1.4, later)).toBe(
      "Branches come within 1.4 m of the wall; it will be less than the 0.9 m needed by 4 May 2029.",
    );
  });

  it("gives no headroom to a crown that is not over the thing yet", () => {
    // The crown ends at 4 m, the road begins at 5 m; in place of a headroom the record holds the minimum.
    const notYet =
      "Branches do not reach over the lane yet; by 4 May 2029 they are expected to, below the 4.3 m needed.";
    expect(saying("roadway", 4.2672, { ...later, distanceM: 5 })).toBe(notYet);
    expect(saying("roadway", 9, { ...later, distanceM: 5 })).toBe(notYet);
    expect(saying("sight-triangle", 2.4384, { ...later, distanceM: 5 })).toContain("do not reach into the view");
    // Measured in the field it hangs over the road, whatever the model says.
    const measured = conflict("roadway", 4.5, { ...later, distanceM: 5 });
    expect(causeWords(measured, tree({ headroomOverRoadM: 4.5 }), "metric")).toContain("Branches hang 4.5 m above");
  });
});

describe("what is only possible", () => {
  it("is told as an estimate, without a date that nobody knows", () => {
    const possible = { ...later, certainty: "possible" } as const;
    expect(saying("roadway", 6.4, possible)).toBe(
      "Branches may hang lower than the 4.3 m needed above the lane; by estimate they hang 6.4 m above it.",
    );
    expect(saying("roadway", 9, { ...possible, distanceM: 5 })).toBe(
      "Branches may hang lower than the 4.3 m needed above the lane; by estimate they do not reach over it yet.",
    );
    expect(saying("building-side", 1.9, possible)).toBe(
      "Branches may come nearer to the wall than the 0.9 m needed; by estimate they come within 1.9 m of it.",
    );
    for (const kind of ["roadway", "walkway", "building-side", "conductor", "sight-triangle"] as const) {
      expect(saying(kind, 3, possible)).not.toMatch(/\d{4}/);
    }
  });
});

it("measures a hedge in a sight triangle by its height", () => {
  const hedge = tree({ form: "hedge", heightM: 1.4, baseM: 0, radiusM: 0.6 });
  expect(causeWords(conflict("sight-triangle", 0), hedge, "metric")).toBe(
    "It grows in the view at the intersection, 1.4 m high; it is to be kept below 0.8 m.",
  );
});

it("does not call a walk by the street's name alone", () => {
  expect(thingWords(conflict("walkway", 2, { withName: "Alder Street" }))).toBe("the walk along Alder Street");
  expect(thingWords(conflict("bikeway", 2, { withName: "River Path" }))).toBe("River Path");
  expect(thingWords(conflict("roadway", 2, { withName: "Alder Street" }))).toBe("Alder Street");
});

it("names several conflicts with one thing once", () => {
  const line = conflict("conductor", 0.3);
  expect(thingsWords([line, { ...line, withId: "y" }, conflict("walkway", 2)])).toBe("the overhead line and the walk");
});
