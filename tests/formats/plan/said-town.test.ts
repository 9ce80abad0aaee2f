import { beforeAll, describe, expect, test } from "vitest";
import type { ArboristWord } from "../../../src/core/model/word.ts";
import type { PrescriptionLine } from "../../../src/core/plan/read-plan.ts";
import type { GivenWord } from "../../../src/core/plan/word/word-preview.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { openRecord } from "../../../src/formats/plan/open-record.ts";
import { memorySource } from "../../../src/formats/plan/plan-source.ts";
import { type RecordOutput, recordPlan } from "../../../src/formats/plan/record-plan.ts";
import { zonePlan } from "../../../src/formats/plan/zone-plan.ts";
import { type Files, recorded, reportOf, textOf, townPlan, zonesOf } from "./recorded-town.ts";

let town: Files;
beforeAll(async () => {
  town = await townPlan(150);
}, 240_000);

const linesOf = (files: Files): Map<string, PrescriptionLine> =>
  new Map(
    textOf(files, "prescriptions.jsonl")
      .split("\n")
      .filter((line) => line !== "")
      .map((line) => JSON.parse(line) as PrescriptionLine)
      .map((line) => [line.tree.id, line]),
  );
const propertiesOf = (files: Files, at: number): Record<string, unknown> =>
  JSON.parse(textOf(files, "trees.geojson")).features[at].properties;

type Content = Pick<ArboristWord, "kind" | "value"> & Partial<Pick<ArboristWord, "visitId" | "on" | "wordId" | "why">>;

const word = (treeId: string, content: Content): GivenWord => ({
  file: "words.csv",
  line: 2,
  said: {
    type: "word",
    word: {
      wordId: `${treeId}-${content.kind}`,
      visitId: null,
      on: isoDate("2026-11-10"),
      by: "R. Alder",
      why: "seen on the spot",
      takenBack: null,
      treeId,
      ...content,
    } as ArboristWord,
  },
});
const takeBack = (wordId: string): GivenWord => ({
  file: "words.csv",
  line: 3,
  said: { type: "take-back", wordId, on: isoDate("2026-11-12"), by: "B. Birch", why: "looked again" },
});

async function said(files: Files, ...given: GivenWord[]): Promise<{ files: Files; output: RecordOutput | null }> {
  const opened = await openRecord(memorySource(files));
  const output = await recordPlan(opened, [], new Map(), opened.plan.revision + 1, given);
  return { files: output?.files ?? files, output };
}

/** A tree whose prescribed option is one of several that may be prescribed, and another of these; or of those that a limit rules out. */
function treeWithOther(isRuledOut: boolean): { id: string; other: number } {
  for (const [id, { prescription }] of linesOf(town)) {
    const { chosen, options, visits } = prescription;
    if (chosen === null || visits.length === 0) continue;
    const other = options.findIndex(
      ({ ruledOutBy, remedy, leadersToM, doseShare }, at) =>
        at !== chosen &&
        doseShare > 0.01 &&
        remedy !== options[chosen]!.remedy &&
        leadersToM === undefined &&
        (isRuledOut ? ruledOutBy?.startsWith("takes") === true : ruledOutBy === null),
    );
    if (other >= 0) return { id, other };
  }
  throw new Error("The town has no such tree");
}

const option = (id: string, at: number): Content => {
  const { remedy, liftToM, shortenM, doseShare, lastsYears } = linesOf(town).get(id)!.prescription.options[at]!;
  return { kind: "option", value: { remedy, liftToM, shortenM, doseShare, lastsYears } };
};

/** Files that must be as they were after a word was taken back; the manifest and the record tell that something happened. */
const SECTIONS = [
  "trees.geojson",
  "prescriptions.jsonl",
  "conflicts.geojson",
  "sight.geojson",
  "visits.csv",
  "workload.csv",
  "spans.csv",
  "findings.csv",
  "zones.geojson",
];

describe("another option", () => {
  test("outranks the model and is told as such, with its tasks, dose and who chose it", async () => {
    const { id, other } = treeWithOther(false);
    const was = linesOf(town).get(id)!.prescription;
    const { files, output } = await said(town, word(id, option(id, other)));
    const { prescription } = linesOf(files).get(id)!;
    expect(prescription.chosen).toBe(other);
    expect(prescription.options).toEqual(was.options);
    expect(prescription.remedy).toBe(was.options[other]!.remedy);
    expect(prescription.tasks).not.toEqual(was.tasks);
    expect(prescription.why.startsWith("R. Alder chose this option on ")).toBe(true);
    expect(prescription.words).toMatchObject([{ kind: "option", by: "R. Alder", breaks: [], idle: null }]);
    expect(output!.changedTreeIds).toContain(id);
    const row = [...linesOf(files).keys()].indexOf(id);
    expect(propertiesOf(files, row).bough_word).toBe("option");
  });

  test("beyond a limit is taken, and marked with the limit that it breaks", async () => {
    const { id, other } = treeWithOther(true);
    const { files, output } = await said(town, word(id, option(id, other)));
    const { prescription } = linesOf(files).get(id)!;
    const broken = prescription.options[other]!.ruledOutBy!;
    expect(prescription.chosen).toBe(other);
    expect(prescription.visits).toHaveLength(1);
    // The whole option in one visit; tasks are told in doses that add up to its own.
    expect(prescription.visits[0]!.doseShare).toBeCloseTo(prescription.options[other]!.doseShare, 3);
    expect(prescription.words![0]!.breaks).toEqual([`Breaks a limit: ${broken}.`]);
    expect([...output!.breaks.values()]).toEqual([prescription.words![0]!.breaks]);
    expect(/"word-beyond[^\n]*/.exec(textOf(files, "findings.csv"))?.[0]).toMatch(
      /"word-beyond-limit","warning","plan",,"T-/,
    );
  });
});

test("do not prune ends all visits, leaves the zones, keeps a hazard's deadline running and says so", async () => {
  const lines = linesOf(town);
  const hazard = [...lines.values()].find(({ prescription }) => prescription.visits[0]?.urgency === "now")!;
  const { id } = hazard.tree;
  const { files } = await said(town, word(id, { kind: "do-not-prune", value: { until: null } }));
  const { prescription } = linesOf(files).get(id)!;
  expect(prescription.visits).toEqual([]);
  expect(prescription.remedy === "none" || prescription.remedy === "refer").toBe(true);
  expect(prescription.urgency).toBe("now");
  expect(prescription.words![0]!.breaks.join(" ")).toMatch(/A hazard stays open/);
  expect(zonesOf(files).flatMap(({ visit_ids }) => visit_ids)).not.toContain(hazard.prescription.visits[0]!.visitId);
  expect(textOf(files, "visits.csv")).not.toContain(`${id}/v1,`);
});

test("dates hold for the visit, and a closed season that they fall into is told", async () => {
  const lines = linesOf(town);
  const oak = [...lines.values()].find(
    ({ prescription }) => prescription.visits.length > 0 && /wilt/i.test(prescription.visits[0]!.windowReason),
  )!;
  const { id } = oak.tree;
  const dates = { windowStart: isoDate("2027-05-03"), windowEnd: isoDate("2027-05-28"), due: null };
  const { files } = await said(town, word(id, { kind: "dates", value: dates }));
  const { prescription } = linesOf(files).get(id)!;
  expect(prescription.visits[0]).toMatchObject({
    windowStart: "2027-05-03",
    windowEnd: "2027-05-28",
    due: "2027-05-28",
    windowReason: "Dates given by R. Alder.",
  });
  expect(prescription.words![0]).toMatchObject({ visitId: `${id}/v1` });
  expect(prescription.words![0]!.breaks.join(" ")).toMatch(/Falls into a closed season/);
});

test("a measurement is the tree's figure, says who and when, and settles what depends on it", async () => {
  const lines = linesOf(town);
  const low = [...lines.values()].find(
    ({ tree, prescription }) =>
      tree.crownBase.basis !== "measured" && prescription.chosen !== null && tree.height.valueM > 8,
  )!;
  const { id } = low.tree;
  const { files } = await said(town, word(id, { kind: "measurement", value: { of: "crown-base", valueM: 6.5 } }));
  const { tree } = linesOf(files).get(id)!;
  expect(tree.crownBase).toEqual({
    valueM: 6.5,
    // Three decimeters either way, as of every crown base that was measured.
    lowM: 6.2,
    highM: 6.8,
    basis: "measured",
    source: "measured by R. Alder, 2026-11-10",
  });
  expect(tree.unsaid).toEqual({ crownBase: low.tree.crownBase });
  const conflictsOf = (of: Files) => textOf(of, "conflicts.geojson").split(`"tree":"${id}"`).length - 1;
  expect(conflictsOf(files)).toBeLessThan(conflictsOf(town));
});

test("a re-run keeps words: zones made anew, and work reported of a tree that was spoken of", async () => {
  const { id, other } = treeWithOther(false);
  const note: Content = { kind: "note", value: { text: "A nest in the fork" } };
  const first = await said(town, word(id, option(id, other)), word(id, note));
  const zoned = await zonePlan(memorySource(first.files), 3, { anew: true });
  expect(textOf(zoned.files, "words.jsonl")).toBe(textOf(first.files, "words.jsonl"));
  expect(linesOf(zoned.files).get(id)!.prescription.words).toEqual(linesOf(first.files).get(id)!.prescription.words);
  const zone = zonesOf(first.files).find(({ visit_ids }) => visit_ids.includes(`${id}/v1`))!;
  const report = reportOf(first.files, zone, (_, visitId) =>
    visitId === `${id}/v1` ? { outcome: "not-done", reason: "weather" } : null,
  );
  const { files } = await recorded(first.files, [report]);
  expect(linesOf(files).get(id)!.prescription.chosen).toBe(other);
  expect(textOf(files, "words.jsonl")).toBe(textOf(first.files, "words.jsonl"));
});

test("a word about a visit ends with it, one about the tree stays", async () => {
  const { id, other } = treeWithOther(false);
  const first = await said(town, word(id, { ...option(id, other), visitId: `${id}/v1` }));
  const zone = zonesOf(first.files).find(({ visit_ids }) => visit_ids.includes(`${id}/v1`))!;
  const report = reportOf(first.files, zone, (_, visitId) => (visitId === `${id}/v1` ? {} : null));
  const { files } = await recorded(first.files, [report]);
  expect(linesOf(files).get(id)!.prescription.words).toMatchObject([{ idle: "Its visit is done." }]);
});

describe("taking back", () => {
  test("gives every section of the plan as it was, byte for byte, and keeps both in the history", async () => {
    const { id, other } = treeWithOther(false);
    const zoned = new Set(zonesOf(town).flatMap(({ visit_ids }) => visit_ids));
    const dated = [...linesOf(town).values()].filter(({ tree }) => zoned.has(`${tree.id}/v1`));
    const [one, two, three] = dated.filter(({ tree }) => tree.id !== id).map(({ tree }) => tree.id);
    const dates = { windowStart: isoDate("2027-05-03"), windowEnd: isoDate("2027-05-28"), due: null };
    const first = await said(
      town,
      word(id, option(id, other)),
      word(one!, { kind: "do-not-prune", value: { until: null } }),
      word(two!, { kind: "dates", value: dates }),
      word(three!, { kind: "measurement", value: { of: "height", valueM: 4.2 } }),
    );
    for (const name of ["trees.geojson", "prescriptions.jsonl", "zones.geojson"]) {
      expect(textOf(first.files, name) === textOf(town, name), name).toBe(false);
    }
    const ids = [`${id}-option`, `${one}-do-not-prune`, `${two}-dates`, `${three}-measurement`];
    const { files } = await said(first.files, ...ids.map(takeBack));
    for (const name of SECTIONS) expect(textOf(files, name) === textOf(town, name), name).toBe(true);
    const lines = textOf(files, "words.jsonl");
    expect(lines.startsWith(textOf(first.files, "words.jsonl"))).toBe(true);
    expect(lines.split("\n").filter((line) => line.includes('"taken-back"'))).toHaveLength(4);
  });

  test("one of two words leaves the other in force", async () => {
    const { id, other } = treeWithOther(false);
    const first = await said(
      town,
      word(id, option(id, other)),
      word(id, { kind: "do-not-prune", value: { until: null } }),
    );
    expect(linesOf(first.files).get(id)!.prescription.visits).toEqual([]);
    const { files } = await said(first.files, takeBack(`${id}-do-not-prune`));
    const { prescription } = linesOf(files).get(id)!;
    expect(prescription.chosen).toBe(other);
    expect(prescription.words).toHaveLength(1);
  });
});

test("an option that leaves no live crown is removal, and is refused", async () => {
  const found = [...linesOf(town).values()].flatMap(({ tree, prescription: { options } }) =>
    options.flatMap(({ remedy, liveCrownRatioAfter }, at) =>
      liveCrownRatioAfter <= 0 && options.filter((one) => one.remedy === remedy).length === 1
        ? [{ id: tree.id, at }]
        : [],
    ),
  )[0]!;
  expect((await said(town, word(found.id, option(found.id, found.at)))).output).toBeNull();
});

test("the same words twice change nothing, and what nobody can take is set aside with the reason", async () => {
  const { id, other } = treeWithOther(false);
  const given = word(id, option(id, other));
  const first = await said(town, given);
  expect((await said(first.files, given)).output).toBeNull();
  const refused = await said(
    town,
    word("no such tree", { kind: "note", value: { text: "hello" } }),
    word(id, {
      kind: "dates",
      value: { windowStart: isoDate("2027-05-03"), windowEnd: isoDate("2027-05-01"), due: null },
    }),
    word(id, { ...option(id, other), why: " " }),
    takeBack("w-unknown"),
  );
  expect(refused.output).toBeNull();
});
