import { describe, expect, test } from "vitest";
import type { Zone } from "../../../src/core/model/zone.ts";
import { type PackedFiles, packetsIndex } from "../../../src/core/packet/index/packets-index.ts";
import { drawZonesMap } from "../../../src/core/packet/index/zones-map.ts";
import { smallPlan, smallZone } from "./small-plan.ts";

const packed = (stem: string): PackedFiles => {
  const file = (ending: string) => ({ name: `${stem}.${ending}`, bytes: 1234, sha256: "0".repeat(64) });
  return { packet: file("zip"), sheets: file("pdf"), phone: file("html") };
};
const zoneOf = (zoneId: string, more: Partial<Zone>): Zone => ({ ...smallZone, zoneId, name: zoneId, ...more });
const zones = [
  zoneOf("z-2", { crew: "utility" }),
  zoneOf("z-1", { crew: "ground", visitIds: [] }),
  zoneOf("z-3", { crew: "ground" }),
];

describe("packetsIndex", () => {
  test("lists packed zones by crew, then in the plan's order, and names those without a packet", () => {
    const index = packetsIndex(
      { ...smallPlan, zones },
      new Map([
        ["z-2", packed("a")],
        ["z-3", packed("b")],
      ]),
    );
    expect(index.zones.map(({ zoneId }) => zoneId)).toEqual(["z-3", "z-2"]);
    expect(index.notPacked).toEqual(["z-1"]);
    expect(index.zones[0]).toMatchObject({
      hours: 6.5,
      trees: 9,
      due: "2027-03-31",
      state: "issued",
      closure: "lane",
      files: packed("b"),
    });
  });

  test("says of a zone that a visit of it is overdue", () => {
    const late = smallZone.visitIds[2]!;
    const prescriptions = smallPlan.prescriptions.map((one) => ({
      ...one,
      visits: one.visits.map((visit) => (visit.visitId === late ? { ...visit, overdue: true } : visit)),
    }));
    const files = new Map(zones.map(({ zoneId }) => [zoneId, packed(zoneId)]));
    const index = packetsIndex({ ...smallPlan, zones, prescriptions }, files);
    expect(index.zones.map(({ zoneId, overdue }) => [zoneId, overdue])).toEqual([
      ["z-1", false],
      ["z-3", true],
      ["z-2", true],
    ]);
  });
});

describe("drawZonesMap", () => {
  test("numbers every zone inside the map and names it for people who do not see it", () => {
    const { shapes, widthMm, heightMm, description } = drawZonesMap(smallPlan, zones);
    const numbers = shapes.filter((shape) => shape.type === "text" && /^[123]$/.test(shape.text));
    expect(numbers).toHaveLength(3);
    for (const shape of numbers) {
      if (shape.type !== "text") throw new TypeError("Expected a text");
      expect(shape.xMm).toBeGreaterThan(0);
      expect(shape.xMm).toBeLessThan(widthMm);
      expect(shape.yMm).toBeGreaterThan(0);
      expect(shape.yMm).toBeLessThan(heightMm);
    }
    expect(new Set(numbers.map((shape) => JSON.stringify(shape))).size).toBe(3);
    expect(description).toContain("1 z-2, 2 z-1, 3 z-3");
  });

  test("says the state by pattern: only issued work and work under way is hatched", () => {
    const hatches = (state: Zone["state"]) =>
      drawZonesMap(smallPlan, [zoneOf("z", { state })]).shapes.filter(
        (shape) => shape.type === "path" && shape.hatched === true,
      ).length;
    expect([hatches("draft"), hatches("issued"), hatches("under-way"), hatches("done")]).toEqual([0, 1, 1, 0]);
  });

  test("draws a plan without zones", () => {
    expect(drawZonesMap(smallPlan, []).shapes.length).toBeGreaterThan(0);
  });
});
