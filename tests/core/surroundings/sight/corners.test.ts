import { describe, expect, it } from "vitest";
import type { SightArea } from "../../../../src/core/model/surroundings.ts";
import { cornersOf, EAST_WEST, FT, SOUTH, sightScene, standardWith, toldOf } from "./sight-scene.ts";

const LOCAL = { class: "local-residential", speed: "25 mph", width: "20 ft" };
const SIDE = { at: SOUTH, is: LOCAL };
const MAIN = { at: EAST_WEST };

/** Corners in feet, to the tenth. */
const feetOf = (area: SightArea): string[] =>
  cornersOf(area).map((at) => at.map((lengthM) => (Math.round((lengthM / FT) * 10) / 10 + 0).toFixed(1)).join(" "));

describe("plain corners", () => {
  it("run along the edges of the pavement, one a corner, whatever the control", () => {
    const standard = standardWith({ method: "corner", corner: { leg: "25 ft", line: "pavement-edge" } });
    const { sight } = sightScene([MAIN, SIDE], null, null, standard).surroundings;
    expect(toldOf(sight)).toEqual(["null corner right 25.0", "null corner left 25.0"]);
    // Edges 11 ft south of the center of one road, 10 ft beside that of the other.
    expect(feetOf(sight[0]!)).toEqual(["10.0 -11.0", "35.0 -11.0", "10.0 -36.0"]);
    expect(feetOf(sight[1]!)).toEqual(["-10.0 -11.0", "-10.0 -36.0", "-35.0 -11.0"]);
    expect(sight.every(({ doubt }) => doubt === null)).toBe(true);
    const unmeasured = { at: SOUTH, is: { ...LOCAL, width: undefined } };
    expect(sightScene([MAIN, unmeasured], null, null, standard).surroundings.sight[0]!.doubt).toBe(
      "Where the edge of the pavement runs is not measured.",
    );
  });

  it("take in what lies between the lot lines and the pavement, and doubt where the lines run", () => {
    const corner = { leg: "25 ft", line: "lot-line", lotLineBehindEdge: "10 ft" };
    const { sight } = sightScene([MAIN, SIDE], null, null, standardWith({ method: "corner", corner })).surroundings;
    // Lot corner at 20 ft east, 21 ft south; its legs end 25 ft on; from those ends square to the pavement and along it.
    expect(feetOf(sight[0]!)).toEqual(["10.0 -11.0", "45.0 -11.0", "45.0 -21.0", "20.0 -46.0", "10.0 -46.0"]);
    expect(sight[0]!.doubt).toContain("Where the lot lines run is not recorded");
  });

  it("have legs by the larger road's class", () => {
    const corner = { leg: "30 ft", line: "pavement-edge", legByClass: { collector: "50 ft" } };
    const standard = standardWith({ method: "corner", corner });
    const legs = (is: Record<string, unknown>): string[] =>
      toldOf(sightScene([{ at: EAST_WEST, is }, SIDE], null, null, standard).surroundings.sight);
    expect(legs({})).toEqual(["null corner right 50.0", "null corner left 50.0"]);
    expect(legs(LOCAL).map((one) => one.split(" ").pop())).toEqual(["30.0", "30.0"]);
  });

  it("run from the center of the roads where nothing controls and the code says so", () => {
    const corner = { leg: "30 ft", line: "pavement-edge", uncontrolledLeg: "110 ft" };
    const standard = standardWith({ method: "corner", corner });
    const { sight } = sightScene([{ at: EAST_WEST, is: LOCAL }, SIDE], null, null, standard).surroundings;
    // Billings MT: 110 ft from the center of each street.
    expect(feetOf(sight[0]!)).toEqual(["0.0 0.0", "110.0 0.0", "0.0 -110.0"]);
    expect(sight[0]!.control).toBe("none");
    const signed = sightScene([MAIN, SIDE], [{ at: [5, -11], is: { kind: "stop", facing: 180 } }], null, standard)
      .surroundings.sight;
    expect(signed.map(({ legM }) => (legM / FT).toFixed(1))).toEqual(["30.0", "30.0"]);
  });
});

describe("driveways and alleys", () => {
  const alley = { at: SOUTH, is: { class: "alley", width: "12 ft" } };

  it("have a corner of 15 ft on either side, and leave the street's traffic uncontrolled", () => {
    const { surroundings, findings } = sightScene([MAIN, alley], []);
    expect(toldOf(surroundings.sight)).toEqual(["null driveway right 15.0", "null driveway left 15.0"]);
    expect(feetOf(surroundings.sight[0]!)).toEqual(["6.0 -11.0", "21.0 -11.0", "6.0 -26.0"]);
    expect(findings.map(({ code }) => code)).not.toContain("sight-control-assumed");
  });

  it("have the triangles of a stop where the standard asks for them, and none where it does not", () => {
    const of = (driveways: string): string[] =>
      toldOf(sightScene([MAIN, alley], [], null, standardWith({ driveways })).surroundings.sight);
    expect(of("departure")).toEqual(["stop driveway left 335.0", "stop driveway right 335.0"]);
    expect(of("none")).toEqual([]);
  });

  it("with a stop sign of their own are streets", () => {
    const { sight } = sightScene([MAIN, alley], [{ at: [4, -10], is: { kind: "stop", facing: 180 } }]).surroundings;
    expect(toldOf(sight)).toEqual(["stop left-turn left 335.0", "stop left-turn right 335.0"]);
  });

  it("that meet each other, in a parking lot, have nothing", () => {
    expect(sightScene([{ at: EAST_WEST, is: { class: "service" } }, alley]).surroundings.sight).toEqual([]);
  });
});
