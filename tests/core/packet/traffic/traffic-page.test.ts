import { describe, expect, test } from "vitest";
import type { Closure, TrafficControl } from "../../../../src/core/model/zone.ts";
import { closureSketch } from "../../../../src/core/packet/traffic/closure-sketch.ts";
import { trafficPage } from "../../../../src/core/packet/traffic/traffic-page.ts";
import { metersFromFeet } from "../../../../src/core/units/length.ts";

const FT = metersFromFeet(1);
const control: TrafficControl = {
  caseId: "flaggers",
  application: "TA-10",
  duration: "short-term",
  setUps: 3,
  lanes: 2,
  isOneway: false,
  laneM: 12 * FT,
  sideRoomM: 8 * FT,
  hasVehicle: true,
  workM: 60 * FT,
  tapers: [
    { kind: "one-lane-two-way", lengthM: 100 * FT, devices: 6 },
    { kind: "downstream", lengthM: 50 * FT, devices: 4 },
  ],
  tangentDevices: 5,
  taperSpacingM: 20 * FT,
  tangentSpacingM: 60 * FT,
  coneHeightM: 1.5 * FT,
  flaggers: 2,
  flaggerSightM: 200 * FT,
  signs: ["Flagger ahead", "One lane road ahead", "Road work ahead"],
  approaches: 2,
  isWalkClosed: true,
  assumptions: ["The number of lanes is not recorded: two are taken."],
};
const closure: Closure = {
  kind: "lane-and-walk",
  roadName: "Alder Street",
  speedKmh: 30 * 1.609344,
  taperM: 100 * FT,
  bufferM: 200 * FT,
  signSpacingM: [100 * FT, 100 * FT, 100 * FT],
  note: "Draft: one lane for both ways with flaggers. Confirm with the road authority before any work.",
  control,
};

describe("trafficPage", () => {
  const page = trafficPage(closure, "us", "right");
  const facts = new Map(page.facts);

  test("says tapers, buffer, signs, devices, flaggers, the walk and how long, in the reader's units", () => {
    expect(page.title).toBe("One lane and the walk closed");
    expect(page.road).toBe("Alder Street, 30 mph, 2 lanes");
    expect(facts.get("Case")).toContain("typical application TA-10");
    expect(facts.get("Duration")).toContain("within one daylight period");
    expect(facts.get("Taper")).toBe("One lane, two ways, 100 ft, 6 devices");
    expect(facts.get("End taper")).toBe("Behind the work, 50 ft, 4 devices");
    expect(facts.get("Buffer")).toMatch(/^200 ft/);
    expect(facts.get("Signs")).toBe(
      "A Flagger ahead, 100 ft ahead of the flagger; B One lane road ahead, 100 ft farther; C Road work ahead, 100 ft farther; in both directions",
    );
    // 6 and 4 in the tapers, 5 beside buffer and work.
    expect(facts.get("Devices")).toMatch(/^15 cones or drums/);
    expect(facts.get("Flaggers")).toBe("2, each seen from 200 ft");
    expect(facts.get("Walk")).toContain("detour as accessible as the walk");
    expect(page.assumptions).toEqual(control.assumptions);
    expect(page.note).toContain("Confirm with the road authority");
  });

  test("always asks for the road authority, whatever the note says", () => {
    expect(trafficPage({ ...closure, note: "One lane." }, "us", "right").note).toContain(
      "confirm with the road authority",
    );
  });

  test("has no sketch and no figures off the roads", () => {
    const none: Closure = {
      ...closure,
      kind: "none",
      roadName: null,
      speedKmh: null,
      taperM: null,
      bufferM: null,
      signSpacingM: [],
      control: null,
    };
    const off = trafficPage(none, "metric", "right");
    expect([off.sketch, off.narrowSketch, off.road, off.facts.length]).toEqual([null, null, null, 0]);
  });
});

describe("closureSketch", () => {
  const texts = (labels: "lengths" | "names") =>
    closureSketch(closure, 182, "us", "right", labels)!.shapes.flatMap((shape) =>
      shape.type === "text" ? [shape.text] : [],
    );

  test("keeps lengths to one scale along the road", () => {
    const sketch = closureSketch(closure, 182, "us", "right")!;
    const hatched = sketch.shapes.find((shape) => shape.type === "path" && shape.hatched === true)!;
    const xs = [...(hatched as { readonly d: string }).d.matchAll(/[ML] ([\d.]+)/g)].map((match) => Number(match[1]));
    // From sign C to sign C: 300 ft and 100 ft to the flagger on each side, taper 100, buffer 200, work 60, end 50; 6 m of road beyond each.
    const totalM = (2 * 400 + 410) * FT + 12;
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo((60 * FT * 176) / totalM, 1);
  });

  test("says that it is no traffic control plan, and marks a closed walk", () => {
    expect(texts("lengths").join("\n")).toMatch(/not a traffic control plan: confirm with the road authority/);
    expect(texts("lengths").join("\n")).toContain("Bars: walk closed.");
    const open = closureSketch({ ...closure, control: { ...control, isWalkClosed: false } }, 182, "us", "right")!;
    expect(JSON.stringify(open)).not.toContain("walk closed");
  });

  test("bears names only where lengths stand in a list beside it", () => {
    expect(texts("names")).toContain("taper");
    expect(texts("names").join(" ")).not.toMatch(/\d/);
    expect(texts("names")).not.toContain("");
  });

  test("is the mirror image where traffic keeps to the left", () => {
    const xsOf = (drive: "right" | "left") =>
      closureSketch(closure, 182, "us", drive)!
        .shapes.flatMap((shape) => (shape.type === "text" && shape.text === "F" ? [shape.xMm] : []))
        .sort((a, b) => a - b);
    const right = xsOf("right");
    const left = xsOf("left");
    expect(right).toHaveLength(2);
    // Rounded to hundredths on each side.
    right.forEach((x, at) => {
      expect(x + left[1 - at]!).toBeCloseTo(182, 1);
    });
  });
});
