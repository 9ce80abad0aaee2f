import { expect, test } from "vitest";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { treeCardModel } from "../../../src/map/card/tree-card-model.ts";
import { DEFAULT_WORDS } from "../../../src/map/words.ts";
import { smallOpenedPlan } from "../small-opened-plan.ts";

const opened = smallOpenedPlan();
const card = (treeId: string, units: "us" | "metric" = "metric") => treeCardModel(opened, treeId, units, DEFAULT_WORDS);

test("an unknown tree has no card", () => {
  expect(card("T999")).toBeNull();
});

test("the head names the tree, when it is due and that it is overdue", () => {
  expect(card("T003")).toMatchObject({
    title: "Red maple",
    species: "Acer rubrum",
    place: "Chapel Street",
    urgency: "now",
    due: "due 30 Nov 2026",
    overdue: true,
  });
});

test("sizes come with basis and, where estimated, the interval", () => {
  const figures = card("T004")!.figures;
  // Row 3: 5 + (15 mod 13) * 0.9 = 6.8 m, estimated to 2 m.
  expect(figures[0]).toMatchObject({ name: "Height", text: "6.8 m", interval: "4.8 m to 8.8 m", basis: "estimated" });
  expect(card("T003")!.figures[0]).toMatchObject({ interval: "", basis: "measured" });
  expect(card("T010")!.figures[3]!.text).toBe("not given");
});

test("the prescribed option is marked and a ruled-out one says why", () => {
  const options = card("T002")!.options;
  expect(options.map((option) => option.isPrescribed)).toEqual([false, true, false]);
  expect(options[2]!.ruledOutBy).toContain("25 % is the limit");
});

test("dates and figures are written for reading", () => {
  const visit = card("T003")!.visits[0]!;
  expect(visit.when).toBe("1 Dec 2026 to 12 Mar 2027");
  expect(visit.facts).toContain("0.8 h");
  expect(card("T003", "us")!.conflicts[0]!.figures).toContain("14\u00a0ft needed");
});

test("what was not checked is said", () => {
  expect(card("T001")!.notKnown).toEqual(["Not checked: sign, signal, curve."]);
});

test("columns that feed a field are shown as text, without the plan's; of the others only the names are known", () => {
  const mapped = { ...opened, columns: { trees: { id: { column: "TREE_ID" }, species: { column: "SPECIES" } } } };
  const { columns } = treeCardModel(mapped, "T008", "metric", DEFAULT_WORDS)!;
  expect(columns.shown).toEqual([
    ["TREE_ID", "T008"],
    ["SPECIES", "Quercus bicolor"],
  ]);
  expect(columns.unmapped).toEqual(["NOTE"]);
});

test("a column that a person chose is shown too, and its text stays text", () => {
  const { columns } = treeCardModel(opened, "T008", "metric", DEFAULT_WORDS, new Set(["NOTE"]))!;
  // Without the column map only columns called like a field count as mapped; none is.
  expect(columns.shown).toEqual([["NOTE", "<img src=x onerror=alert(1)>"]]);
  expect(columns.unmapped).toEqual(["TREE_ID", "SPECIES", "NOTE"]);
});

test("a conflict with a view says what trees hide of it, and which in line open most", () => {
  const conflict = opened.plan.conflicts.find(({ treeId }) => treeId === "T003")!;
  const area = opened.plan.sight[0]!;
  const hidden = {
    share: 0.4,
    lookedAtM: 85,
    partsM: [[0, 34]] as const,
    trees: [{ treeId: "T003", aloneShare: 0.3, marginalShare: 0.1 }],
    opensMost: { treeIds: ["T003", "T004"], share: 0.38 },
    blind: null,
  };
  const notesWith = (opensMost: typeof hidden.opensMost | null): readonly string[] => {
    const plan = {
      ...opened.plan,
      sight: [{ ...area, hidden: { ...hidden, opensMost } }],
      conflicts: [
        {
          ...conflict,
          kind: "sight-triangle" as const,
          withLayer: "sight" as const,
          withId: area.id,
          hiddenShare: 0.1,
        },
      ],
    };
    return treeCardModel({ ...opened, plan }, "T003", "metric", DEFAULT_WORDS)!.conflicts[0]!.notes.map((note) =>
      note.replaceAll("\u00a0", " "),
    );
  };
  expect(notesWith(hidden.opensMost).slice(0, 3)).toEqual([
    `View of a stopped driver who turns ${area.movement === "left-turn" ? "left" : "right"}, looking ${area.direction}: 85 m must be seen at 40 km/h.`,
    "Trees hide 40 % of this view.",
    "Clearing this tree alone opens 10 %; clearing T003, T004 together opens most, 38 %.",
  ]);
  expect(notesWith(null)).toContain("Clearing this tree alone opens 10 %.");
  const face = { ...area, movement: "sign-face" as const, direction: null };
  const toFace = { ...conflict, kind: "sign" as const, withLayer: "sight" as const, withId: area.id };
  const seen = { ...opened, plan: { ...opened.plan, sight: [face], conflicts: [toFace] } };
  expect(
    treeCardModel(seen, "T003", "us", DEFAULT_WORDS)!.conflicts[0]!.notes.join(" ").replaceAll("\u00a0", " "),
  ).toContain("View of a driver who comes toward the sign: it must be seen from 279 ft at 25 mph.");
  // A tree can stand in the window and hide no vehicle: below the eye, or where a building hides it anyway.
  const free = { ...opened.plan, sight: [{ ...area, hidden: { ...hidden, share: 0, trees: [], opensMost: null } }] };
  const inView = { ...conflict, kind: "sight-triangle" as const, withLayer: "sight" as const, withId: area.id };
  const notesOn = (reachedOn: typeof conflict.reachedOn): string =>
    treeCardModel(
      { ...opened, plan: { ...free, conflicts: [{ ...inView, reachedOn }] } },
      "T003",
      "metric",
      DEFAULT_WORDS,
    )!.conflicts[0]!.notes.join(" ");
  expect(notesOn(free.options.asOf)).toContain("trees hide none of it now");
  expect(notesOn(isoDate("2031-01-01"))).not.toContain("trees hide none of it now");
});

test("a conflict with a wire says in which weather the wire comes nearest, in the reader's units", () => {
  const conflict = opened.plan.conflicts.find(({ treeId }) => treeId === "T003")!;
  const wire = { ...conflict, kind: "conductor" as const, loadCase: "wind-6-psf" as const };
  const plan = { ...opened.plan, conflicts: [wire] };
  const notesIn = (units: "us" | "metric"): readonly string[] =>
    treeCardModel({ ...opened, plan }, "T003", units, DEFAULT_WORDS)!.conflicts[0]!.notes;
  expect(notesIn("metric")).toContain("Nearest with the wire in a wind of 78\u00a0km/h (287\u00a0Pa) at 16\u00a0°C.");
  expect(notesIn("us")).toContain("Nearest with the wire in a wind of 48\u00a0mph (6 lb/ft²) at 60\u00a0°F.");
});

test("a tree without a name is called by its id, as it is written", () => {
  const trees = opened.plan.trees.map((tree) => ({ ...tree, commonName: null, species: null }));
  const plan = { ...opened.plan, trees };
  expect(treeCardModel({ ...opened, plan }, "T003", "metric", DEFAULT_WORDS)!.title).toBe("T003");
});
