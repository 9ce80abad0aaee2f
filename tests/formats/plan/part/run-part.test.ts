import { beforeAll, describe, expect, it } from "vitest";
import type { RunPart } from "../../../../src/core/model/run-part.ts";
import { readCsv } from "../../../../src/formats/csv.ts";
import { makePlan } from "../../../../src/formats/plan/make-plan.ts";
import { latticeRequest } from "./lattice.ts";

const REQUEST = latticeRequest(6);

async function filesOf(part?: RunPart): Promise<(name: string) => string> {
  const request = part === undefined ? REQUEST : { ...REQUEST, part };
  const { files } = await makePlan(request, () => {}, undefined, { partTrees: 5 });
  return (name) => new TextDecoder().decode(files.get(name));
}

/** The rows that a part tells of its trees, as they stand in the files. */
const rowsOf = (file: (name: string) => string) => ({
  prescriptions: file("prescriptions.jsonl").split("\n").filter(Boolean),
  // One feature a line between head and tail.
  conflicts: file("conflicts.geojson")
    .split("\n")
    .slice(1, -2)
    .map((line) => line.replace(/,$/, "")),
  visits: readCsv(file("visits.csv")).slice(1),
  trees: (JSON.parse(file("trees.geojson")) as { features: unknown[] }).features,
});

let whole: (name: string) => string;
beforeAll(async () => {
  whole = await filesOf();
});

describe("shards of a run", () => {
  it.each([2, 3, 5])("are together what the whole run says, row for row, of %i", async (count) => {
    const shards: ((name: string) => string)[] = [];
    for (let index = 1; index <= count; index += 1) shards.push(await filesOf({ shard: { index, count } }));
    const rows = shards.map(rowsOf);
    expect({
      prescriptions: rows.flatMap(({ prescriptions }) => prescriptions),
      conflicts: rows.flatMap(({ conflicts }) => conflicts),
      visits: rows.flatMap(({ visits }) => visits),
      trees: rows.flatMap(({ trees }) => trees),
    }).toEqual(rowsOf(whole));
    // What stands around, and what all trees hide of it, is told by each for all.
    for (const name of ["surroundings.geojson", "sight.geojson", "set-aside.geojson", "layer-roads.geojson"]) {
      expect(shards.map((shard) => shard(name))).toEqual(shards.map(() => whole(name)));
    }
    // Findings: what the first says, and what each other says beyond that.
    const first = readCsv(shards[0]!("findings.csv")).map(String);
    const more = shards.slice(1).flatMap((shard) => readCsv(shard("findings.csv")).map(String));
    expect([...first, ...more.filter((row) => !first.includes(row))]).toEqual(
      readCsv(whole("findings.csv")).map(String),
    );
    expect(new Set(shards.map((shard) => JSON.parse(shard("plan.json")).plan))).toEqual(
      new Set([JSON.parse(whole("plan.json")).plan]),
    );
    expect(JSON.parse(shards[0]!("plan.json")).part).toBe(`shard 1/${count}`);
  });
});

describe("a box of a run", () => {
  const bbox = { westDeg: -139.501, southDeg: 44.2505, eastDeg: -139.4995, northDeg: 44.2515 };

  it("is what the whole run says of its trees, row for row", async () => {
    const rows = rowsOf(await filesOf({ bbox }));
    const all = rowsOf(whole);
    const isIn = ({ geometry }: { geometry: { coordinates: [number, number] } }): boolean => {
      const [lonDeg, latDeg] = geometry.coordinates;
      return lonDeg >= bbox.westDeg && lonDeg <= bbox.eastDeg && latDeg >= bbox.southDeg && latDeg <= bbox.northDeg;
    };
    const trees = (all.trees as Parameters<typeof isIn>[0][]).filter(isIn);
    expect(trees.length).toBeGreaterThan(4);
    expect(trees.length).toBeLessThan(72);
    expect(rows.trees).toEqual(trees);
    const inBox = all.prescriptions.filter((_, row) => isIn(all.trees[row] as Parameters<typeof isIn>[0]));
    expect(rows.prescriptions).toEqual(inBox);
    const ids = new Set(inBox.map((line) => JSON.parse(line).tree.id as string));
    expect(rows.conflicts).toEqual(all.conflicts.filter((line) => ids.has(JSON.parse(line).properties.tree)));
    expect(rows.visits).toEqual(all.visits.filter(([, tree]) => ids.has(tree!)));
  });

  it("may cross the antimeridian, and then holds none of these", async () => {
    const rows = rowsOf(await filesOf({ bbox: { ...bbox, westDeg: 179, eastDeg: -179 } }));
    expect(rows.prescriptions).toEqual([]);
    expect(rows.trees).toEqual([]);
  });
});

it("is not planned with zones, which need all trees", async () => {
  const request = { ...REQUEST, part: { shard: { index: 1, count: 2 } }, withZones: true };
  await expect(makePlan(request, () => {})).rejects.toThrow("A part of the trees is planned by itself");
});
