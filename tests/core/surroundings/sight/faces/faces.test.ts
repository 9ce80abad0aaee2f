import { describe, expect, it } from "vitest";
import type { SightArea } from "../../../../../src/core/model/surroundings.ts";
import { planeOf, toPlane } from "../../../../../src/core/plane/plane.ts";
import {
  features,
  line,
  OPTIONS,
  ORIGIN,
  only,
  type Points,
  point,
  STANDARD,
  search,
} from "../../../conflict/scene.ts";

/** A street eastward from x = -400 to 200 at 30 mph with two lanes of 10 ft, and another across it at x = 0. */
const roads = (properties: Record<string, unknown> = {}) =>
  features(
    "roads",
    {
      geometry: line([
        [-400, 0],
        [0, 0],
        [200, 0],
      ]),
      properties: { class: "collector", name: "Long Street", speed: "30 mph", width: "20 ft", lanes: 2, ...properties },
    },
    {
      geometry: line([
        [0, -200],
        [0, 0],
        [0, 200],
      ]),
      properties: { class: "collector", name: "Cross Street", speed: "30 mph", width: "20 ft", lanes: 2 },
    },
  );
const sign = (x: number, y: number, properties: Record<string, unknown>) =>
  features("signs", { geometry: point(x, y), properties });

function meters(area: SightArea): Points {
  const plane = planeOf(ORIGIN.lonDeg);
  const [ox, oy] = toPlane(plane, ORIGIN.lonDeg, ORIGIN.latDeg);
  return area.ring.map(([lonDeg, latDeg]) => {
    const [x, y] = toPlane(plane, lonDeg, latDeg);
    return [x - ox, y - oy] as const;
  });
}

const facesOf = (layers: Parameters<typeof search>[1], options = OPTIONS): SightArea[] =>
  search([], layers, STANDARD, options).sight.filter(({ kind }) => kind === "sign" || kind === "signal");

/** A millimeter of the plane and the rounding of degrees. */
const NEAR_M = 0.01;

describe("the view of a sign", () => {
  // The sign stands 3 ft beyond the south edge, 3.048 + 0.9144 = 3.9624 m south of the line; traffic eastward has it at its right.
  const STOP = { kind: "stop", facing: "west", height: "7 ft" };

  it("reaches from where the table asks that it be seen to where the driver leaves the cone toward it", () => {
    const [view] = facesOf({ roads: roads(), signs: sign(-8, -3.9624, STOP) });
    expect(view!.legM).toBeCloseTo(250 * 0.3048, 9);
    const ring = meters(view!);
    // The lane's middle is 5 ft south of the line; the face 2.4384 m beside it leaves a cone of 20 degrees 2.4384 / tan 20 = 6.7 m away.
    const xs = ring.map(([x]) => x);
    expect(Math.abs(Math.min(...xs) - (-8 - 76.2))).toBeLessThan(NEAR_M);
    const lane = ring.filter(([, y]) => Math.abs(y + 1.524) < NEAR_M).map(([x]) => x);
    expect(Math.abs(Math.max(...lane) - (-8 - (3.9624 - 1.524) / Math.tan((20 * Math.PI) / 180)))).toBeLessThan(NEAR_M);
    expect(Math.abs(ring[0]![0] + 8) + Math.abs(ring[0]![1] + 3.9624)).toBeLessThan(NEAR_M);
    expect(view!.windowLowM).toBeCloseTo(1.0668, 9);
    expect(view!.windowHighM).toBeCloseTo(9.5 * 0.3048, 9);
    expect(view!.doubt).toBeNull();
  });

  it("is from less far for a sign that asks for no stop", () => {
    const [view] = facesOf({ roads: roads(), signs: sign(-8, -3.9624, { ...STOP, kind: "R2-1" }) });
    expect(view!.legM).toBeCloseTo(150 * 0.3048, 9);
  });

  it("without a facing is that of the traffic which has it on its own side, and is told to be inferred", () => {
    const south = sign(-30, -4, { kind: "stop", height: 2.1 });
    const [right] = facesOf({ roads: roads(), signs: south });
    expect(Math.min(...meters(right!).map(([x]) => x))).toBeLessThan(-100);
    expect(right!.doubt).toMatch(/faces is not recorded/);
    const [left] = facesOf({ roads: roads(), signs: south }, { ...OPTIONS, drive: "left" });
    expect(Math.max(...meters(left!).map(([x]) => x))).toBeGreaterThan(40);
  });

  it("on a one-way street is that of its only traffic, on whichever side it stands", () => {
    for (const y of [-4, 4]) {
      const [view] = facesOf({ roads: roads({ oneway: "yes" }), signs: sign(-30, y, { kind: "speed limit" }) });
      expect(Math.min(...meters(view!).map(([x]) => x))).toBeLessThan(-70);
    }
  });

  it("drawn on the line, with the way its traffic runs, stands beside the road by assumption", () => {
    const [view] = facesOf({ roads: roads(), signs: sign(-8, 0, { highway: "stop", direction: "forward" }) });
    const [face] = meters(view!);
    // Half of 20 ft and 2 ft more, on the right of traffic eastward.
    expect(Math.abs(face![1] + (10 + 2) * 0.3048)).toBeLessThan(NEAR_M);
    expect(view!.doubt).toMatch(/drawn on the road's line/);
    const [other] = facesOf({ roads: roads(), signs: sign(-8, 0, { highway: "stop", direction: "backward" }) });
    expect(meters(other!)[0]![1]).toBeGreaterThan(3);
    // Traffic on the left has it at its left.
    const [left] = facesOf(
      { roads: roads(), signs: sign(-8, 0, { highway: "stop", direction: "forward" }) },
      { ...OPTIONS, drive: "left" },
    );
    expect(meters(left!)[0]![1]).toBeGreaterThan(3);
  });

  it("is not looked for where nobody drives toward it, and that is told", () => {
    const far = search([], { roads: roads(), signs: sign(-100, 60, STOP) });
    expect(far.sight.filter(({ kind }) => kind === "sign")).toEqual([]);
    expect(far.around.findings.map(({ code }) => code)).toContain("face-without-approach");
  });

  it("is told to be checked in part where the road leaves the data", () => {
    const found = search([], { roads: roads(), signs: sign(-370, -3.9624, STOP) });
    expect(found.around.findings.map(({ code }) => code)).toContain("view-partly-checked");
    expect(found.sight.find(({ kind }) => kind === "sign")!.hidden!.lookedAtM).toBeLessThan(30);
  });
});

describe("the view of a signal", () => {
  const signal = (x: number, y: number, properties: Record<string, unknown>) =>
    features("signals", { geometry: point(x, y), properties: { kind: "traffic_signals", ...properties } });

  it("across the intersection counts from 10 ft behind the stop line on its near side", () => {
    const [view] = facesOf({ roads: roads(), signals: signal(8, -1.5, { facing: 270, height: 5.2 }) });
    expect(view!.legM).toBeCloseTo(270 * 0.3048, 9);
    const lane = meters(view!).filter(([, y]) => Math.abs(y + 1.524) < NEAR_M);
    // The stop line is 1.2 m before the edge of the road crossed, 10 ft from its center.
    const stopX = -(3.048 + 1.2);
    const xs = lane.map(([x]) => x);
    expect(Math.abs(Math.max(...xs) - (stopX - 3.048))).toBeLessThan(NEAR_M);
    expect(Math.abs(Math.min(...xs) - (stopX - 270 * 0.3048))).toBeLessThan(NEAR_M);
  });

  it("drawn on the intersection without a facing is for all four approaches, by assumption", () => {
    const views = facesOf({ roads: roads(), signals: signal(0, 0, {}) });
    expect(views).toHaveLength(4);
    expect(new Set(views.map(({ roadName }) => roadName))).toEqual(new Set(["Long Street", "Cross Street"]));
    for (const { doubt } of views) expect(doubt).toMatch(/all approaches/);
  });
});

describe("a crown before a sign", () => {
  /** Half way between the eye's far end and the sign, on the line between them. */
  const MIDDLE: readonly [number, number] = [-8 - 38.1, -(3.9624 + 1.524) / 2];
  const layers = { roads: roads(), signs: sign(-8, -3.9624, { kind: "stop", facing: "west", height: "7 ft" }) };
  const tree = (heightM: number, baseM: number, radiusM = 0.1) => ({
    x: MIDDLE[0],
    y: MIDDLE[1],
    heightM,
    baseM,
    radiusM,
    habit: "column" as const,
    error: 0,
  });

  it("is in conflict where leaves stand in the lines of sight, whose height goes from the eye to the face", () => {
    // Half way the lines run from (1.0668 + 2.1336) / 2 = 1.60 m to (1.0668 + 2.8956) / 2 = 1.98 m.
    expect(search([tree(1.5, 0)], layers).conflicts.filter(({ kind }) => kind === "sign")).toEqual([]);
    expect(search([tree(12, 2.3)], layers).conflicts.filter(({ kind }) => kind === "sign")).toEqual([]);
    const conflict = only(search([tree(12, 1.8)], layers).conflicts, "sign");
    expect(conflict.withName).toBe("stop sign on Long Street");
    expect(conflict.measuredM).toBeCloseTo(1.8, 6);
    // The top of the lines over the whole crown: at its end nearer to the sign a little higher than half way.
    expect(conflict.minimumM).toBeGreaterThan(1.98);
    expect(conflict.minimumM).toBeLessThan(1.98 + 0.02);
    expect(conflict.clearToM - conflict.minimumM).toBeCloseTo(0.3048, 9);
    expect(conflict.certainty).toBe("confirmed");
    expect(conflict.region.lowM).toBeLessThan(1.6);
    expect(conflict.region.lowM).toBeGreaterThan(1.6 - 0.1);
  });

  it("that hides a stop sign's middle is a hazard, one that hides another sign's is none", () => {
    const hidden = search([tree(12, 1, 1)], layers);
    expect(hidden.sight.find(({ kind }) => kind === "sign")!.hidden!.share).toBeGreaterThan(0.05);
    expect(only(hidden.conflicts, "sign").hazard).toBe("sign-hidden");
    const limit = { roads: roads(), signs: sign(-8, -3.9624, { kind: "R2-1", facing: "west", height: "7 ft" }) };
    const at = { ...tree(12, 1, 1), x: -8 - 22.86 };
    expect(only(search([at], limit).conflicts, "sign").hazard).toBeNull();
  });

  it("is possible at most where the facing is inferred", () => {
    const inferred = { roads: roads(), signs: sign(-8, -3.9624, { kind: "stop", height: "7 ft" }) };
    const conflict = only(search([tree(12, 1, 1)], inferred).conflicts, "sign");
    expect(conflict.certainty).toBe("possible");
    expect(conflict.hazard).toBeNull();
  });
});
