import { describe, expect, test } from "vitest";
import type { Zone } from "../../../../src/core/model/zone.ts";
import { usCommon } from "../../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../../src/core/units/calendar.ts";
import { buildZones } from "../../../../src/core/zone/build-zones.ts";
import { applyZoneEdit } from "../../../../src/core/zone/edit/apply-zone-edit.ts";
import { zoneDesk } from "../../../../src/core/zone/edit/zone-desk.ts";
import type { ZoneEdit } from "../../../../src/core/zone/edit/zone-edit.ts";
import type { ZoneEditResult } from "../../../../src/core/zone/edit/zone-edit-result.ts";
import { startedHistory, undone, withStep } from "../../../../src/core/zone/edit/zone-history.ts";
import { planOfWork, type Work } from "../plan-of-work.ts";

const standard = usCommon();

/** Trees in a row, 12 m apart, each half an hour of aerial work unless said otherwise. */
const row = (count: number, over: (at: number) => Partial<Work> = () => ({})): Work[] =>
  Array.from({ length: count }, (_, at) => ({ id: `t${at}`, at: [at * 12, 0] as const, ...over(at) }));

function bench(works: readonly Work[]) {
  const plan = planOfWork(works);
  const desk = zoneDesk(plan, standard);
  return { plan, apply: (zones: readonly Zone[], edit: ZoneEdit): ZoneEditResult => applyZoneEdit(desk, zones, edit) };
}

const ids = (...numbers: readonly number[]): string[] => numbers.map((at) => `t${at}`);
const codes = ({ findings }: ZoneEditResult): string[] => findings.map(({ code }) => code);
const mendOf = (result: ZoneEditResult, code: string, label: RegExp): ZoneEdit =>
  result.findings.find((finding) => finding.code === code)!.mends.find((mend) => label.test(mend.label))!.edit;
const byId = (zones: readonly Zone[], zoneId: string): Zone => zones.find((zone) => zone.zoneId === zoneId)!;

describe("figures", () => {
  test("a zone made of the trees of a built one is that zone, but for being made by hand", () => {
    const { plan, apply } = bench(row(12));
    const [built] = buildZones(plan, standard);
    const { zones } = apply([], { kind: "make", trees: { treeIds: built!.treeIds } });
    expect(zones).toEqual([{ ...built, isByHand: true }]);
  });

  test("dropping and adding a tree changes hours, walk and outline by what the tree is", () => {
    const { apply } = bench(row(12));
    const made = apply([], { kind: "make", trees: { treeIds: ids(0, 1, 2, 3, 4) } });
    // 5 x 0.5 h, 4 x 12 m; without the last 4 x 0.5 h, 3 x 12 m.
    expect(made.zones[0]).toMatchObject({ hours: 2.5, name: "Alder Street 1" });
    expect(made.zones[0]!.walkM).toBeCloseTo(48, 1);
    const dropped = apply(made.zones, { kind: "drop", treeIds: ["t4"] });
    expect(dropped.zones[0]).toMatchObject({ hours: 2 });
    expect(dropped.zones[0]!.walkM).toBeCloseTo(36, 1);
    expect(codes(dropped)).toEqual(["in-no-zone-now"]);
    const added = apply(dropped.zones, { kind: "add", zoneId: made.zones[0]!.zoneId, trees: { treeIds: ["t4"] } });
    expect(added.zones).toEqual(made.zones);
  });

  test("an outline takes the trees inside it whose work is due; later work is told and can be taken along", () => {
    const { apply } = bench(row(6, (at) => (at === 2 ? { visit: { urgency: "this-cycle" } } : {})));
    // From 6 m west of the first to 6 m east of the fourth tree.
    const within = [
      [
        [10 - 6 / 71_695, 49.9999],
        [10 + 42 / 71_695, 49.9999],
        [10 + 42 / 71_695, 50.0001],
        [10 - 6 / 71_695, 50.0001],
      ],
    ];
    const made = apply([], { kind: "make", trees: { within } });
    expect([...made.zones[0]!.treeIds].sort()).toEqual(ids(0, 1, 3));
    const along = apply(made.zones, mendOf(made, "later-work", /Take them along/));
    expect([...along.zones[0]!.treeIds].sort()).toEqual(ids(0, 1, 2, 3));
  });
});

describe("what cannot be done is told with its mend", () => {
  test("a tree in two zones: the rest is added, and the mend moves it over", () => {
    const { apply } = bench(row(8));
    const one = apply([], { kind: "make", trees: { treeIds: ids(0, 1, 2) } });
    const two = apply(one.zones, { kind: "make", trees: { treeIds: ids(2, 3, 4) } });
    expect(two.isRefused).toBe(false);
    expect(two.zones.map((zone) => [...zone.treeIds].sort())).toEqual([ids(0, 1, 2), ids(3, 4)]);
    expect(two.findings[0]).toMatchObject({ code: "tree-in-other-zone", severity: "error", treeIds: ["t2"] });
    const moved = apply(two.zones, mendOf(two, "tree-in-other-zone", /Move here/));
    expect(moved.zones.map((zone) => [...zone.treeIds].sort())).toEqual([ids(0, 1), ids(2, 3, 4)]);
    // Nothing but that tree: refused, and the mend stands in its place.
    const refused = apply(one.zones, { kind: "make", trees: { treeIds: ["t2"] } });
    expect(refused.isRefused).toBe(true);
    expect(apply(one.zones, mendOf(refused, "tree-in-other-zone", /Move here/)).zones).toHaveLength(2);
  });

  test("a line-clearance tree in a ground zone: a zone of its own, or the whole zone with that crew", () => {
    const crewOf = (at: number): Partial<Work> => ({ visit: { crew: at === 3 ? "line-clearance" : "ground" } });
    const { apply } = bench(row(4, crewOf));
    const ground = apply([], { kind: "make", trees: { treeIds: ids(0, 1, 2) } });
    const { zoneId } = ground.zones[0]!;
    const refused = apply(ground.zones, { kind: "add", zoneId, trees: { treeIds: ["t3"] } });
    expect(refused.isRefused).toBe(true);
    expect(refused.zones).toBe(ground.zones);
    expect(codes(refused)).toEqual(["crews-apart"]);
    const own = apply(ground.zones, mendOf(refused, "crews-apart", /own/));
    expect(own.zones.map(({ crew }) => crew)).toEqual(["ground", "line-clearance"]);
    const raised = apply(ground.zones, mendOf(refused, "crews-apart", /more restricted/));
    expect(raised.zones.map(({ crew }) => crew)).toEqual(["line-clearance"]);
    const parted = apply(raised.zones, mendOf(raised, "crew-raised", /own/));
    expect(parted.zones.map(({ crew }) => crew)).toEqual(["ground", "line-clearance"]);
  });

  test("work of the line owner's crew never joins others, nor work without a common day", () => {
    const { apply } = bench([
      { id: "t0", at: [0, 0] },
      { id: "utility", at: [9, 0], visit: { crew: "utility" } },
      { id: "summer", at: [18, 0], visit: { windowStart: isoDate("2027-06-01"), windowEnd: isoDate("2027-08-31") } },
    ]);
    const made = apply([], { kind: "make", trees: { treeIds: ["t0", "utility", "summer"] } });
    expect(made.zones.map(({ treeIds }) => treeIds)).toEqual([["t0"]]);
    expect(codes(made).sort()).toEqual(["no-common-day", "owners-crew"]);
    const all = apply(made.zones, {
      kind: "sequence",
      edits: [mendOf(made, "owners-crew", /own/), mendOf(made, "no-common-day", /own/)],
    });
    expect(all.zones).toHaveLength(3);
    const merge = apply(all.zones, { kind: "merge", zoneIds: all.zones.map(({ zoneId }) => zoneId) });
    expect(merge.isRefused).toBe(true);
  });

  test("a locked or issued zone: the mend opens it and goes on; a done one offers nothing", () => {
    const { apply } = bench(row(4));
    const made = apply([], { kind: "make", trees: { treeIds: ids(0, 1, 2) } });
    const { zoneId } = made.zones[0]!;
    const drop: ZoneEdit = { kind: "drop", treeIds: ["t1"] };
    const locked = apply(made.zones, { kind: "lock", zoneId, isLocked: true });
    const refused = apply(locked.zones, drop);
    expect([refused.isRefused, codes(refused)]).toEqual([true, ["zone-locked"]]);
    expect(apply(locked.zones, mendOf(refused, "zone-locked", /Unlock/)).zones[0]).toMatchObject({ hours: 1 });
    const issued = apply(made.zones, { kind: "set-state", zoneId, state: "issued" });
    const later = apply(issued.zones, drop);
    expect(codes(later)).toEqual(["zone-issued"]);
    const withdrawn = apply(issued.zones, mendOf(later, "zone-issued", /Withdraw/));
    expect(withdrawn.zones[0]).toMatchObject({ state: "draft", hours: 1 });
    expect(codes(withdrawn)).toContain("state-set-back");
    const skipped = apply(issued.zones, { kind: "set-state", zoneId, state: "done" });
    expect(codes(skipped)).toEqual(["state-skipped"]);
    const done = apply(issued.zones, mendOf(skipped, "state-skipped", /./));
    expect(done.zones[0]!.state).toBe("done");
    expect(apply(done.zones, drop).findings).toMatchObject([{ code: "zone-done", mends: [] }]);
  });

  test("more than a day, far apart and diseased first are remarked on, and the mends part and order the zone", () => {
    const works = row(24, (at) => ({
      ...(at >= 20 ? { at: [at * 12 + 900, 0] as const } : {}),
      ...(at === 3 ? { tree: { defects: ["diseased-limb"] } } : {}),
    }));
    const { apply } = bench(works);
    const made = apply([], { kind: "make", trees: { treeIds: works.map(({ id }) => id) } });
    expect(codes(made)).toEqual(["more-than-a-day", "work-far-apart"]);
    const near = apply(made.zones, mendOf(made, "work-far-apart", /Part/));
    expect(near.zones.map(({ treeIds }) => treeIds.length)).toEqual([20, 4]);
    const days = apply(near.zones, mendOf(near, "more-than-a-day", /days/));
    expect(days.zones.map(({ hours }) => hours <= 8.8)).toEqual([true, true, true]);
    const { zoneId } = made.zones[0]!;
    const early = apply(near.zones, { kind: "move-stop", zoneId, treeId: "t3", to: 0 });
    expect(early.zones[0]!.treeIds[0]).toBe("t3");
    const last = apply(early.zones, mendOf(early, "diseased-before-healthy", /last/));
    expect(last.zones[0]!.treeIds).toEqual([...early.zones[0]!.treeIds.slice(1), "t3"]);
  });

  test("dates outside what the visits allow are refused with the nearest that are; dates asked for narrow the zone", () => {
    const { apply } = bench(row(3));
    const made = apply([], { kind: "make", trees: { treeIds: ids(0, 1, 2) } });
    const { zoneId } = made.zones[0]!;
    // The visits allow 2 November 2026, the as-of date, to 31 March 2027.
    const wide = { start: isoDate("2026-10-01"), end: isoDate("2026-12-24") };
    const refused = apply(made.zones, { kind: "set-dates", zoneId, askedWindow: wide });
    expect(codes(refused)).toEqual(["window-outside-visits"]);
    const narrowed = apply(made.zones, mendOf(refused, "window-outside-visits", /Take/));
    expect(narrowed.zones[0]).toMatchObject({ windowStart: "2026-11-02", windowEnd: "2026-12-24" });
    const late = apply(narrowed.zones, { kind: "set-dates", zoneId, plannedOn: isoDate("2027-01-15") });
    const planned = apply(narrowed.zones, mendOf(late, "planned-outside-window", /Plan/));
    expect(planned.zones[0]).toMatchObject({ plannedOn: "2026-12-24" });
    const back = apply(planned.zones, { kind: "set-dates", zoneId, askedWindow: null, plannedOn: null });
    expect(back.zones).toEqual(made.zones);
  });

  test("trees of a locked zone are left there, and the mend opens it; work outside a zone's dates stays out until they are taken back", () => {
    const early = { visit: { windowEnd: isoDate("2026-12-15") } };
    const { apply } = bench(row(5, (at) => (at === 4 ? early : {})));
    const one = apply([], { kind: "make", trees: { treeIds: ids(0, 1) } });
    const locked = apply(one.zones, { kind: "lock", zoneId: one.zones[0]!.zoneId, isLocked: true });
    const two = apply(locked.zones, { kind: "make", trees: { treeIds: ids(1, 2, 3) }, allow: ["take-from-others"] });
    expect(two.zones.map((zone) => [...zone.treeIds].sort())).toEqual([ids(0, 1), ids(2, 3)]);
    const moved = apply(two.zones, mendOf(two, "other-zone-closed", /Open/));
    expect(moved.zones.map((zone) => [...zone.treeIds].sort())).toEqual([ids(0), ids(1, 2, 3)]);
    const { zoneId } = moved.zones[1]!;
    const january = { start: isoDate("2027-01-04"), end: isoDate("2027-01-29") };
    const dated = apply(moved.zones, { kind: "set-dates", zoneId, askedWindow: january });
    const refused = apply(dated.zones, { kind: "add", zoneId, trees: { treeIds: ["t4"] } });
    expect([refused.isRefused, codes(refused)]).toEqual([true, ["outside-asked-window"]]);
    const added = apply(dated.zones, mendOf(refused, "outside-asked-window", /dates back/));
    expect(byId(added.zones, zoneId)).toMatchObject({ windowStart: "2026-11-02", windowEnd: "2026-12-15" });
  });

  test("names are unique and fit on a sheet", () => {
    const { apply } = bench(row(2));
    const one = apply([], { kind: "make", trees: { treeIds: ["t0"] }, name: "  North   side " });
    expect(one.zones[0]!.name).toBe("North side");
    const two = apply(one.zones, { kind: "make", trees: { treeIds: ["t1"] }, name: "North side" });
    expect(codes(two)).toEqual(["name-taken"]);
    expect(apply(one.zones, mendOf(two, "name-taken", /./)).zones[1]!.name).toBe("North side 2");
    const { zoneId } = one.zones[0]!;
    expect(codes(apply(one.zones, { kind: "rename", zoneId, name: " " }))).toEqual(["name-empty"]);
    const long = apply(one.zones, { kind: "rename", zoneId, name: "n".repeat(70) });
    expect(byId(apply(one.zones, mendOf(long, "name-unfit", /./)).zones, zoneId).name).toBe("n".repeat(60));
  });

  test("visits that the plan does not have any more leave with a word", () => {
    const before = bench(row(4));
    const made = before.apply([], { kind: "make", trees: { treeIds: ids(0, 1, 2) } });
    const { apply } = bench(row(2));
    const { zoneId } = made.zones[0]!;
    const ordered = apply(made.zones, { kind: "order", zoneId });
    expect(ordered.zones[0]!.treeIds).toEqual(ids(0, 1));
    expect(ordered.findings).toMatchObject([{ code: "work-gone", treeIds: ["t2"] }]);
    const none = bench([{ id: "other", at: [0, 0] }]).apply(made.zones, { kind: "order", zoneId });
    expect([none.isRefused, codes(none)]).toEqual([true, ["no-work-left"]]);
  });
});

test("a sequence is done whole or not at all, and its mend holds the other edits", () => {
  const { apply } = bench(row(3));
  const made = apply([], { kind: "make", trees: { treeIds: ids(0, 1) } });
  const { zoneId } = made.zones[0]!;
  const edit: ZoneEdit = {
    kind: "sequence",
    edits: [
      { kind: "rename", zoneId, name: "Here" },
      { kind: "move-stop", zoneId, treeId: "t0", to: 7 },
    ],
  };
  const refused = apply(made.zones, edit);
  expect(refused.zones).toBe(made.zones);
  const mended = apply(made.zones, mendOf(refused, "no-such-place", /place 1/));
  expect(mended.zones[0]).toMatchObject({ name: "Here", treeIds: ["t1", "t0"], isHandOrdered: true });
});

test("a drag comes to one step of the history", () => {
  const { apply } = bench(row(5));
  const made = apply([], { kind: "make", trees: { treeIds: ids(0, 1, 2, 3, 4) } });
  let history = startedHistory(made.zones);
  const { zoneId } = made.zones[0]!;
  for (const to of [1, 2, 3]) {
    const edit: ZoneEdit = { kind: "move-stop", zoneId, treeId: "t0", to };
    history = withStep(history, edit, apply(made.zones, edit), to > 1);
  }
  expect(history.past).toHaveLength(1);
  expect(history.zones[0]!.treeIds[3]).toBe("t0");
  expect(undone(history).zones).toBe(made.zones);
});

test("a split along a line parts the trees where it runs, drawn on beyond its ends", () => {
  const { apply } = bench(row(6));
  const made = apply([], { kind: "make", trees: { treeIds: ids(0, 1, 2, 3, 4, 5) } });
  const { zoneId } = made.zones[0]!;
  const between = 10 + 30 / 71_695;
  // A short line north of the trees, between the third and the fourth.
  const line = [
    [between, 50.001],
    [between, 50.0012],
  ];
  const split = apply(made.zones, { kind: "split", zoneId, at: { by: "line", line } });
  expect(split.zones.map((zone) => [...zone.treeIds].sort())).toEqual(
    made.zones[0]!.treeIds[0] === "t0" ? [ids(0, 1, 2), ids(3, 4, 5)] : [ids(3, 4, 5), ids(0, 1, 2)],
  );
  const beside = [
    [9.99, 49.99],
    [9.99, 50.01],
  ];
  expect(codes(apply(made.zones, { kind: "split", zoneId, at: { by: "line", line: beside } }))).toEqual([
    "nothing-to-part",
  ]);
});
