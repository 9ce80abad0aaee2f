import { describe, expect, it } from "vitest";
import type { ComparedTree } from "../../../../src/core/plan/carry/like-tree.ts";
import { matchTrees } from "../../../../src/core/plan/carry/match-trees.ts";
import { isoDate } from "../../../../src/core/units/calendar.ts";
import { compared } from "./compared.ts";

const SINCE = isoDate("2026-11-02");

/** `old > new identity`, one a match; `-` stands for nobody. */
const told = (old: readonly ComparedTree[], now: readonly ComparedTree[], isNoId?: (id: string) => boolean): string[] =>
  matchTrees(old, now, SINCE, isNoId).all.map(
    ({ oldRow, newRow, identity }) =>
      `${oldRow === null ? "-" : old[oldRow]!.id} > ${newRow === null ? "-" : now[newRow]!.id} ${identity}`,
  );

describe("a tree with its old id", () => {
  it("is matched at the same place, within two receivers' errors, whatever it has grown", () => {
    expect(told([compared("A", 0, 0)], [compared("A", 4, 2.9, { dbhM: 0.36 })])).toEqual(["A > A matched"]);
    expect(told([compared("A", 0, 0)], [compared("A", 4.1, 3, { dbhM: 0.36 })])).toEqual(["A > A moved"]);
  });

  it("is moved where its position was corrected by up to 100 m, and doubtful beyond", () => {
    const [near] = matchTrees([compared("A", 0, 0)], [compared("A", 99, 0)], SINCE).all;
    expect(near).toMatchObject({ identity: "moved", doubt: null });
    const [far] = matchTrees([compared("A", 0, 0)], [compared("A", 900, 0)], SINCE).all;
    expect(far).toMatchObject({ identity: "moved", doubt: expect.stringMatching(/900 m away/) });
  });

  it("is not the same tree where it stands far away and is of another genus", () => {
    expect(told([compared("A", 0, 0)], [compared("A", 40, 0, { species: "Quercus rubra" })])).toEqual([
      "- > A new",
      "A > - removed",
    ]);
  });

  it("is replanted where it is younger, much smaller, or of another genus and smaller", () => {
    const old = [compared("A", 0, 0, { dbhM: 0.4 })];
    expect(told(old, [compared("A", 1, 0, { dbhM: 0.05 })])).toEqual(["A > A replanted"]);
    expect(told(old, [compared("A", 1, 0, { dbhM: 0.05, species: "Tilia cordata" })])).toEqual(["A > A replanted"]);
    const planted = isoDate("2027-04-01");
    expect(told(old, [compared("A", 1, 0, { dbhM: null, planted })])).toEqual(["A > A replanted"]);
  });

  it("is a corrected name where only the genus differs, and says so", () => {
    const [match] = matchTrees([compared("A", 0, 0)], [compared("A", 0, 0, { species: "Tilia cordata" })], SINCE).all;
    expect(match).toMatchObject({ identity: "matched", doubt: expect.stringMatching(/another genus/) });
  });

  it("is a corrected size where the stem alone is another and the height is not", () => {
    const [match] = matchTrees(
      [compared("A", 0, 0, { dbhM: 1.09, heightM: 4.1 })],
      [compared("A", 0, 0, { dbhM: 0.11, heightM: 4.1 })],
      SINCE,
    ).all;
    expect(match).toMatchObject({ identity: "matched", doubt: expect.stringMatching(/corrected size/) });
  });

  it("was not planted since under another genus where its stem is 59 cm", () => {
    const [match] = matchTrees(
      [compared("A", 0, 0, { species: "Sorbus aucuparia", dbhM: null })],
      [compared("A", 0, 0, { species: "Fraxinus excelsior", dbhM: 0.59 })],
      SINCE,
    ).all;
    expect(match).toMatchObject({ identity: "matched", doubt: expect.stringMatching(/corrected name/) });
  });

  it("keeps 70 % of its stem less 2 cm by measuring alone: 0.7 x 40 - 2 = 26 cm", () => {
    const old = [compared("A", 0, 0, { dbhM: 0.4 })];
    expect(told(old, [compared("A", 0, 0, { dbhM: 0.2601 })])).toEqual(["A > A matched"]);
    expect(told(old, [compared("A", 0, 0, { dbhM: 0.2599 })])).toEqual(["A > A replanted"]);
  });

  it("keeps 60 % of its height less 1 m after pruning where no stem was measured: 0.6 x 15 - 1 = 8 m", () => {
    const old = [compared("A", 0, 0, { dbhM: null, heightM: 15 })];
    expect(told(old, [compared("A", 0, 0, { dbhM: null, heightM: 8.01 })])).toEqual(["A > A matched"]);
    expect(told(old, [compared("A", 0, 0, { dbhM: null, heightM: 7.99 })])).toEqual(["A > A replanted"]);
  });
});

describe("a tree with a new id", () => {
  it("is found by place and species", () => {
    expect(told([compared("A", 0, 0)], [compared("Z", 3, 0)])).toEqual(["A > Z renumbered"]);
    expect(told([compared("A", 0, 0)], [compared("Z", 5.1, 0)])).toEqual(["- > Z new", "A > - removed"]);
  });

  it("is another tree beside the stump of an old one of another species", () => {
    const young = compared("Z", 2, 0, { species: "Tilia cordata", dbhM: 0.05 });
    expect(told([compared("A", 0, 0)], [young])).toEqual(["A > Z replanted"]);
    expect(told([compared("A", 0, 0)], [compared("Z", 3.5, 0, { species: "Tilia cordata", dbhM: 0.05 })])).toEqual([
      "- > Z new",
      "A > - removed",
    ]);
  });

  it("does not take its neighbor's place: a hedge row 4 m apart, all ids dealt anew, its first tree gone", () => {
    const old = [0, 4, 8, 12].map((eastM, at) => compared(`A${at}`, eastM, 0));
    const now = [5, 9, 13].map((eastM, at) => compared(`Z${at}`, eastM, 0));
    expect(told(old, now)).toEqual([
      "A1 > Z0 renumbered",
      "A2 > Z1 renumbered",
      "A3 > Z2 renumbered",
      "A0 > - removed",
    ]);
  });

  it("is not handed on along a row whose first tree is gone and whose last is new", () => {
    const old = [0, 4, 8].map((eastM, at) => compared(`A${at}`, eastM, 0));
    const now = [4, 8, 12].map((eastM, at) => compared(`Z${at}`, eastM, 0));
    expect(told(old, now)).toEqual(["A1 > Z0 renumbered", "A2 > Z1 renumbered", "- > Z2 new", "A0 > - removed"]);
  });

  it("is matched through ids that went one tree on along a row", () => {
    const old = [0, 8, 16].map((eastM, at) => compared(`T${at}`, eastM, 0));
    const now = [0, 8, 16].map((eastM, at) => compared(`T${at + 1}`, eastM + 0.5, 0));
    expect(told(old, now)).toEqual(["T0 > T1 renumbered", "T1 > T2 renumbered", "T2 > T3 renumbered"]);
  });

  it("is doubtful where a second tree fits about as well", () => {
    const [match] = matchTrees([compared("A", 0, 0)], [compared("Y", 2, 0), compared("Z", -2.5, 0)], SINCE).all;
    expect(match).toMatchObject({ identity: "renumbered", newRow: 0, doubt: expect.stringMatching(/Tree Z/) });
  });

  it("without species and size is the same only very near", () => {
    const nothing = { species: null, dbhM: null };
    expect(told([compared("A", 0, 0, nothing)], [compared("Z", 1.9, 0, nothing)])).toEqual(["A > Z renumbered"]);
    expect(told([compared("A", 0, 0, nothing)], [compared("Z", 2.1, 0, nothing)])).toEqual([
      "- > Z new",
      "A > - removed",
    ]);
  });
});

it("does not trust ids that only say where a tree was in its file", () => {
  const isNoId = (id: string): boolean => id.startsWith("trees.csv#");
  const old = [0, 50, 100].map((eastM, at) => compared(`trees.csv#${at}`, eastM, 0));
  const now = [50, 100].map((eastM, at) => compared(`trees.csv#${at}`, eastM, 0));
  expect(told(old, now, isNoId)).toEqual([
    "trees.csv#1 > trees.csv#0 renumbered",
    "trees.csv#2 > trees.csv#1 renumbered",
    "trees.csv#0 > - removed",
  ]);
});

it("takes a shift that all trees share off before it compares places", () => {
  // 30 trees 8 m apart, all 7 m farther east: without the shift each would stand beside its neighbor's old place.
  const old = Array.from({ length: 30 }, (_, at) => compared(`T${at}`, at * 8, 0));
  const now = Array.from({ length: 30 }, (_, at) => compared(at === 3 ? "new-3" : `T${at}`, at * 8 + 7, 0));
  const matches = matchTrees(old, now, SINCE);
  expect(matches.shift?.eastM).toBeCloseTo(7, 6);
  expect(matches.all.filter(({ identity }) => identity === "matched")).toHaveLength(29);
  expect(matches.all[3]).toMatchObject({ oldRow: 3, newRow: 3, identity: "renumbered" });
});

it("compares stems as if in one unit where one inventory was read in millimeters", () => {
  const old = Array.from({ length: 30 }, (_, at) => compared(`T${at}`, at * 8, 0, { dbhM: 1 + at / 100 }));
  const now = old.map((tree, at) => compared(tree.id, at * 8, 0, { dbhM: (1 + at / 100) / 9.8 }));
  const matches = matchTrees(old, now, SINCE);
  expect(matches.stemFactor).toBe(10);
  expect(matches.all.every(({ identity, doubt }) => identity === "matched" && doubt === null)).toBe(true);
});

it("takes one stem kept in another unit for a corrected one, unless what stands there can be a new planting", () => {
  const grown = compared("T1", 0, 0, { dbhM: 2.12 });
  const [same] = matchTrees([grown], [compared("T1", 0, 0, { dbhM: 0.212 })], SINCE).all;
  expect(same).toMatchObject({ identity: "matched" });
  expect(same!.doubt).toContain("another unit");
  const [young] = matchTrees([compared("T1", 0, 0, { dbhM: 0.3 })], [compared("T1", 0, 0, { dbhM: 0.03 })], SINCE).all;
  expect(young).toMatchObject({ identity: "replanted" });
});

it("gives the same whatever the order of the new inventory", () => {
  const old = Array.from({ length: 40 }, (_, at) => compared(`T${at}`, (at % 8) * 3.3, Math.floor(at / 8) * 3.7));
  const now = old.map((tree, at) =>
    compared(at % 3 === 0 ? `N${at}` : tree.id, (at % 8) * 3.3 + 0.4, Math.floor(at / 8) * 3.7),
  );
  const backward = [...now].reverse();
  expect(told(old, backward).sort()).toEqual(told(old, now).sort());
});
