import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import type { Plan } from "../../src/core/model/plan.ts";
import { LAYERS } from "../../src/core/model/terms.ts";
import { readPlan } from "../../src/core/plan/read-plan.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import type { DisplayUnits } from "../../src/core/units/format-length.ts";
import { makePlan } from "../../src/formats/plan/make-plan.ts";

/** A plan of the town takes a second or two; a machine that is busy with other tests may take many times that. */
const SLOWEST_MS = 60_000;

const root = join(import.meta.dirname, "../..");

async function planIn(units: DisplayUnits): Promise<Plan> {
  const made = await makePlan(
    {
      revision: 1,
      files: LAYERS.map((layer) => ({
        layer,
        name: `${layer}.geojson`,
        bytes: readFileSync(join(root, `sample-geojson/${layer}.geojson`)),
        filter: null,
      })),
      columns: {},
      standardJson: null,
      options: {
        asOf: isoDate("2026-11-02"),
        units,
        drive: "right",
        place: { hardinessZone: null, region: null },
      },
      crs: null,
      withZones: true,
    },
    () => {},
  );
  const text = (name: string) => new TextDecoder().decode(made.files.get(name));
  return readPlan({
    manifest: text("plan.json"),
    prescriptions: text("prescriptions.jsonl"),
    conflicts: text("conflicts.geojson"),
    surroundings: text("surroundings.geojson"),
    sight: text("sight.geojson"),
    zones: text("zones.geojson"),
    findings: [],
  });
}

/** Every sentence of a plan that somebody reads, with the tree it is about. */
function sentencesOf(plan: Plan): { treeId: string; text: string }[] {
  const ofTrees = plan.prescriptions.flatMap((one) =>
    [
      one.why,
      one.doseLimitReason,
      ...one.cautions,
      ...(one.refer === null ? [] : [one.refer.reason]),
      ...one.options.flatMap(({ ruledOutBy }) => (ruledOutBy === null ? [] : [ruledOutBy])),
      ...one.tasks.flatMap(({ cause, where, how }) => [cause, where, how]),
      ...one.visits.flatMap(({ windowReason, openAfter }) => [windowReason, ...openAfter]),
    ].map((text) => ({ treeId: one.treeId, text })),
  );
  const doubts = plan.conflicts.flatMap(({ treeId, doubt }) => (doubt === null ? [] : [{ treeId, text: doubt }]));
  const zones = plan.zones.flatMap(({ zoneId, hazards, closure }) =>
    [...hazards, closure.note].map((text) => ({ treeId: zoneId, text })),
  );
  return [...ofTrees, ...doubts, ...zones];
}

describe.each(["us", "metric"] as const)("every sentence of the sample town's plan in %s units", (units) => {
  let plan: Plan;
  let sentences: { treeId: string; text: string }[];
  const found = (pattern: RegExp) => sentences.filter(({ text }) => pattern.test(text)).slice(0, 3);

  beforeAll(async () => {
    plan = await planIn(units);
    sentences = sentencesOf(plan);
  }, SLOWEST_MS);

  it("has dates as people write them, no ids, no figures that are none", () => {
    expect(sentences.length).toBeGreaterThan(10_000);
    expect(found(/\d{4}-\d\d-\d\d/)).toEqual([]);
    expect(found(/[{}[\]]|NaN|Infinity|undefined|null/)).toEqual([]);
    expect(found(/ -\d/)).toEqual([]);
    expect(found(/\b(0\.0 m|0 in|0 %)(?![\d.])/)).toEqual([]);
  });

  it("keeps to the units asked for", () => {
    expect(found(units === "us" ? /\d m\b/ : /\d (ft|in)\b(?! 12)/)).toEqual([]);
  });

  it("does not call what there is less than a need that reads the same", () => {
    const same = sentences.filter(({ text }) => {
      const told = /(?:hang|within|are) ([\d.]+ \w+(?: \d+ in)?) .*less than the ([\d.]+ \w+(?: \d+ in)?) needed/.exec(
        text,
      );
      return told !== null && told[1] === told[2];
    });
    expect(same.slice(0, 3)).toEqual([]);
  });

  it("calls only trees new that have a planting date", () => {
    const dated = new Set(plan.trees.filter(({ planted }) => planted !== null).map(({ id }) => id));
    const undated = sentences.filter(({ treeId, text }) => text.includes("newly planted") && !dated.has(treeId));
    expect(undated.slice(0, 3)).toEqual([]);
  });

  it("gives every task on live wood something to cut, and says what it aims at where it clears something", () => {
    for (const task of plan.prescriptions.flatMap(({ tasks }) => tasks)) {
      if (task.conflictIds.length === 0) expect(task.targetM).toBeNull();
      else expect(task.limbDiameterM[1]).toBeGreaterThan(0);
    }
  });
});
