import { beforeAll, describe, expect, it } from "vitest";
import { findConflicts } from "../../../src/core/conflict/find-conflicts.ts";
import { inspectFirst } from "../../../src/core/inspect-first.ts";
import { INSPECT_SUFFIX, ROUND_PREFIX } from "../../../src/core/inspection-rounds.ts";
import type { Plan } from "../../../src/core/model/plan.ts";
import { treeTable } from "../../../src/core/model/tree-table.ts";
import type { Completion } from "../../../src/core/plan/completion/completion.ts";
import type { InspectStop } from "../../../src/core/plan/inspect/inspect-stop.ts";
import { asIfMeasured } from "../../../src/core/plan/inspect/settling.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { buildSurroundings } from "../../../src/core/surroundings/build-surroundings.ts";
import type { Surroundings } from "../../../src/core/surroundings/surroundings.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { inspectPlan } from "../../../src/formats/plan/inspect-plan.ts";
import { readLayerFiles } from "../../../src/formats/plan/layer-files.ts";
import { openPlanAlone } from "../../../src/formats/plan/open-plan.ts";
import { planRules } from "../../../src/formats/plan/plan-rules.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { type Files, recorded, townPlan } from "./recorded-town.ts";

let files: Files;
let plan: Plan;
let surroundings: Surroundings;
let stops: InspectStop[];
beforeAll(async () => {
  files = await townPlan(60);
  const source = memorySource(files);
  plan = await openPlanAlone(source);
  const { columns, standard } = await planRules(source);
  surroundings = buildSurroundings((await readLayerFiles(source))!, columns, standard, plan.options).surroundings;
  stops = inspectFirst(plan, surroundings, standard);
}, 180_000);

describe("what is to be inspected of the sample town's first trees", () => {
  it("is every tree with a possible conflict, and every referred one", () => {
    const possible = new Set(
      plan.conflicts.filter(({ certainty }) => certainty === "possible").map((one) => one.treeId),
    );
    const referred = plan.prescriptions.filter(({ refer }) => refer !== null).map(({ treeId }) => treeId);
    expect(new Set(stops.map(({ treeId }) => treeId))).toEqual(new Set([...possible, ...referred]));
    expect(stops.flatMap(({ questions }) => questions).length).toBeGreaterThan(5);
  });

  it("is settled by its figures when the whole search is run on the tree so measured", () => {
    const certaintyWith = (row: number, conflictId: string, figure: never, valueM: number): string => {
      const tree = { ...asIfMeasured(plan.trees[row]!, figure, valueM), row: 0 };
      const found = findConflicts(treeTable([tree]), surroundings, usCommon(), plan.options, new Map());
      return found.conflicts.find((one) => one.conflictId === conflictId)?.certainty ?? "gone";
    };
    let settled = 0;
    for (const { treeRow, questions } of stops) {
      for (const { conflict, settlings } of questions) {
        for (const { figure, goneAtM, holdsAtM } of settlings) {
          const of = (valueM: number) => certaintyWith(treeRow, conflict.conflictId, figure as never, valueM);
          if (goneAtM !== null) expect(of(goneAtM)).toBe("gone");
          if (holdsAtM !== null) expect(["probable", "confirmed"]).toContain(of(holdsAtM));
          settled += 1;
        }
      }
    }
    expect(settled).toBeGreaterThan(5);
  });

  it("is in exactly one round each, in a plan that asks for nothing else", async () => {
    const { rounds, csv } = await inspectPlan(memorySource(files), plan);
    const inRounds = rounds.zones.flatMap(({ visitIds }) => visitIds);
    expect([...inRounds].sort()).toEqual(stops.map(({ treeId }) => `${treeId}${INSPECT_SUFFIX}`).sort());
    expect(
      rounds.zones.every(({ zoneId, closure }) => zoneId.startsWith(ROUND_PREFIX) && closure.kind === "none"),
    ).toBe(true);
    expect(rounds.prescriptions.flatMap(({ visits }) => visits).every(({ doseShare }) => doseShare === 0)).toBe(true);
    const rows = stops.reduce((sum, { questions }) => sum + Math.max(1, questions.length), 0);
    expect(csv.trim().split("\r\n").length).toBe(rows + 1);
  });

  it("is gone, or sure, once the phone page's file is recorded", async () => {
    const certaintyAfter = async (treeId: string, conflictId: string, valueM: number) => {
      const report: Completion = {
        format: "boughline-completion",
        version: 1,
        appVersion: "0.1.0",
        planId: plan.planId,
        revision: plan.revision,
        zoneId: `${ROUND_PREFIX}round`,
        reportId: `look-${valueM}`,
        exportedAt: "2026-11-20T10:00:00Z",
        who: "K. Birch",
        crewHours: null,
        notes: "",
        visits: [],
        addedTrees: [],
        hazards: [],
        words: [
          {
            ...{ wordId: `w-${valueM}`, treeId, visitId: null, on: isoDate("2026-11-20"), by: "K. Birch" },
            ...{ why: "Looked at", kind: "measurement", value: { of: "crown-base", valueM }, takenBack: null },
          },
        ],
      };
      const after = await openPlanAlone(memorySource((await recorded(files, [report])).files));
      expect(after.revision).toBe(plan.revision + 1);
      return after.conflicts.find((one) => one.conflictId === conflictId)?.certainty ?? "gone";
    };
    const open = stops.flatMap(({ treeId, questions }) =>
      questions.flatMap(({ conflict, settlings }) =>
        settlings
          .filter(({ figure, goneAtM, holdsAtM }) => figure === "crown-base" && goneAtM !== null && holdsAtM !== null)
          .map((one) => ({ treeId, conflictId: conflict.conflictId, ...one })),
      ),
    );
    const { treeId, conflictId, goneAtM, holdsAtM } = open[0]!;
    expect(await certaintyAfter(treeId, conflictId, goneAtM!)).toBe("gone");
    expect(["probable", "confirmed"]).toContain(await certaintyAfter(treeId, conflictId, holdsAtM!));
  }, 120_000);
});
