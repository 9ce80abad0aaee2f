import { describe, expect, it } from "vitest";
import { droopAllowanceM } from "../../../src/core/standard/droop-allowance.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { resolveStandard } from "../../../src/core/standard/resolve-standard.ts";

const STANDARD = usCommon();

describe("droopAllowanceM", () => {
  it("adds leaf and rain, and never ice to them", () => {
    // Deciduous: leaf 0.1 and rain 0.1 m, or ice 0.2 m. Evergreen: rain 0.1 m, or ice 0.2 m where it is cold enough.
    expect(droopAllowanceM(STANDARD, "roadway", false, 6)).toBeCloseTo(0.2, 9);
    expect(droopAllowanceM(STANDARD, "roadway", true, 6)).toBeCloseTo(0.2, 9);
    expect(droopAllowanceM(STANDARD, "walkway", true, 10)).toBeCloseTo(0.1, 9);
    expect(droopAllowanceM(STANDARD, "walkway", false, 10)).toBeCloseTo(0.2, 9);
    // Where nobody knows how cold it gets, ice is allowed for.
    expect(droopAllowanceM(STANDARD, "fire-lane", true, null)).toBeCloseTo(0.2, 9);
    expect(droopAllowanceM(STANDARD, "fire-lane", true, 8)).toBeCloseTo(0.2, 9);
    expect(droopAllowanceM(STANDARD, "fire-lane", true, 9)).toBeCloseTo(0.1, 9);
  });

  it("is nothing where no rule names the kind", () => {
    expect(droopAllowanceM(STANDARD, "building-side", false, 6)).toBe(0);
    expect(droopAllowanceM(STANDARD, "conductor", false, 6)).toBe(0);
  });

  it("is changed and added to by a city, which the merge shows", () => {
    const source = { title: "Example survey", section: null, known: "read" };
    const resolved = resolveStandard({
      extends: "us-common",
      title: "Example",
      droopAllowances: { leaf: { amount: "30 cm", source } },
      addDroopAllowances: [
        { id: "roof-ice", load: "ice", amount: "50 cm", kinds: ["building-roof"], appliesTo: "all", source },
      ],
    });
    if ("faults" in resolved) throw new Error(resolved.faults.join("\n"));
    expect(droopAllowanceM(resolved.standard, "roadway", false, 10)).toBeCloseTo(0.4, 9);
    expect(droopAllowanceM(resolved.standard, "building-roof", false, 5)).toBeCloseTo(0.5, 9);
    expect(resolved.standard.changes.map(({ path }) => path)).toEqual([
      "droopAllowances.leaf.amount",
      "droopAllowances.leaf.source",
      "droopAllowances.roof-ice",
    ]);
    expect(
      resolveStandard({ extends: "us-common", title: "x", droopAllowances: { snow: { amount: "1 m" } } }),
    ).toHaveProperty("faults");
  });
});
