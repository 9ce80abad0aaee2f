import { readFileSync } from "node:fs";
import { zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { METERS_PER_FOOT } from "../../../src/core/units/length.ts";
import { readCompletions } from "../../../src/formats/completion/read-completions.ts";
import { smallPlan, smallZone } from "../../core/packet/small-plan.ts";
import { reported, sampleCompletion } from "../../core/plan/completion/sample-completion.ts";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const read = (content: string | Uint8Array, name = "report.json", modifiedAt: string | null = null) =>
  readCompletions([{ name, bytes: typeof content === "string" ? bytes(content) : content, modifiedAt }], smallPlan);
const faultsOf = async (content: string | Uint8Array, name?: string): Promise<string> => {
  const { given, refused } = await read(content, name);
  expect(given).toEqual([]);
  return refused.flatMap(({ faults }) => faults).join("\n");
};
const json = JSON.stringify(sampleCompletion);
const [first, second] = smallZone.treeIds as readonly [string, string];

describe("the phone page's JSON", () => {
  test("is read as it was written, also behind a byte-order mark and blanks", async () => {
    expect((await read(json)).given).toMatchObject([{ file: "report.json", completion: sampleCompletion }]);
    expect((await read(`\ufeff \n${json}`)).given).toHaveLength(1);
  });

  test.each([
    ["nothing", "", /empty/],
    ["a file cut short", json.slice(0, -20), /damaged.*cut short/],
    ["bytes that are not UTF-8", new Uint8Array([0x7b, 0x22, 0xff, 0x22, 0x7d]), /not UTF-8/],
    ["another kind of JSON", '{"type":"FeatureCollection","features":[]}', /not a completion/],
    ["a list", "[1,2]", /not a completion/],
    ["nesting without end", "[".repeat(100_000), /damaged/],
    ["a picture", new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0]), /not a completion|damaged/],
  ])("is refused with the reason: %s", async (_, content, reason) => {
    expect(await faultsOf(content)).toMatch(reason);
  });

  test("is refused from 20 MB on", async () => {
    expect(await faultsOf(new Uint8Array(20_000_001))).toMatch(/20 MB are read/);
  });
});

describe("a table written by hand", () => {
  const row = (header: string, ...rows: string[]) => read([header, ...rows].join("\r\n"), "monday.csv");

  test("is a row a visit: the tree's next one, of the plan at hand", async () => {
    const { given, refused } = await row(
      "Tree,Outcome,Reason,Date,Who,Crown base after (ft),Headroom after (m),Dose taken %,Notes",
      `${first},done,,2027-03-12,R. Alder,15,4.6,12,"Fine, all of it"`,
      `${second},partly,Out of time,3/14/2027,R. Alder,,,,`,
    );
    expect(refused).toEqual([]);
    const { completion } = given[0]!;
    expect(completion).toMatchObject({
      planId: smallPlan.planId,
      revision: smallPlan.revision,
      zoneId: smallZone.zoneId,
    });
    expect(completion.visits).toEqual([
      {
        ...reported(0, { notes: "Fine, all of it", doseShare: 0.12, headroomM: 4.6 }),
        crownBaseM: Math.round(15 * METERS_PER_FOOT * 1000) / 1000,
        recordedAt: "2027-03-12T00:00:00Z",
      },
      {
        ...reported(1, { outcome: "partly", reason: "out-of-time" }),
        date: "2027-03-14",
        recordedAt: "2027-03-14T00:00:00Z",
      },
    ]);
  });

  test("takes semicolons, units in the cell, and words people use", async () => {
    const { given } = await row("tree id;status;date done;new crown base;by", `${first};Yes;14.03.2027;4,6 m;B. Birch`);
    expect(given[0]!.completion.visits[0]).toMatchObject({
      outcome: "done",
      date: "2027-03-14",
      crownBaseM: 4.6,
      who: "B. Birch",
    });
  });

  test("takes the guard of a formula off, once", async () => {
    const { given } = await row("tree,outcome,date,notes", `${first},done,2027-03-12,"'=SUM(A1)"`);
    expect(given[0]!.completion.visits[0]!.notes).toBe("=SUM(A1)");
  });

  test("does not take a packet's planned figures for measured ones", async () => {
    const { given, notRead } = await row(
      "tree,outcome,date,crown_base_m,dose_pct,hours",
      `${first},done,2027-03-12,2.5,14,0.5`,
    );
    expect(given[0]!.completion).toMatchObject({ crewHours: null });
    expect(given[0]!.completion.visits[0]).toMatchObject({ crownBaseM: null, doseShare: null });
    expect(notRead.join()).toMatch(/crown_base_m.*dose_pct.*hours/);
  });

  test("parts rows by zone, adds up their hours, and passes over rows without an outcome", async () => {
    const { given } = await row(
      "tree,outcome,date,zone,crew hours",
      `${first},done,2027-03-12,z-1,2.5`,
      `${second},done,2027-03-12,z-2,1`,
      "T-9,,,z-1,",
    );
    expect(given.map(({ completion }) => [completion.zoneId, completion.crewHours, completion.visits.length])).toEqual([
      ["z-1", 2.5, 1],
      ["z-2", 1, 1],
    ]);
  });

  test("is a copy of its own, unless it names its report; written when the file was", async () => {
    const one = await read(`tree,outcome,date\n${first},done,2027-03-12`, "a.csv", "2027-03-13T08:00:00Z");
    const other = await read(`tree,outcome,date\n${first},done,2027-03-13`, "b.csv");
    expect(one.given[0]!.completion.reportId).not.toBe(other.given[0]!.completion.reportId);
    expect(one.given[0]!.completion.exportedAt).toBe("2027-03-13T08:00:00Z");
    const named = await read(`tree,outcome,date,report,written\n${first},done,2027-03-12,crew-3,2027-03-20`, "c.csv");
    expect(named.given[0]!.completion).toMatchObject({
      reportId: `crew-3-${smallZone.zoneId}`,
      exportedAt: "2027-03-20T00:00:00Z",
    });
  });

  test.each([
    ["without its columns", "species,dbh\nAcer,3", /no column outcome, date, tree or visit/],
    [
      "with a word for an outcome that is none",
      `tree,outcome,date\n${first},perhaps,2027-03-12`,
      /Line 2: outcome is "perhaps"/,
    ],
    ["with a day that is none", `tree,outcome,date\n${first},done,2027-02-30`, /Line 2: date/],
    ["with a date that could be two", `tree,outcome,date\n${first},done,03/04/2027`, /Line 2: date/],
    ["with work left without a reason", `tree,outcome,date\n${first},partly,2027-03-12`, /a reason/],
    ["with a height without a unit", `tree,outcome,date,new crown base\n${first},done,2027-03-12,15`, /with its unit/],
    [
      "with a height above all trees",
      `tree,outcome,date,new crown base m\n${first},done,2027-03-12,150`,
      /up to 130 m/,
    ],
    ["with one visit twice", `tree,outcome,date\n${first},done,2027-03-12\n${first},done,2027-03-13`, /Two entries/],
    ["where nothing is said", `tree,outcome,date\n${first},,`, /No row says/],
  ])("is refused %s, with the line", async (_, content, reason) => {
    expect(await faultsOf(content, "monday.csv")).toMatch(reason);
  });

  test("is refused from 10,001 rows on, read up to 10,000", async () => {
    const rows = (count: number) =>
      ["tree,outcome,date", ...Array.from({ length: count }, (_, at) => `T${at},done,2027-03-12`)].join("\n");
    expect((await read(rows(10_000), "many.csv")).given).toHaveLength(1);
    expect(await faultsOf(rows(10_001), "many.csv")).toMatch(/at most 10,000/);
  });

  test("has a template that is read", async () => {
    const template = readFileSync("docs/record-template.csv");
    const { refused, notRead } = await read(new Uint8Array(template), "record-template.csv");
    expect(notRead).toEqual([]);
    expect(refused.flatMap(({ faults }) => faults)).toEqual([
      "No row says what came of its visit: the column outcome is empty.",
    ]);
  });
});

describe("a zip of several", () => {
  const csv = bytes(`tree,outcome,date\n${first},done,2027-03-12`);

  test("is read, photos left alone and named", async () => {
    const zip = zipSync({ "a.json": bytes(json), "day/b.csv": csv, "IMG_1.jpg": new Uint8Array(4) });
    const { given, notRead } = await read(zip, "crew.zip");
    expect(given.map(({ file }) => file)).toEqual(["crew.zip/a.json", "crew.zip/b.csv"]);
    expect(notRead).toEqual(["crew.zip: IMG_1.jpg is no completion and was left alone."]);
  });

  test("holds twenty entries and no more", async () => {
    const many = (count: number) =>
      zipSync(Object.fromEntries(Array.from({ length: count }, (_, at) => [`${at}.csv`, csv])));
    expect((await read(many(20), "twenty.zip")).given).toHaveLength(20);
    expect(await faultsOf(many(21), "more.zip")).toMatch(/at most 20/);
  });

  test.each([
    ["a path that leads out", zipSync({ "../a.json": bytes(json) }), /leads out/],
    ["an absolute path", zipSync({ "/a.json": bytes(json) }), /leads out/],
    ["a drive", zipSync({ "C:/a.json": bytes(json) }), /leads out/],
    ["a path with backslashes", zipSync({ "..\\a.json": bytes(json) }), /leads out/],
    ["two entries of one name", zipSync({ "a.json": bytes(json), "A.json": bytes(json) }), /two entries/],
    ["nothing to read", zipSync({ "a.txt": bytes("x") }), /no completion/],
    ["a bomb", zipSync({ "a.json": new Uint8Array(19_000_000) }), /200 times/],
    ["an end that is cut off", zipSync({ "a.json": bytes(json) }).slice(0, -30), /damaged/],
  ])("is refused with %s", async (_, zip, reason) => {
    expect(await faultsOf(zip, "bad.zip")).toMatch(reason);
  });
});

test("one bad file leaves the others as they are", async () => {
  const { given, refused } = await readCompletions(
    [
      { name: "bad.json", bytes: bytes("{") },
      { name: "good.json", bytes: bytes(json) },
    ],
    smallPlan,
  );
  expect(given.map(({ file }) => file)).toEqual(["good.json"]);
  expect(refused.map(({ file }) => file)).toEqual(["bad.json"]);
});
