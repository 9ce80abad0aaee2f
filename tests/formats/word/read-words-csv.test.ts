import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { isWordTable, readWordsCsv } from "../../../src/formats/word/read-words-csv.ts";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const HEAD = "tree,visit,word,value,from,to,due,on,by,why,id";

async function read(text: string | Uint8Array) {
  const found = await readWordsCsv("words.csv", typeof text === "string" ? bytes(text) : text);
  if ("faults" in found) throw new Error(found.faults.join(" "));
  return found;
}
const contents = async (text: string | Uint8Array) =>
  (await read(text)).given.map(({ said }) => (said.type === "word" ? { ...said.word.value } : { takes: said.wordId }));
const row = (word: string, value: string, more = ",,"): string =>
  `T-1,,${word},${value},${more},2026-11-10,R. Alder,because,`;

test("the template is read whole", async () => {
  const template = readFileSync(new URL("../../../docs/words-template.csv", import.meta.url));
  expect(isWordTable(template)).toBe(true);
  const { given, setAside, others } = await read(template);
  expect(setAside).toEqual([]);
  expect(others).toEqual([]);
  expect(given.map(({ said }) => said.type === "word" && said.word.kind)).toEqual([
    "option",
    "dates",
    "do-not-prune",
    "note",
    "measurement",
    "measurement",
  ]);
});

test("every kind of word, with its figure in meters", async () => {
  const rows = [
    row("option", "Remove limb"),
    row("dates", "", "2027-01-04,2027-02-26,"),
    row("do not prune", "", ",2027-09-30,"),
    row("may-prescribe", "measured: it is real"),
    row("height", "40 ft"),
    row("dbh", "34 cm"),
    row("headroom over road", "13 ft 6 in"),
    row("planted", "2021-10-30"),
    row("no-dead-limb", ""),
    row("inspected", "no conflict"),
    ",,take-back,w-123,,,,2026-11-12,B. Birch,looked again,",
  ];
  expect(await contents([HEAD, ...rows].join("\n"))).toEqual([
    { remedy: "remove-limb", liftToM: null, shortenM: null, doseShare: null, lastsYears: null },
    { windowStart: "2027-01-04", windowEnd: "2027-02-26", due: null },
    { until: "2027-09-30" },
    { code: null, decision: "measured: it is real", mayPrescribe: true },
    // 40 ft of 0.3048 m.
    { of: "height", valueM: 12.192 },
    { of: "dbh", valueM: 0.34 },
    // 162 in of 0.0254 m, to the millimeter.
    { of: "headroom", valueM: 4.115 },
    { of: "planted", date: "2021-10-30" },
    { of: "defect", defect: "dead-limb", isThere: false },
    { conflictIds: [], found: "no-conflict" },
    { takes: "w-123" },
  ]);
});

test("rows that cannot be used are set aside with line and reason, the others are taken", async () => {
  const rows = [
    row("option", "topping"),
    row("height", "12"),
    row("dates", "", "2027-01-04,soon,"),
    row("cut it down", ""),
    ",,note,hello,,,,2026-11-10,R. Alder,,",
    "T-1,,note,hello,,,,10/11/2026,R. Alder,,",
    row("note", "good"),
  ];
  const { given, setAside } = await read([HEAD, ...rows].join("\n"));
  expect(given).toHaveLength(1);
  expect(setAside.map(({ line }) => line)).toEqual([2, 3, 4, 5, 6, 7]);
  const reasons = setAside.map(({ reason }) => reason);
  expect(reasons[0]).toMatch(/expected shorten, remove-limb or lift/);
  expect(reasons[1]).toMatch(/without a unit/);
  expect(reasons[3]).toMatch(/word is "cut-it-down"; expected one of option, dates/);
  // The tenth of November or the eleventh of October: nobody knows.
  expect(reasons[5]).toMatch(/on is "10\/11\/2026"/);
});

describe("the ways in which such tables come", () => {
  const text = `${HEAD}\nÅ-1,,note,Rhône,,,,2026-11-10,R. Älder,,\n`;
  test.each([
    ["UTF-8 with a mark", bytes(`\uFEFF${text}`)],
    ["UTF-16", new Uint8Array(Buffer.from(`\uFEFF${text}`, "utf16le"))],
    ["Latin-1 with semicolons", new Uint8Array(Buffer.from(text.replaceAll(",", ";"), "latin1"))],
    ["tabs", bytes(text.replaceAll(",", "\t"))],
    ["old line ends", bytes(text.replaceAll("\n", "\r\n"))],
  ])("%s", async (_, given) => {
    expect(isWordTable(given)).toBe(true);
    const [one] = (await read(given)).given;
    expect(one?.said).toMatchObject({ word: { treeId: "Å-1", by: "R. Älder", value: { text: "Rhône" } } });
  });

  test("what looks like a formula is text, and its guard is taken off", async () => {
    const rows = [`T-1,,note,"'=HYPERLINK(""x"")",,,,2026-11-10,R. Alder,,`, `T-1,,note,=1+1,,,,2026-11-10,R. Alder,,`];
    expect(await contents([HEAD, ...rows].join("\n"))).toEqual([{ text: '=HYPERLINK("x")' }, { text: "=1+1" }]);
  });

  test("the same row has the same id, another row another", async () => {
    const idsOf = async (text: string) =>
      (await read(text)).given.map(({ said }) => (said.type === "word" ? said.word.wordId : said.wordId));
    const rows = [HEAD, row("note", "one"), row("note", "two")].join("\n");
    const [one, two] = await idsOf(rows);
    expect(one).toMatch(/^w-[0-9a-f]{12}$/);
    expect(two).not.toBe(one);
    expect(await idsOf(rows)).toEqual([one, two]);
  });
});

test("other tables are not taken for words, and broken ones are refused", async () => {
  expect(isWordTable(bytes("tree,visit,outcome,date,who\n"))).toBe(false);
  expect(isWordTable(bytes('{"word":1,"by":2}'))).toBe(false);
  expect(isWordTable(bytes(""))).toBe(false);
  expect(await readWordsCsv("words.csv", bytes("word,by\n"))).toEqual({
    faults: ["This is no table of words: it has no column tree, on, why."],
  });
});
