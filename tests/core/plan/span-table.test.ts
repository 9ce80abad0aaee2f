import { describe, expect, it } from "vitest";
import type { TreeSetting } from "../../../src/core/model/conflict.ts";
import type { Plan } from "../../../src/core/model/plan.ts";
import type { SurroundingFeature } from "../../../src/core/model/surroundings.ts";
import { spanTable } from "../../../src/core/plan/span-table.ts";
import { writeCsv } from "../../../src/formats/csv.ts";
import { features, line, search, type TreeGiven } from "../conflict/scene.ts";

const TREE: TreeGiven = { heightM: 15, baseM: 5, radiusM: 5, error: 0 };

/** A line of two spans of 50 m, one tree under the first, one that could only fall on the second. */
function planOf(): Plan {
  const { conflicts, settings, around } = search(
    [
      { ...TREE, id: "under", x: 25, y: 1 },
      { ...TREE, id: "tall", x: 80, y: 14, heightM: 25, radiusM: 1 },
    ],
    {
      conductors: features("conductors", {
        geometry: line([
          [0, 0],
          [50, 0],
          [100, 0],
        ]),
        properties: { id: "L", circuit: "=SUM(A1)", voltage: 12_000, attachment_height_1: 10, sag: 0.5 },
      }),
    },
  );
  return {
    surroundings: around.surroundings.features as readonly SurroundingFeature[],
    settings: settings as readonly TreeSetting[],
    conflicts,
    trees: [{ id: "under" }, { id: "tall" }],
    prescriptions: [
      { visits: [{ crew: "line-clearance" }], refer: { code: "only-top-would-cure", reason: "" } },
      { visits: [], refer: null },
    ],
  } as unknown as Plan;
}

describe("the table by span", () => {
  it("tells what each span comes to", () => {
    const { header, rows } = spanTable(planOf());
    const [first, second] = rows.map((row) => Object.fromEntries(header.map((name, at) => [name, row[at]])));
    expect(first).toMatchObject({
      line: "L",
      span: "L/1",
      length_m: 50,
      voltage_v: 12_000,
      rule: "conductor-distribution",
      minimum_m: 0.4572,
      clear_to_m: 3.048,
      trees_in_reach: 1,
      confirmed: 1,
      probable: 0,
      nearest_tree: "under",
      crew: "line-clearance",
      referred_trees: 1,
      strike_trees: 1,
    });
    expect(first!.least_gap_m).toBeLessThan(0);
    // The tall tree is out of the clear-to of 3 m, and hypot(14, 10) = 17.2 m from the wire.
    expect(second).toMatchObject({ span: "L/2", trees_in_reach: 0, confirmed: 0, least_gap_m: null, strike_trees: 1 });
    expect([second!.nearest_tree, second!.load_case, second!.crew]).toEqual([null, null, null]);
  });

  it("is safe to open in a spreadsheet", () => {
    const { header, rows } = spanTable(planOf());
    expect(writeCsv(header, rows)).toContain(`"'=SUM(A1)"`);
  });

  it("is empty for a plan without lines", () => {
    const plan = { ...planOf(), surroundings: [], settings: [] };
    expect(spanTable(plan).rows).toEqual([]);
  });
});
