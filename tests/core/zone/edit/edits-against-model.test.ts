import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CREWS, type Crew } from "../../../../src/core/model/terms.ts";
import type { Zone } from "../../../../src/core/model/zone.ts";
import { usCommon } from "../../../../src/core/standard/parse-standard.ts";
import { type IsoDate, isoDate } from "../../../../src/core/units/calendar.ts";
import { applyZoneEdit } from "../../../../src/core/zone/edit/apply-zone-edit.ts";
import { type ZoneDesk, zoneDesk } from "../../../../src/core/zone/edit/zone-desk.ts";
import { ZONE_ALLOWANCES, type ZoneEdit } from "../../../../src/core/zone/edit/zone-edit.ts";
import { redone, startedHistory, undone, withStep } from "../../../../src/core/zone/edit/zone-history.ts";
import { planOfWork, type Work } from "../plan-of-work.ts";

const TREES = 24;
const BLOCK_M = 40;

/** Work of a block of trees: of all crews and three windows, the last two of which have no day in common. */
const anyRows = fc.array(
  fc.record({
    // Mostly what can be together, so that zones come to hold something.
    crew: fc.constantFrom(...Array(6).fill("ground"), ...Array(4).fill("aerial"), ...CREWS) as fc.Arbitrary<Crew>,
    window: fc.constantFrom(
      ...Array(6).fill("2026-11-01/2027-03-31"),
      "2026-11-01/2026-12-15",
      "2027-01-10/2027-03-31",
    ),
    isDiseased: fc.boolean(),
    urgency: fc.constantFrom("now" as const, "next-window" as const, "this-cycle" as const),
  }),
  { minLength: TREES, maxLength: TREES },
);

type Rows = typeof anyRows extends fc.Arbitrary<infer Value> ? Value : never;

function deskOf(rows: Rows): ZoneDesk {
  const works = rows.map(({ crew, window, isDiseased, urgency }, at): Work => {
    const [windowStart, windowEnd] = window.split("/").map(isoDate) as [IsoDate, IsoDate];
    return {
      id: `t${at}`,
      at: [(at % 6) * BLOCK_M, Math.floor(at / 6) * BLOCK_M],
      visit: { crew, windowStart, windowEnd, urgency, hours: 0.8 },
      tree: isDiseased ? { defects: ["diseased-limb"] } : {},
    };
  });
  return zoneDesk(planOfWork(works), usCommon());
}

const anyTrees = fc.uniqueArray(
  fc.integer({ min: 0, max: TREES }).map((at) => `t${at}`),
  { minLength: 1, maxLength: 16, size: "max" },
);
const anyPlace = fc.tuple(fc.integer({ min: -1, max: 6 }), fc.integer({ min: -1, max: 5 })).map(([x, y]) => [
  // Degrees of the test's plane: 71,695 m and 111,229 m, a little off the trees.
  10 + ((x + 0.4) * BLOCK_M) / 71_695,
  50 + ((y + 0.3) * BLOCK_M) / 111_229,
]);
const anyAllowances = fc.subarray([...ZONE_ALLOWANCES]);
const anyChoice = fc.oneof(
  anyTrees.map((treeIds) => ({ treeIds })),
  fc.array(anyPlace, { minLength: 3, maxLength: 5 }).map((ring) => ({ within: [ring] })),
);

/** Edits name zones by their place among the zones there are, so that they mostly meet one. */
const anyEdit: fc.Arbitrary<(zones: readonly Zone[]) => ZoneEdit> = fc
  .tuple(fc.nat({ max: 5 }), fc.nat({ max: 5 }))
  .chain(([first, second]) => {
    const id = (zones: readonly Zone[], at: number): string => zones[at % Math.max(1, zones.length)]?.zoneId ?? "none";
    const some = <T>(
      arbitrary: fc.Arbitrary<T>,
      edit: (value: T, zoneId: string, zones: readonly Zone[]) => ZoneEdit,
    ) => arbitrary.map((value) => (zones: readonly Zone[]) => edit(value, id(zones, first), zones));
    return fc.oneof(
      some(fc.tuple(anyChoice, anyAllowances), ([trees, allow]) => ({ kind: "make", trees, allow })),
      some(fc.tuple(anyChoice, anyAllowances), ([trees, allow], zoneId) => ({ kind: "add", zoneId, trees, allow })),
      some(anyTrees, (treeIds) => ({ kind: "drop", treeIds })),
      some(anyTrees, (treeIds, zoneId) => ({ kind: "split", zoneId, at: { by: "trees", treeIds } })),
      some(fc.array(anyPlace, { maxLength: 3 }), (line, zoneId) => ({
        kind: "split",
        zoneId,
        at: { by: "line", line },
      })),
      some(fc.constantFrom("days" as const, "islands" as const), (by, zoneId) => ({
        kind: "split",
        zoneId,
        at: { by },
      })),
      some(anyAllowances, (allow, zoneId, zones) => ({ kind: "merge", zoneIds: [zoneId, id(zones, second)], allow })),
      some(fc.constantFrom("Alder", "Alder  Street 1", "", "x".repeat(80), "a\u0007b"), (name, zoneId) => ({
        kind: "rename",
        zoneId,
        name,
      })),
      some(fc.boolean(), (isLocked, zoneId) => ({ kind: "lock", zoneId, isLocked })),
      some(fc.tuple(fc.nat({ max: TREES }), fc.integer({ min: -1, max: 6 })), ([tree, to], zoneId, zones) => {
        const zone = zones.find((one) => one.zoneId === zoneId);
        return { kind: "move-stop", zoneId, treeId: zone?.treeIds[tree % zone.treeIds.length] ?? `t${tree}`, to };
      }),
      some(fc.constant(null), (_, zoneId) => ({ kind: "order", zoneId })),
      some(
        fc.constantFrom("draft" as const, "issued" as const, "under-way" as const, "done" as const),
        (state, zoneId) => ({
          kind: "set-state",
          zoneId,
          state,
        }),
      ),
      some(fc.constantFrom(isoDate("2026-12-01"), isoDate("2027-02-01"), null), (plannedOn, zoneId) => ({
        kind: "set-dates",
        zoneId,
        plannedOn,
      })),
      some(
        fc.constantFrom(
          null,
          { start: isoDate("2026-12-01"), end: isoDate("2026-12-10") },
          { start: isoDate("2027-02-01"), end: isoDate("2027-01-01") },
        ),
        (askedWindow, zoneId) => ({ kind: "set-dates", zoneId, askedWindow }),
      ),
      some(fc.constant(null), (_, zoneId) => ({ kind: "delete", zoneId })),
    );
  });

const anyEdits = fc.array(anyEdit, { minLength: 1, maxLength: 14, size: "max" });

/** Four zones of three neighbors each, as far as these may be together. */
function begun(desk: ZoneDesk): readonly Zone[] {
  return [0, 5, 10, 15].reduce(
    (zones: readonly Zone[], first) =>
      applyZoneEdit(desk, zones, {
        kind: "make",
        trees: { treeIds: [first, first + 1, first + 2].map((at) => `t${at}`) },
      }).zones,
    [],
  );
}

const EXPECTED = [
  ...[
    "make",
    "add",
    "drop",
    "split",
    "merge",
    "rename",
    "lock",
    "move-stop",
    "order",
    "set-state",
    "set-dates",
    "delete",
  ],
  ...["tree-in-other-zone", "crews-apart", "owners-crew", "no-common-day"],
  ...["later-work", "unknown-tree", "zone-locked", "zone-issued", "zone-emptied", "state-skipped", "crew-raised"],
  ...["diseased-before-healthy", "planned-outside-window"],
];

/** What the runs of the first test must have met, so that they cannot pass by doing nothing. */
const met = new Map<string, number>();
const meet = (what: string): void => void met.set(what, (met.get(what) ?? 0) + 1);

describe("whatever is edited in whatever order", () => {
  test("a visit is in one zone at most, leaves the zones only when dropped or deleted, and a zone holds only what may be together", () => {
    fc.assert(
      fc.property(anyRows, anyEdits, (rows, edits) => {
        const desk = deskOf(rows);
        let zones = begun(desk);
        for (const editOf of edits) {
          const edit = editOf(zones);
          const result = applyZoneEdit(desk, zones, edit);
          expect(result.isRefused ? result.zones === zones : true).toBe(true);
          expect(result.isRefused ? result.findings.some(({ severity }) => severity === "error") : true).toBe(true);
          if (result.changes.length > 0) meet(edit.kind);
          for (const { code } of result.findings) meet(code);
          const had = zones.flatMap(({ visitIds }) => visitIds);
          const has = result.zones.flatMap(({ visitIds }) => visitIds);
          expect(new Set(has).size).toBe(has.length);
          const lost = had.filter((id) => !has.includes(id)).sort();
          if (lost.length > 0) {
            expect(["drop", "delete"]).toContain(edit.kind);
            const told = result.findings.find(({ code }) => code === "in-no-zone-now")!;
            expect(told.treeIds.map((id) => `${id}/1`).sort()).toEqual(lost);
          }
          zones = result.zones;
          expectWhole(desk, zones);
        }
      }),
      { seed: 71, numRuns: 60, endOnFailure: true },
    );
    const few = [...EXPECTED].filter((what) => (met.get(what) ?? 0) < 2);
    expect(few).toEqual([]);
  });

  test("zones that are locked or that a crew has keep their work, and untouched zones stay the same objects", () => {
    fc.assert(
      fc.property(anyRows, anyEdits, (rows, edits) => {
        const desk = deskOf(rows);
        let zones = begun(desk);
        for (const editOf of edits) {
          const { zones: next, changes } = applyZoneEdit(desk, zones, editOf(zones));
          for (const zone of zones) {
            const after = next.find(({ zoneId }) => zoneId === zone.zoneId);
            if (zone.isLocked === true || zone.state !== "draft") expect(after?.visitIds).toEqual(zone.visitIds);
            if (!changes.some(({ zoneId }) => zoneId === zone.zoneId)) expect(after).toBe(zone);
          }
          zones = next;
        }
      }),
      { seed: 72, numRuns: 25 },
    );
  });

  test("undo of each step gives back what was, to the last member; redo gives again what the edit gave", () => {
    fc.assert(
      fc.property(anyRows, anyEdits, (rows, edits) => {
        const desk = deskOf(rows);
        let history = startedHistory(begun(desk));
        const seen = [history.zones];
        for (const editOf of edits) {
          const edit = editOf(history.zones);
          const result = applyZoneEdit(desk, history.zones, edit);
          const frozen = structuredClone(history.zones);
          history = withStep(history, edit, result);
          // The edit did not write into the zones it was given.
          expect(seen[seen.length - 1]).toEqual(frozen);
          if (history.past.length === seen.length) seen.push(history.zones);
        }
        const last = history;
        for (const zones of [...seen].reverse().slice(1)) {
          history = undone(history);
          expect(history.zones).toEqual(zones);
        }
        expect(undone(history)).toBe(history);
        for (const zones of seen.slice(1)) {
          const step = history.future[0]!;
          expect(applyZoneEdit(desk, history.zones, step.edit).zones).toEqual(zones);
          history = redone(history);
          expect(history.zones).toEqual(zones);
        }
        expect(history).toEqual(last);
        expect(redone(history)).toBe(history);
      }),
      { seed: 73, numRuns: 20 },
    );
  });

  test("every mend that is offered can be applied, and one offered in place of a refused edit is not refused for the same cause", () => {
    fc.assert(
      fc.property(anyRows, anyEdits, (rows, edits) => {
        const desk = deskOf(rows);
        let zones = begun(desk);
        for (const editOf of edits) {
          const result = applyZoneEdit(desk, zones, editOf(zones));
          for (const finding of result.findings) {
            for (const mend of finding.mends) {
              const mended = applyZoneEdit(desk, result.zones, mend.edit);
              const same = mended.findings.filter(
                (one) =>
                  one.code === finding.code &&
                  one.severity === "error" &&
                  one.treeIds.some((id) => finding.treeIds.includes(id)),
              );
              expect({ finding, mend, same }).toMatchObject({ same: [] });
              expectWhole(desk, mended.zones);
            }
          }
          zones = result.zones;
        }
      }),
      { seed: 74, numRuns: 8 },
    );
  });
});

/** Figures of each zone by arithmetic on its visits, apart from the functions that make zones. */
function expectWhole(desk: ZoneDesk, zones: readonly Zone[]): void {
  expect(new Set(zones.map(({ zoneId }) => zoneId)).size).toBe(zones.length);
  expect(new Set(zones.map(({ name }) => name)).size).toBe(zones.length);
  for (const zone of zones) {
    const visits = zone.treeIds.map((id) => desk.stopOfTree.get(id)!.visit);
    expect(zone.visitIds).toEqual(visits.map(({ visitId }) => visitId));
    expect(visits.length).toBeGreaterThan(0);
    expect(zone.hours).toBeCloseTo(0.8 * visits.length, 9);
    expect(zone.windowStart <= zone.windowEnd).toBe(true);
    for (const { windowStart, windowEnd, crew } of visits) {
      expect(zone.windowStart >= windowStart && zone.windowEnd <= windowEnd).toBe(true);
      expect(CREWS.indexOf(crew)).toBeLessThanOrEqual(CREWS.indexOf(zone.crew));
      if (zone.crew === "utility") expect(crew).toBe("utility");
    }
  }
}
