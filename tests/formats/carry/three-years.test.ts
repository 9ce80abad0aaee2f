import { beforeAll, describe, expect, test } from "vitest";
import type { ArboristWord } from "../../../src/core/model/word.ts";
import { readRecord } from "../../../src/core/plan/record/record-lines.ts";
import { readWords, wordsText } from "../../../src/core/plan/word/word-lines.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { type Files, recorded, reportOf, textOf, townPlan, zonesOf } from "../plan/recorded-town.ts";
import { askedOf, changesOf, nextYear, type TownTree, townTrees } from "./next-year.ts";

/**
 * Three years on the sample town. 2026: a plan, zones, work in two of them (done, done otherwise, partly, not, gone), words. 2027: a new inventory with
 * 5 % of the ids changed, 2 % new trees, some removed, replanted, moved and measured anew; then a report under an old id. 2028: a stricter standard.
 */
const TREES = 200;
const METERS_PER_DEGREE = 111_195;
const STRICTER = {
  extends: "us-common",
  id: "stricter",
  title: "Stricter streets and walks",
  rules: {
    "roadway-headroom": { minimum: "15 ft", clearTo: "16 ft" },
    "walkway-headroom": { minimum: "9 ft", clearTo: "10 ft" },
  },
};

/** Numbers from 0 to 1 that are the same in every run (a linear congruential generator, Numerical Recipes). */
function drawn(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296;
    return state / 4_294_967_296;
  };
}

const treeOf = (visitId: string): string => visitId.slice(0, visitId.lastIndexOf("/v"));
const withId = (tree: TownTree, id: string): TownTree => ({ ...tree, properties: { ...tree.properties, id } });
const moved = (tree: TownTree, eastM: number): TownTree => {
  const [lonDeg, latDeg] = tree.geometry.coordinates;
  const eastDeg = eastM / (METERS_PER_DEGREE * Math.cos((latDeg * Math.PI) / 180));
  return { ...tree, geometry: { type: "Point", coordinates: [lonDeg + eastDeg, latDeg] } };
};

let first: Files;
let worked: Files;
let second: Files;
let third: Files;
let secondWorked: Files;
/** What the new inventory did, by the ids of the first. */
const truth = {
  renumbered: new Map<string, string>(),
  removed: new Set<string>(),
  replanted: new Set<string>(),
  moved: new Set<string>(),
  measured: new Set<string>(),
  added: new Set<string>(),
};
let words: ArboristWord[];
let workedTrees: Set<string>;
let openOldVisit: string;

beforeAll(async () => {
  first = await townPlan(TREES);
  const zones = zonesOf(first);
  const [one, two, three] = zones;
  const reports = [
    reportOf(first, one!, (at) =>
      at % 5 === 1
        ? { outcome: "partly", reason: "out-of-time", doseShare: 0.01 }
        : at % 5 === 2
          ? { outcome: "not-done", reason: "nest" }
          : at % 5 === 3
            ? { doseShare: 0.06, notes: "Took a limb more" }
            : {},
    ),
    reportOf(first, two!, (at) => (at === 0 ? { outcome: "not-done", reason: "tree-gone" } : {})),
  ];
  ({ files: worked } = await recorded(first, reports));
  workedTrees = new Set([...one!.visit_ids, ...two!.visit_ids].map(treeOf));
  const gone = treeOf(two!.visit_ids[0]!);

  // Words about trees that nobody reported; one of them is renumbered next year, another removed.
  const trees = townTrees(TREES);
  const others = trees.map((tree) => tree.properties.id).filter((id) => !workedTrees.has(id));
  const said = (at: number, treeId: string, more: Partial<ArboristWord>): ArboristWord =>
    ({
      wordId: `w-${at}`,
      treeId,
      visitId: null,
      on: isoDate("2027-02-01"),
      by: "L. Linden",
      why: "Seen on the spot",
      kind: "note",
      value: { text: "Asked the neighbor" },
      takenBack: null,
      ...more,
    }) as ArboristWord;
  const withVisits = others.filter((id) => textOf(first, "visits.csv").includes(`"${id}"`));
  words = [
    said(1, withVisits[3]!, { kind: "do-not-prune", value: { until: null } } as Partial<ArboristWord>),
    said(2, withVisits[4]!, {}),
    said(3, others.findLast((id) => id !== gone)!, {}),
  ];
  worked = new Map([...worked, ["words.jsonl", new TextEncoder().encode(wordsText(words))]]);

  const next = drawn(20271102);
  const fixed = new Set([words[0]!.treeId, words[1]!.treeId, words[2]!.treeId, gone]);
  truth.renumbered.set(words[1]!.treeId, `R-${words[1]!.treeId}`);
  truth.removed.add(words[2]!.treeId).add(gone);
  // One tree with recorded work is renumbered, and one that a crew will report under its old id.
  const doneId = treeOf(one!.visit_ids[0]!);
  truth.renumbered.set(doneId, `R-${doneId}`);
  // A tree with this visit alone, so that its work decides what becomes of it.
  const isAlone = (id: string): boolean => {
    const line = textOf(first, "prescriptions.jsonl").split("\n");
    const { prescription } = JSON.parse(line.find((text) => text.includes(`"id":"${treeOf(id)}"`))!);
    return prescription.visits.length === 1 && prescription.refer === null;
  };
  openOldVisit = three!.visit_ids.find((id) => !fixed.has(treeOf(id)) && !workedTrees.has(treeOf(id)) && isAlone(id))!;
  truth.renumbered.set(treeOf(openOldVisit), `R-${treeOf(openOldVisit)}`);
  for (const id of [doneId, treeOf(openOldVisit)]) fixed.add(id);
  const inventory = trees.flatMap((tree): TownTree[] => {
    const { id } = tree.properties;
    if (truth.removed.has(id)) return [];
    const renumbered = truth.renumbered.get(id);
    if (renumbered !== undefined) return [withId(tree, renumbered)];
    if (fixed.has(id)) return [tree];
    const draw = next();
    if (draw < 0.035) {
      truth.renumbered.set(id, `R-${id}`);
      return [withId(moved(tree, 1.2), `R-${id}`)];
    }
    if (draw < 0.05) {
      truth.removed.add(id);
      return [];
    }
    const { dbh } = tree.properties;
    if (draw < 0.07 && typeof dbh === "number" && dbh > 15 && !workedTrees.has(id)) {
      truth.replanted.add(id);
      const young = { species: "Tilia cordata", common_name: "littleleaf linden", dbh: 5, height: 3, crown_base: 1.2 };
      const properties = { ...tree.properties, ...young, form: null, crown_spread: 1.5, planted: "2027-04-10" };
      return [{ ...tree, properties }];
    }
    if (draw < 0.09) {
      truth.moved.add(id);
      return [moved(tree, 6.5)];
    }
    if (draw < 0.2 && typeof dbh === "number") {
      truth.measured.add(id);
      return [{ ...tree, properties: { ...tree.properties, dbh: dbh + 1 } }];
    }
    return [tree];
  });
  // Two in a hundred are new, 30 m from trees that have been there.
  for (let at = 0; at < TREES / 50; at += 1) {
    const like = trees[Math.floor(next() * TREES)]!;
    const id = `NEW-${at}`;
    truth.added.add(id);
    const properties = {
      ...like.properties,
      id,
      dbh: 6,
      height: 3.5,
      crown_base: 1.5,
      crown_spread: 2,
      planted: "2027-03-01",
    };
    inventory.push({ ...moved(like, 30.4 + at), properties });
  }
  second = await nextYear({
    trees: inventory,
    asOf: "2027-11-02",
    earlier: { files: worked, since: first, measuredOn: null },
  });

  // A packet of the first year comes back late, with a tree under the id that it had then.
  const late = reportOf(
    first,
    three!,
    (_, visitId) => (visitId === openOldVisit ? { date: isoDate("2027-11-20") } : null),
    {
      exportedAt: "2027-11-21T10:00:00Z",
    },
  );
  const taken = await recorded(second, [late], new Map([[newName(openOldVisit), null]]), new Map([[1, first]]));
  secondWorked = taken.files;
  third = await nextYear({
    trees: inventory,
    asOf: "2028-11-02",
    earlier: { files: secondWorked, since: second, measuredOn: null },
    standardJson: STRICTER,
  });
}, 600_000);

const newName = (visitId: string): string => {
  const id = treeOf(visitId);
  return (truth.renumbered.get(id) ?? id) + visitId.slice(id.length);
};
const identities = (files: Files): Record<string, number> => JSON.parse(textOf(files, "plan.json")).changes.trees;

describe("the second year", () => {
  test("tells exactly what became of every tree", () => {
    const rows = changesOf(second);
    const got = (identity: string): string[] =>
      [...rows.values()].filter((row) => row.identity === identity).map((row) => row.formerly || row.tree!);
    expect(got("renumbered").sort()).toEqual([...truth.renumbered.keys()].sort());
    expect(got("removed").sort()).toEqual([...truth.removed].sort());
    expect(got("replanted").sort()).toEqual([...truth.replanted].sort());
    expect(got("moved").sort()).toEqual([...truth.moved].sort());
    expect(got("new").sort()).toEqual([...truth.added].sort());
    const { renumbered, removed, replanted, moved: corrected, added } = truth;
    expect(identities(second)).toEqual({
      matched: TREES - renumbered.size - removed.size - replanted.size - corrected.size,
      renumbered: renumbered.size,
      removed: removed.size,
      replanted: replanted.size,
      moved: corrected.size,
      new: added.size,
    });
    for (const set of [renumbered, removed, replanted, corrected, added]) expect(set.size).toBeGreaterThan(0);
  });

  test("is the same plan, one revision on", () => {
    const [was, is] = [first, second].map((files) => JSON.parse(textOf(files, "plan.json")));
    expect(is.plan).toBe(was.plan);
    expect(is.revision).toBe(3);
    expect(is.changes).toMatchObject({ since_revision: 1, previous_revision: 2, in_revision: 3 });
  });
});

describe.each([
  ["second", () => [first, second]],
  ["third", () => [second, third]],
] as const)("every difference between the years, %s", (year, files) => {
  test("is explained by exactly one cause, and nothing else is told", () => {
    const [before, now] = files() as [Files, Files];
    const [was, is] = [askedOf(before), askedOf(now)];
    const oldName = new Map(year === "second" ? [...truth.renumbered].map(([from, to]) => [to, from]) : []);
    const rows = changesOf(now);
    const isSuccessor = (id: string): boolean => year === "second" && truth.replanted.has(id);
    let differing = 0;
    for (const [id, asked] of is) {
      const then = was.get(oldName.get(id) ?? id);
      if (then === undefined || isSuccessor(id)) continue;
      const row = rows.get(id);
      if (then !== asked) {
        differing += 1;
        expect(row?.cause, `${id}: ${then} -> ${asked}`).toMatch(/^(work|word|data|surroundings|rule|growth|model)$/);
        expect(row?.detail).not.toBe("");
      }
    }
    expect(differing).toBeGreaterThan(30);
    const { changes } = JSON.parse(textOf(now, "plan.json"));
    const sum = Object.values(changes.by_cause as Record<string, number>).reduce((a, b) => a + b, 0);
    expect(sum).toBe(changes.changed);
    expect(changes.by_cause.model).toBe(0);
    expect([...rows.values()].filter(({ cause }) => cause !== "").length).toBe(changes.changed);
  });
});

describe("causes of the second year", () => {
  test("belong to the trees they are told of", () => {
    const said = new Set(words.map(({ treeId }) => treeId));
    for (const row of changesOf(second).values()) {
      const id = row.formerly || row.tree!;
      const isWorked = workedTrees.has(id);
      if (row.cause === "work" && !isWorked) expect(row.detail).toMatch(/opened a view/);
      if (row.cause === "word" && !said.has(id)) expect(row.detail).toMatch(/opened a view/);
      expect(row.cause).not.toBe("rule");
      expect(row.cause).not.toBe("surroundings");
    }
    const causes = new Map([...changesOf(second).values()].map((row) => [row.formerly || row.tree!, row.cause]));
    expect(causes.get(words[0]!.treeId)).toBe("word");
    for (const id of truth.removed) expect(causes.get(id)).toBe("data");
  });

  test("of the third are the standard, what was reported, and time", () => {
    const { by_cause: byCause, trees } = JSON.parse(textOf(third, "plan.json")).changes;
    expect(trees).toMatchObject({ renumbered: 0, removed: 0, new: 0, replanted: 0, moved: 0 });
    expect(byCause.rule).toBeGreaterThan(0);
    expect(byCause.growth).toBeGreaterThan(0);
    expect(byCause.data + byCause.surroundings + byCause.word + byCause.model).toBe(0);
    const row = changesOf(third).get(newName(`${treeOf(openOldVisit)}/v1`).replace(/\/v1$/, ""));
    expect(row?.cause).toBe("work");
  });
});

describe("nothing recorded is lost", () => {
  const linesOf = (files: Files) => readRecord(textOf(files, "record.jsonl"));

  test("reports, visits and trees as they were are all still there", () => {
    const before = linesOf(worked);
    for (const files of [second, secondWorked, third]) {
      const after = linesOf(files);
      for (const report of before.reports) expect(after.reports).toContainEqual(report);
      before.visits.forEach((visit, at) => {
        const now = after.visits[at]!;
        const { treeId, visitId, ...entry } = visit.entry;
        expect(now.entry).toMatchObject(entry);
        expect(now.formerly ?? { treeId: now.entry.treeId, visitId: now.entry.visitId }).toEqual({ treeId, visitId });
      });
      expect(after.bases.length).toBeGreaterThanOrEqual(before.bases.length);
    }
    expect(linesOf(third).visits.length).toBe(before.visits.length + 1);
  });

  test("work done stands in the new plan under the new id", () => {
    const [doneId] = workedTrees;
    const line = textOf(second, "prescriptions.jsonl")
      .split("\n")
      .find((text) => text.includes(`"id":"R-${doneId}"`))!;
    const { tree, prescription } = JSON.parse(line);
    expect(tree).toMatchObject({ formerly: [doneId], lastPruned: "2026-11-10", worked: { outcome: "done" } });
    for (const { visitId } of prescription.visits) expect(visitId).toMatch(/^R-.*\/v[2-9]$/);
  });

  test("what was recorded and said of trees that are gone is told", () => {
    const findings = textOf(second, "findings.csv");
    expect(findings).toContain("carry-record-detached");
    expect(findings).toMatch(new RegExp(`word-[a-z-]+.*${words[2]!.treeId}`));
  });

  test("words go with their trees", () => {
    for (const files of [second, secondWorked, third]) {
      const said = readWords(textOf(files, "words.jsonl"));
      expect(said.map(({ wordId }) => wordId)).toEqual(["w-1", "w-2", "w-3"]);
      expect(said.map(({ treeId }) => treeId)).toEqual([words[0]!.treeId, `R-${words[1]!.treeId}`, words[2]!.treeId]);
    }
  });

  test("a packet of before the new inventory is taken under the new id", () => {
    const { visits } = linesOf(secondWorked);
    expect(visits.at(-1)!.entry).toMatchObject({ visitId: newName(openOldVisit), outcome: "done" });
  });

  test("conflicts keep the day they were first seen, unless they became hazards since", () => {
    const seen = (files: Files) =>
      new Map<string, { first_seen: string; hazard: string | null }>(
        JSON.parse(textOf(files, "conflicts.geojson")).features.map((one: { properties: { conflict_id: string } }) => [
          one.properties.conflict_id,
          one.properties,
        ]),
      );
    const [was, is] = [seen(worked), seen(second)];
    let kept = 0;
    for (const [id, { first_seen: since, hazard }] of is) {
      const [kind, treeId, ...rest] = id.split(":");
      const old = [...truth.renumbered].find(([, to]) => to === treeId)?.[0] ?? treeId;
      const before = was.get([kind, old, ...rest].join(":"));
      if (before === undefined || truth.replanted.has(treeId!)) expect(since, id).toBe("2027-11-02");
      else if (hazard !== null && before.hazard === null) expect(since, id).toBe("2027-11-02");
      else {
        kept += 1;
        expect(since, id).toBe(before.first_seen);
      }
    }
    expect(kept).toBeGreaterThan(50);
  });

  test("zones that crews worked in keep id, name and state", () => {
    const was = zonesOf(worked).filter(({ state }) => state !== "draft");
    for (const files of [second, third]) {
      const is = new Map(zonesOf(files).map((zone) => [zone.zone, zone]));
      for (const { zone } of was) expect(is.get(zone)?.state).toMatch(/under-way|done/);
    }
    expect(was.length).toBe(2);
  });
});

test("the same inputs give the same bytes", async () => {
  const trees = townTrees(60);
  const small = await townPlan(60);
  const make = () =>
    nextYear({ trees: trees.slice(3), asOf: "2027-05-01", earlier: { files: small, measuredOn: null } });
  const [one, other] = [await make(), await make()];
  for (const [name, bytes] of one) expect(Buffer.from(other.get(name)!).equals(Buffer.from(bytes)), name).toBe(true);
}, 240_000);
