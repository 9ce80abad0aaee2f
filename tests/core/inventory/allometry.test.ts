import { describe, expect, it } from "vitest";
import { createAllometry } from "../../../src/core/inventory/allometry/allometry.ts";
import { citySpreadOf, elsewhere } from "../../../src/core/inventory/allometry/elsewhere.ts";
import { type Equation, predict } from "../../../src/core/inventory/allometry/equation.ts";
import { expectOverClass } from "../../../src/core/inventory/allometry/expect-over-class.ts";
import { chooseRegion, referenceRegion } from "../../../src/core/inventory/allometry/reference-region.ts";
import { FITTED_SPECIES, typeMedians } from "../../../src/core/inventory/allometry/urban-equations.ts";

const LINE: Equation = {
  form: "lin",
  coefficients: [1, 0.2],
  spread: 0.5,
  variancePower: 0,
  trees: 30,
  fromCm: 5,
  toCm: 50,
  measuredToCm: 40,
};

describe("predict", () => {
  it("spreads 1.645 deviations to either side", () => {
    // 1 + 0.2 * 20 = 5; 1.645 * 0.5 = 0.8225.
    const { valueM, lowM, highM } = predict(LINE, 20);
    expect([valueM, lowM, highM].map((one) => Number(one.toFixed(6)))).toEqual([5, 4.1775, 5.8225]);
  });
  it("lets the spread grow with the weight of the fit", () => {
    // Variance in proportion to dbh: deviation 0.5 * sqrt(25) = 2.5.
    expect(predict({ ...LINE, variancePower: 1 }, 25).highM).toBeCloseTo(6 + 1.645 * 2.5, 9);
  });
  it("stands still outside its range and stretches beyond the measured trees", () => {
    expect(predict(LINE, 1).valueM).toBeCloseTo(2, 12);
    // At most 50 cm: 1 + 10 = 11; asked for 80 cm, twice the largest measured 40 cm, so the deviation doubles.
    const far = predict(LINE, 80);
    expect(far.valueM).toBeCloseTo(11, 12);
    expect(far.highM).toBeCloseTo(11 + 2 * 1.645 * 0.5, 9);
  });
  it("keeps a tenth of the value at the low end, and is lopsided for logarithms", () => {
    expect(predict({ ...LINE, spread: 100 }, 20).lowM).toBeCloseTo(0.5, 12);
    const log: Equation = { ...LINE, form: "expow1", coefficients: [2, 0, 0.04], spread: 0.2 };
    // Median exp(2), mean exp(2.02), limits exp(2 -+ 1.645 * 0.2).
    const { valueM, lowM, highM } = predict(log, 20);
    expect(valueM).toBeCloseTo(Math.exp(2.02), 12);
    expect(lowM).toBeCloseTo(Math.exp(2 - 0.329), 9);
    expect(highM).toBeCloseTo(Math.exp(2 + 0.329), 9);
  });
});

describe("elsewhere", () => {
  it("adds the spread between cities to the variance of the logarithm", () => {
    const prediction = { valueM: 10, lowM: 10 * Math.exp(-0.3), highM: 10 * Math.exp(0.3) };
    // 1.645 x 0.2 = 0.329; the root of 0.3 squared + 0.329 squared is 0.44524.
    const wide = elsewhere(prediction, { share: 0.2, thinStemCm: 0 }, 30);
    expect(Math.log(wide.highM / 10)).toBeCloseTo(0.44524, 5);
    expect(Math.log(10 / wide.lowM)).toBeCloseTo(0.44524, 5);
    // A stem of 2 cm with 0.3 cm: 0.15 more, together 0.25, 1.645 x 0.25 = 0.41125; the root with 0.3 squared is 0.509045.
    expect(Math.log(elsewhere(prediction, { share: 0.2, thinStemCm: 0.3 }, 2).highM / 10)).toBeCloseTo(0.509045, 6);
  });
  it("knows a spread for every level and size", () => {
    for (const level of ["species", "genus", "type"] as const) {
      for (const component of [0, 1, 2]) expect(citySpreadOf(level, component).share).toBeGreaterThan(0.1);
    }
  });
});

describe("createAllometry", () => {
  const allometry = createAllometry(null);
  it("goes from species to genus to type", () => {
    const at = (name: Parameters<typeof allometry.expect>[0]) => allometry.expect(name, 0.3)?.height.source;
    expect(at({ species: "Acer rubrum", genus: "Acer", type: "BDL" })).toContain("Acer rubrum");
    expect(at({ species: null, genus: "Acer", type: "BDL" })).toContain("genus Acer");
    expect(at({ species: null, genus: "Nosuch", type: "BDL" })).toContain("large deciduous broadleaves");
    expect(at({ species: null, genus: null, type: "" })).toContain("trees in general");
    expect(at({ species: "Phoenix canariensis", genus: "Phoenix", type: "PES" })).toBeUndefined();
  });
  it("says whose equation it is, of which city, of how many trees and how sure", () => {
    const here = createAllometry("PacfNW").expect({ species: "Acer platanoides", genus: "Acer", type: "" }, 0.3)!;
    // Table TS6, PacfNW ACPL: a quadratic fitted to 74 trees; at 30 cm a tree lies about it by 1.7 m.
    expect(here.height.source).toBe(
      "urban allometry, Acer platanoides, from dbh: quad of PacfNW (Longview), 74 trees, sigma 1.7 m",
    );
    const genus = allometry.expect({ species: null, genus: "Tilia", type: "" }, 0.3)!;
    expect(genus.height.source).toMatch(
      /^urban allometry, genus Tilia, from dbh: mean of 3 equations of \d regions?, \d+ trees, sigma [\d.]+ m$/,
    );
  });
  it("widens the interval of a stem known as a class, and keeps the value of its middle", () => {
    const name = { species: "Acer platanoides", genus: "Acer", type: "BDL" };
    const exact = allometry.expect(name, 0.25)!;
    const [thin, thick] = [allometry.expect(name, 0.2)!, allometry.expect(name, 0.3)!];
    const classed = expectOverClass(allometry, name, 0.25, { lowM: 0.2, highM: 0.3 })!;
    expect(classed.height.valueM).toBe(exact.height.valueM);
    // Variances add: the equation's half interval and the way to the size at the end of the class.
    expect(exact.height.valueM - classed.height.lowM).toBeCloseTo(
      Math.hypot(exact.height.valueM - exact.height.lowM, exact.height.valueM - thin.height.valueM),
      9,
    );
    expect(classed.radius.highM - exact.radius.valueM).toBeCloseTo(
      Math.hypot(exact.radius.highM - exact.radius.valueM, thick.radius.valueM - exact.radius.valueM),
      9,
    );
    expect(expectOverClass(allometry, name, 0.25, null)).toEqual(exact);
  });
  it("makes a genus the mean of its species", () => {
    const species = ["Tilia americana", "Tilia cordata", "Tilia tomentosa"].map(
      (name) => allometry.expect({ species: name, genus: null, type: "" }, 0.3)!.height.valueM,
    );
    const genus = allometry.expect({ species: null, genus: "Tilia", type: "" }, 0.3)!.height;
    expect(FITTED_SPECIES.filter((one) => one.genus === "Tilia")).toHaveLength(3);
    expect(genus.valueM).toBeCloseTo((species[0]! + species[1]! + species[2]!) / 3, 9);
  });
  it("never lets a crown outgrow its tree, nor a size shrink with the stem", () => {
    for (const { name } of FITTED_SPECIES) {
      let before = 0;
      for (let dbhCm = 2; dbhCm <= 200; dbhCm += 2) {
        const sizes = allometry.expect({ species: name, genus: null, type: "BD" }, dbhCm / 100)!;
        expect(sizes.crownDepth.valueM).toBeLessThanOrEqual(sizes.height.valueM + 1e-9);
        expect(sizes.height.valueM).toBeGreaterThanOrEqual(before - 1e-9);
        expect(sizes.radius.lowM).toBeGreaterThan(0);
        before = sizes.height.valueM;
      }
    }
  });
  it("prefers the equations of the place", () => {
    expect(referenceRegion("ca-bc")).toBe("PacfNW");
    expect(referenceRegion("FR")).toBeNull();
    const here = createAllometry("PacfNW").expect({ species: "Acer platanoides", genus: null, type: "" }, 0.3)!;
    const there = createAllometry("NoEast").expect({ species: "Acer platanoides", genus: null, type: "" }, 0.3)!;
    expect(here.height.valueM).not.toBe(there.height.valueM);
  });
  it("lets a given climate outrank the ISO code, and says what chose", () => {
    const place = { hardinessZone: null, region: "US-CA" };
    expect(chooseRegion(place)).toEqual({ region: "SacVal", because: "place" });
    expect(chooseRegion({ ...place, climate: "SoCalC" })).toEqual({ region: "SoCalC", because: "climate" });
    expect(chooseRegion({ ...place, climate: "nowhere" })).toEqual({ region: "SacVal", because: "place" });
    expect(chooseRegion({ hardinessZone: 8, region: "FR" })).toEqual({ region: null, because: "nothing" });
  });
  it("has medians for every type, and the widest for an unknown one", () => {
    expect(typeMedians("CEL").baseShare).toBeLessThan(0.2);
    expect(typeMedians("XYZ")).toEqual(typeMedians(""));
  });
});
