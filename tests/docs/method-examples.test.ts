import { describe, expect, it } from "vitest";
import { crownOf, liveCrownRatio, lowerSurfaceM, roundCrown } from "../../src/core/crown/crown.ts";
import { rayRadiiM, unionDose } from "../../src/core/crown/dose.ts";
import { computeOptions } from "../../src/core/prescription/options.ts";
import { hazardDeadline } from "../../src/core/schedule/hazard-deadline.ts";
import {
  intersectionSightDistanceFt,
  roundUpTo5,
} from "../../src/core/surroundings/sight/intersection-sight-distance-ft.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import { features, line, OPTIONS, only, point, polygon, STANDARD, search, tree } from "../core/conflict/scene.ts";
import { read, sectionOf } from "./markdown.ts";

// The page's own examples. Expected values are the page's arithmetic; `says` holds the page to what the code gives.
const page = read("docs/method.md");
const says = (example: string, figure: string): void =>
  expect(sectionOf(page, example), `"${figure}" in "${example}"`).toContain(figure);

const GIVEN = { heightM: 12, baseM: 2.5, radiusM: 5 };
const edge = polygon([
  [3, -100],
  [15, -100],
  [15, 100],
  [3, 100],
]);
const found = () =>
  search([GIVEN], { roads: features("roads", { geometry: edge, properties: { class: "residential" } }) }, STANDARD, {
    ...OPTIONS,
    asOf: isoDate("2026-11-02"),
  });

describe("example 1, headroom over a street", () => {
  const heading = "### 1 Headroom over a street";
  const conflict = only(found().conflicts, "roadway");

  it("measures 3.45 m", () => {
    // 2.5 + 0.1 * 9.5; the scene's coordinates are good to a tenth of a millimeter.
    expect(conflict.measuredM).toBeCloseTo(3.45, 3);
    expect(lowerSurfaceM(roundCrown(12, 2.5, 5, "ellipsoid"), 3, 0)).toBeCloseTo(3.45, 12);
    // 4.2672 - 3.45
    expect(conflict.encroachmentM).toBeCloseTo(0.8172, 3);
    says(heading, `**${conflict.measuredM.toFixed(2)} m**`);
    says(heading, `**${conflict.encroachmentM.toFixed(3)} m**`);
    says(heading, `14 ft = ${conflict.minimumM.toFixed(4)} m`);
  });

  it("is a hazard due in 30 days", () => {
    expect(conflict.hazard).toBe("vehicle-height");
    expect(hazardDeadline([conflict], STANDARD)).toBe("2026-12-02");
    says(heading, "hazard `vehicle-height`");
    says(heading, "**2026-12-02**");
  });

  it("is probable, for a vase would clear it", () => {
    expect(conflict.certainty).toBe("probable");
    // 2.625 + (3 / 4.75)^2 * (12.6 - 2.625) = 2.625 + 0.39889 * 9.975 = 6.604
    const vase = lowerSurfaceM(roundCrown(12.6, 2.625, 4.75, "vase"), 3, 0);
    expect(vase).toBeCloseTo(6.604, 3);
    says(heading, "**probable**");
    says(heading, `${vase.toFixed(2)} m`);
  });
});

describe("example 2, how far the same tree may be lifted", () => {
  const heading = "### 2 How far the same tree may be lifted";
  const one = tree(GIVEN);
  const crown = crownOf(one);
  const subject = { tree: one, crown, radiiM: rayRadiiM(crown) };
  const conflict = only(found().conflicts, "roadway");
  const percent = (share: number): string => `**${(share * 100).toFixed(1)} %**`;

  it("takes 12.2 % to the clear-to and lasts 0.87 years", () => {
    const all = { fromM: new Float64Array(120), toM: new Float64Array(120).fill(9), lowM: 0, highM: 4.572 };
    const dose = unionDose(crown, [all]).volumeShare;
    // t = 2.072 / 9.5 = 0.218105; t^2 (3 - 2t) = 0.047570 * 2.563789 = 0.121960
    expect(dose).toBeCloseTo(0.12196, 5);
    expect(liveCrownRatio(12, 4.572)).toBeCloseTo(0.619, 12);
    says(heading, percent(dose));
    says(heading, `**${liveCrownRatio(12, 4.572).toFixed(3)}**`);
    // (0.3048 - 0.2) / 0.12
    expect(conflict.droopAllowanceM).toBeCloseTo(0.2, 9);
    says(heading, `**${((conflict.clearToM - conflict.minimumM - 0.2) / 0.12).toFixed(2)} years**`);
  });

  it("is ruled out for a whole cycle and allowed for 2.37 years", () => {
    const lift = computeOptions(subject, [conflict], 0.25, STANDARD).find(({ option }) => option.remedy === "lift")!;
    expect(lift.ruledOut).toBeNull();
    // 0.8733 + 3 * 0.5; 4.4672 + 2.3733 * 0.12 = 4.752; t = 2.252 / 9.5 = 0.237053, 0.056194 * 2.525895 = 0.141940; 7.248 / 12
    expect(lift.option.lastsYears).toBeCloseTo(0.1048 / 0.12 + 1.5, 9);
    expect(lift.option.liftToM).toBeCloseTo(4.752, 9);
    expect(lift.option.doseShare).toBeCloseTo(0.14194, 5);
    expect(lift.option.liveCrownRatioAfter).toBeCloseTo(0.604, 9);
    says(heading, `${lift.option.lastsYears.toFixed(2)} years`);
    says(heading, `**${lift.option.liftToM!.toFixed(3)} m**`);
    says(heading, percent(lift.option.doseShare));
    says(heading, `**${lift.option.liveCrownRatioAfter.toFixed(3)}**`);
    // One step of half a year more: 4.4672 + 2.8733 * 0.12 = 4.812, 7.188 / 12 = 0.599, under 0.6.
    expect(liveCrownRatio(12, 4.812)).toBeLessThan(STANDARD.pruning.liveCrownRatio);
  });
});

describe("example 3, the leg of a sight triangle", () => {
  const heading = "### 3 The leg of a sight triangle";
  const legs = (lanes: number) => {
    const roads = features(
      "roads",
      {
        geometry: line([
          [-400, 0],
          [0, 0],
          [400, 0],
        ]),
        properties: { class: "collector", speed: "30 mph", lanes },
      },
      {
        geometry: line([
          [0, 0],
          [0, -200],
        ]),
        properties: { class: "residential", speed: "25 mph", lanes: 2 },
      },
    );
    const signs = features("signs", { geometry: point(6, -12), properties: { kind: "stop", facing: 180 } });
    return search([GIVEN], { roads, signs })
      .around.surroundings.sight.filter(({ kind }) => kind === "sight-triangle")
      .map(({ legM }) => legM);
  };

  it("is 335 ft on a two-lane road of 30 mph", () => {
    // 1.47 * 30 * 7.5 = 330.75 ft, 335 ft, 335 * 0.3048 = 102.108 m
    expect(intersectionSightDistanceFt(30, 7.5)).toBeCloseTo(330.75, 9);
    expect(roundUpTo5(330.75)).toBe(335);
    expect(legs(2).map((legM) => legM.toFixed(3))).toEqual(["102.108", "102.108"]);
    for (const figure of ["330.75 ft", "**335 ft**", "**102.108 m**"]) says(heading, figure);
  });

  it("is 355 ft on a four-lane one", () => {
    // 1.47 * 30 * 8 = 352.8 ft, 355 ft, 108.204 m
    expect(intersectionSightDistanceFt(30, 8)).toBeCloseTo(352.8, 9);
    expect(legs(4).map((legM) => legM.toFixed(3))).toEqual(["108.204", "108.204"]);
    for (const figure of ["352.8 ft", "**355 ft**", "**108.204 m**"]) says(heading, figure);
  });
});
