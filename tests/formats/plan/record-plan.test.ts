import { beforeAll, describe, expect, test } from "vitest";
import type { PrescriptionLine } from "../../../src/core/plan/read-plan.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { openPlan } from "../../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { zonePlan } from "../../../src/formats/plan/zone-plan.ts";
import { type Files, linesById, recorded, reportOf, textOf, townPlan, zonesOf } from "./recorded-town.ts";

let town: Files;
beforeAll(async () => {
  town = await townPlan(150);
}, 240_000);

const treeOf = (visitId: string): string => visitId.slice(0, visitId.lastIndexOf("/v"));
const treeLines = (files: Files): Map<string, PrescriptionLine> =>
  new Map(
    textOf(files, "prescriptions.jsonl")
      .split("\n")
      .filter((line) => line !== "")
      .map((line) => JSON.parse(line) as PrescriptionLine)
      .map((line) => [line.tree.id, line]),
  );
const rawTrees = (files: Files) =>
  linesById(textOf(files, "prescriptions.jsonl"), (line) => /"id":"([^"]+)"/.exec(line)?.[1] ?? null);
const rawConflicts = (files: Files) =>
  linesById(textOf(files, "conflicts.geojson"), (line) => /"tree":"([^"]+)"/.exec(line)?.[1] ?? null);
const features = (files: Files): { properties: Record<string, unknown> }[] =>
  JSON.parse(textOf(files, "trees.geojson")).features;

test("trees that are measured anew without new figures are as they were, conflicts, tasks, doses and dates", async () => {
  const reports = zonesOf(town).map((zone) => reportOf(town, zone, () => ({ outcome: "not-done", reason: "weather" })));
  const { files, output } = await recorded(town, reports);
  expect(output!.changedTreeIds.length).toBeGreaterThan(30);
  expect(textOf(files, "conflicts.geojson") === textOf(town, "conflicts.geojson"), "conflicts.geojson").toBe(true);
  expect(textOf(files, "sight.geojson") === textOf(town, "sight.geojson"), "sight.geojson").toBe(true);
  const before = treeLines(town);
  for (const [id, { tree, setting, prescription }] of treeLines(files)) {
    const was = before.get(id)!;
    const { worked: _, ...bare } = tree;
    expect(bare).toEqual(was.tree);
    expect(setting).toEqual(was.setting);
    const told = prescription.cautions.filter((caution) => !caution.startsWith("Not done on"));
    expect({ ...prescription, cautions: told }).toEqual(was.prescription);
  }
});

describe("one zone's report", () => {
  let after: Files;
  let touched: Set<string>;
  /** A visit of a tree tall enough for the crown base that is reported of it, among those reported done. */
  let measured: string;
  beforeAll(async () => {
    const zone = zonesOf(town)[0]!;
    const before = treeLines(town);
    measured = zone.visit_ids.find(
      (id, at) => at % 4 !== 1 && at % 4 !== 2 && before.get(treeOf(id))!.tree.height.valueM > 5,
    )!;
    const report = reportOf(town, zone, (at, visitId) =>
      at % 4 === 1
        ? { outcome: "partly", reason: "out-of-time", doseShare: 0.01 }
        : at % 4 === 2
          ? { outcome: "not-done", reason: at === 2 ? "tree-gone" : "nest" }
          : { crownBaseM: visitId === measured ? 3.25 : null },
    );
    const { files, output } = await recorded(town, [report]);
    after = files;
    touched = new Set(output!.changedTreeIds);
  }, 120_000);

  test("leaves every other tree as it was, byte for byte", () => {
    for (const linesOf of [rawTrees, rawConflicts]) {
      const [before, now] = [linesOf(town), linesOf(after)];
      for (const [id, lines] of before) if (!touched.has(id)) expect(now.get(id)).toEqual(lines);
    }
    const now = features(after);
    features(town).forEach((feature, at) => {
      const id = String(feature.properties.id ?? feature.properties.tree_id ?? "");
      if (!touched.has(id)) expect(JSON.stringify(now[at])).toBe(JSON.stringify(feature));
    });
    for (const name of [
      "surroundings.geojson",
      "set-aside.geojson",
      "columns.json",
      "standard.json",
      "layer-roads.geojson",
    ]) {
      expect(textOf(after, name) === textOf(town, name), name).toBe(true);
    }
  });

  test("keeps every member of the city's own of every tree", () => {
    const own = ({ properties }: { properties: Record<string, unknown> }) =>
      JSON.stringify(Object.entries(properties).filter(([name]) => !name.startsWith("bough_")));
    expect(features(after).map(own)).toEqual(features(town).map(own));
  });

  test("sets crown base, last pruning and dose of what is done, and plans on from that day", () => {
    const treeId = treeOf(measured);
    const was = treeLines(town).get(treeId)!;
    const is = treeLines(after).get(treeId)!;
    expect(is.tree.crownBase).toEqual({
      valueM: 3.25,
      lowM: 2.95,
      highM: 3.55,
      basis: "measured",
      source: "measured by crew, 2026-11-10",
    });
    expect(is.tree.lastPruned).toBe("2026-11-10");
    expect(is.tree.lastDoseShare).toBeCloseTo(was.prescription.visits[0]!.doseShare, 12);
    expect(is.prescription.visits.map(({ visitId }) => visitId)).not.toContain(measured);
    for (const { due } of is.prescription.visits) expect(due >= "2026-11-10").toBe(true);
    expect(features(after).find(({ properties }) => properties.bough_recorded === "done 2026-11-10")).toBeDefined();
  });

  test("keeps what is partly done open with the dose that is left", () => {
    const zone = zonesOf(town)[0]!;
    const visitId = zone.visit_ids[1]!;
    const treeId = treeOf(visitId);
    const planned = treeLines(town).get(treeId)!.prescription.visits[0]!;
    const left = treeLines(after).get(treeId)!.prescription.visits[0]!;
    expect(left.visitId).toBe(visitId);
    // One percent of the crown was taken: what is left of the dose, of the crown that is left.
    expect(left.doseShare).toBeCloseTo((planned.doseShare - 0.01) / 0.99, 12);
    expect(left.hours).toBeLessThanOrEqual(planned.hours);
    expect(zonesOf(after)[0]!.visit_ids).toContain(visitId);
  });

  test("keeps a tree that is gone, without conflicts and visits, and says so", () => {
    const visitId = zonesOf(town)[0]!.visit_ids[2]!;
    const treeId = treeOf(visitId);
    const { tree, prescription } = treeLines(after).get(treeId)!;
    expect(tree.worked).toEqual({ outcome: "gone", on: "2026-11-10" });
    expect(prescription.visits).toEqual([]);
    expect(prescription.why).toMatch(/^Reported gone on 10 Nov 2026/);
    expect(rawConflicts(after).has(treeId)).toBe(false);
    expect(textOf(after, "findings.csv")).toContain('"work-tree-gone"');
  });

  test("takes the work that is done out of the zone, which is under way", () => {
    const [before, now] = [zonesOf(town)[0]!, zonesOf(after)[0]!];
    expect(now.state).toBe("under-way");
    expect(now.visit_ids.length).toBeLessThan(before.visit_ids.length);
    expect(now.visit_ids).toEqual(before.visit_ids.filter((id) => now.visit_ids.includes(id)));
    expect(now.hours).toBeLessThan(before.hours);
    expect(zonesOf(after).slice(1)).toEqual(zonesOf(town).slice(1));
  });

  test("is carried by the next zoning, which leaves the zone alone", async () => {
    const zoned = await zonePlan(memorySource(after), 3);
    expect(textOf(zoned.files, "record.jsonl") === textOf(after, "record.jsonl"), "record.jsonl").toBe(true);
    expect(zonesOf(zoned.files).find(({ state }) => state === "under-way")).toEqual(zonesOf(after)[0]);
  });

  test("gives a plan that opens", async () => {
    const { plan } = await openPlan(memorySource(after));
    expect(plan.revision).toBe(2);
    expect(plan.prescriptions).toHaveLength(150);
  });
});

test("a zone of which all is done is done, and stays in the plan", async () => {
  const zone = zonesOf(town)[1]!;
  const { files } = await recorded(town, [reportOf(town, zone, () => ({}))]);
  expect(zonesOf(files)[1]).toMatchObject({ zone: zone.zone, state: "done", visit_ids: [], hours: 0 });
});

describe("properties", () => {
  const reportsOf = (files: Files) =>
    zonesOf(files)
      .slice(0, 3)
      .map((zone, at) =>
        reportOf(
          files,
          zone,
          (place) =>
            place % 3 === 2 ? { outcome: "not-done", reason: "nest" } : { crownBaseM: place % 2 === 0 ? 0.3 : null },
          {
            exportedAt: `2026-11-1${at}T16:00:00Z`,
          },
        ),
      );

  test("the same files twice change nothing", async () => {
    const once = await recorded(town, reportsOf(town));
    const twice = await recorded(once.files, reportsOf(town), new Map(), new Map([[1, town]]));
    expect(twice.output).toBeNull();
  });

  test("the order of files does not matter, given at once or one by one", async () => {
    const reports = reportsOf(town);
    const forward = await recorded(town, reports);
    const backward = await recorded(town, [...reports].reverse());
    expect([...backward.files.keys()]).toEqual([...forward.files.keys()]);
    for (const name of forward.files.keys())
      expect(textOf(backward.files, name) === textOf(forward.files, name)).toBe(true);
    let files = town;
    for (const report of [...reports].reverse())
      files = (await recorded(files, [report], new Map(), new Map([[1, town]]))).files;
    for (const name of ["trees.geojson", "conflicts.geojson", "sight.geojson", "zones.geojson", "visits.csv"]) {
      expect(textOf(files, name) === textOf(forward.files, name), name).toBe(true);
    }
    expect(
      textOf(files, "prescriptions.jsonl") === textOf(forward.files, "prescriptions.jsonl"),
      "prescriptions.jsonl",
    ).toBe(true);
  });

  test("what the preview shows is what is taken", async () => {
    const { output } = await recorded(town, reportsOf(town));
    const shown = output!.preview.visits.filter(({ status }) => status === "take").map(({ visitId }) => visitId);
    const taken = textOf(output!.files, "record.jsonl")
      .split("\n")
      .filter((line) => line.startsWith('{"line":"visit"'));
    expect(taken.map((line) => JSON.parse(line).entry.visitId)).toEqual(shown);
  });

  test("work that is taken back leaves the plan as it was before it", async () => {
    const zone = zonesOf(town)[0]!;
    const done = await recorded(town, [reportOf(town, zone, () => ({}))]);
    const corrected = reportOf(town, zone, () => ({ outcome: "not-done", reason: "weather" }), {
      exportedAt: "2026-11-11T16:00:00Z",
    });
    const back = await recorded(done.files, [corrected], new Map(), new Map([[1, town]]));
    expect(textOf(back.files, "conflicts.geojson") === textOf(town, "conflicts.geojson"), "conflicts.geojson").toBe(
      true,
    );
    expect(textOf(back.files, "sight.geojson") === textOf(town, "sight.geojson"), "sight.geojson").toBe(true);
    const [before, now] = [treeLines(town), treeLines(back.files)];
    for (const [id, { prescription }] of now) expect(prescription.visits).toEqual(before.get(id)!.prescription.visits);
    expect(zonesOf(back.files)[0]!.visit_ids.toSorted()).toEqual(zone.visit_ids.toSorted());
  });
});

test("a plan that kept no layers is refused with what to do", async () => {
  const old = new Map([...town].filter(([name]) => !name.startsWith("layer-")));
  await expect(recorded(old, [reportOf(town, zonesOf(town)[0]!, () => ({}))])).rejects.toThrow(/Make it anew/);
});

test("doses and hours are compared with what was planned", async () => {
  const zone = zonesOf(town)[0]!;
  const { output } = await recorded(town, [
    reportOf(town, zone, () => ({ doseShare: 0.1, date: isoDate("2026-11-12") }), { crewHours: 10 }),
  ]);
  const { all, byMonth } = output!.summary;
  expect(all.done).toBe(zone.visit_ids.length);
  expect(all.reportedPersonHours).toBeCloseTo(10, 9);
  expect(all.hoursRatio).toBeCloseTo(10 / all.comparedPersonHours, 9);
  expect(all.reportedCrowns).toBeCloseTo(0.1 * zone.visit_ids.length, 9);
  expect(byMonth.map(({ month }) => month)).toEqual(["2026-11"]);
});
