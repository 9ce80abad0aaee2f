import { describe, expect, it } from "vitest";
import { lowestAt } from "../../../src/core/crown/profile.ts";
import { read } from "./tree-features.ts";

const treeOf = (row: Record<string, unknown>) => read([row]).trees[0]!;

describe("the solid of a form", () => {
  it("of a hedge is a column on the ground, whatever its species", () => {
    for (const species of [undefined, "Fagus sylvatica", "Thuja plicata"]) {
      const hedge = treeOf({ form: "hedge", species, height: 2 });
      expect([hedge.habit, hedge.crownBase.valueM]).toEqual(["column", 0]);
    }
  });

  it("of a shrub is leafy at the ground: its lower surface lies on it out to the edge", () => {
    const shrub = treeOf({ form: "shrub", height: 1.8, crown_radius: 1 });
    expect([shrub.habit, shrub.crownBase.valueM]).toEqual(["dome", 0]);
    expect(lowestAt(shrub.habit, 0.9)).toBe(0);
  });

  it("of a palm hangs flat at its lowest fronds, of a fir tapers, and death changes neither", () => {
    expect(treeOf({ species: "Washingtonia robusta", height: 15 }).habit).toBe("dome");
    expect(treeOf({ form: "palm", height: 15 }).habit).toBe("dome");
    expect(treeOf({ species: "Abies concolor", height: 15 }).habit).toBe("cone");
    expect(treeOf({ species: "Abies concolor", height: 15, condition: "dead" }).habit).toBe("cone");
  });
});
