import type { LitElement } from "lit";
import { beforeEach, expect, test, vi } from "vitest";
import { ZoneController, type ZonePage } from "../../../src/app/zoning/zone-controller.ts";
import type { Zone } from "../../../src/core/model/zone.ts";
import { openPlan } from "../../../src/formats/plan/open-plan.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { smallPlanFiles } from "../small-plan.ts";

const source = memorySource(smallPlanFiles(30));
const opened = await openPlan(source);
const [first] = opened.plan.zones;

let zones: ZoneController;
let shown: { zones: readonly Zone[]; label: string }[];
let told: string[];
let mayEdit: boolean;
let open: (string | null)[];

beforeEach(() => {
  shown = [];
  told = [];
  open = [];
  mayEdit = true;
  const host = { addController: vi.fn(), requestUpdate: vi.fn() } as unknown as LitElement;
  const page: ZonePage = {
    canEdit: () => mayEdit,
    show: (now, label) => {
      shown.push({ zones: now, label });
      // The page hands its plan back with the zones as they were shown.
      zones.follow({ ...opened, plan: { ...opened.plan, zones: now } }, source);
    },
    open: (zoneId) => open.push(zoneId),
    tell: (sentence) => told.push(sentence),
  };
  zones = new ZoneController(host, page);
  zones.follow(opened, source);
});

const names = (of: readonly Zone[]) => of.map(({ name }) => name);

test("an edit is shown with what it does, and undone and redone", async () => {
  await zones.edit({ kind: "rename", zoneId: first!.zoneId, name: "Mill side" });
  expect(names(shown.at(-1)!.zones)).toContain("Mill side");
  expect(zones.undoes).toBe("Rename the zone");
  zones.undo();
  expect(names(shown.at(-1)!.zones)).toEqual(names(opened.plan.zones));
  expect(shown.at(-1)!.label).toBe("Undo: Rename the zone");
  expect(zones.undoes).toBeNull();
  zones.redo();
  expect(names(shown.at(-1)!.zones)).toContain("Mill side");
});

test("what is refused changes nothing and says why, with a way out", async () => {
  const inZone = first!.treeIds[0]!;
  const isDone = await zones.edit({ kind: "make", trees: { treeIds: [inZone] } });
  expect(isDone).toBe(false);
  expect(shown).toEqual([]);
  const refusal = zones.findings.find(({ code }) => code === "tree-in-other-zone");
  expect(refusal?.severity).toBe("error");
  const [mend] = refusal!.mends;
  expect(await zones.edit(mend!.edit)).toBe(true);
  const made = shown.at(-1)!.zones;
  expect(made.filter(({ treeIds }) => treeIds.includes(inZone))).toHaveLength(1);
  expect(open).toEqual([made.find(({ treeIds }) => treeIds.includes(inZone))!.zoneId]);
});

test("a shape says what it would do without doing it, until it is finished", async () => {
  await zones.draw({ for: "split", zoneId: first!.zoneId });
  expect(zones.drawing?.result).toBeNull();
  const [lon, lat] = middleOf(first!);
  zones.reshape([
    [lon, lat - 0.01],
    [lon, lat + 0.01],
  ]);
  expect(zones.drawing?.result?.zones.length).toBe(opened.plan.zones.length + 1);
  expect(shown).toEqual([]);
  zones.reshape(null);
  expect(zones.drawing?.result).toBeNull();
  zones.reshape([
    [lon, lat - 0.01],
    [lon, lat + 0.01],
  ]);
  await zones.finishDrawing();
  expect(zones.drawing).toBeNull();
  expect(shown.at(-1)!.zones.length).toBe(opened.plan.zones.length + 1);
});

test("a plan that another tab has is not changed", async () => {
  mayEdit = false;
  expect(await zones.edit({ kind: "delete", zoneId: first!.zoneId })).toBe(false);
  expect(shown).toEqual([]);
  expect(told).toEqual(["This plan is open in another tab, where it can be changed."]);
});

test("another plan has a history of its own", async () => {
  await zones.edit({ kind: "rename", zoneId: first!.zoneId, name: "Mill side" });
  const other = await openPlan(memorySource(smallPlanFiles(12)));
  zones.follow(other, source);
  expect(zones.undoes).toBeNull();
});

/** Half way between the first and the last tree of a zone. */
function middleOf({ treeIds }: Zone): [number, number] {
  const at = (treeId: string) => opened.plan.trees.find(({ id }) => id === treeId)!;
  const [one, other] = [at(treeIds[0]!), at(treeIds.at(-1)!)];
  return [(one.lonDeg + other.lonDeg) / 2, (one.latDeg + other.latDeg) / 2];
}
