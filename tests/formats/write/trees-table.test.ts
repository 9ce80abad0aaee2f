import { describe, expect, it } from "vitest";
import { alsoFiles } from "../../../src/formats/write/also-files.ts";
import type { TableColumn } from "../../../src/formats/write/layer-table.ts";
import { fileBytes, fileText } from "../../../src/formats/write/revision-files.ts";
import { treesTable } from "../../../src/formats/write/trees-table.ts";
import { treesRevision, treesText } from "./making.ts";

async function tableOf(text: string) {
  const files = await treesRevision(text);
  const { table, findings } = treesTable(fileBytes(files, "trees.geojson"), fileBytes(files, "prescriptions.jsonl"));
  return { files, table, findings, own: table.columns.filter(({ name }) => !name.startsWith("bough_")) };
}

const brief = (columns: readonly TableColumn[]) => columns.map(({ name, type, values }) => [name, type, ...values]);

describe("treesTable", () => {
  it("keeps columns of one kind as they are, in the order of the file", async () => {
    const { own } = await tableOf(
      treesText(
        '"z":"a","10":1,"2":true,"half":0.5,"species":"Acer rubrum","when":"2024-02-30"',
        '"z":null,"10":-7,"2":false,"half":2,"late":"x"',
      ),
    );
    expect(brief(own)).toEqual([
      ["z", "text", "a", null],
      ["10", "integer", 1, -7],
      ["2", "boolean", true, false],
      ["half", "real", 0.5, 2],
      ["species", "text", "Acer rubrum", null],
      ["when", "text", "2024-02-30", null],
      ["late", "text", null, "x"],
    ]);
  });

  it("makes text of mixed kinds, as they are written", async () => {
    const { own } = await tableOf(
      treesText(
        '"mixed":12.50,"tag":9007199254740993,"big":1e999,"list":[1, "a"],"flag":true,"esc":"\\u00e9\\n"',
        '"mixed":"12 in","tag":12,"big":1,"list":{"a": null},"flag":0,"esc":3',
      ),
    );
    expect(brief(own)).toEqual([
      ["mixed", "text", "12.50", "12 in"],
      ["tag", "text", "9007199254740993", "12"],
      ["big", "text", "1e999", "1"],
      ["list", "text", '[1, "a"]', '{"a": null}'],
      ["flag", "text", "true", "0"],
      ["esc", "text", "é\n", "3"],
    ]);
  });

  it("holds whole numbers up to 2^53 and no further", async () => {
    const { own } = await tableOf(treesText('"a":9007199254740991,"b":9007199254740992'));
    // 2^53 - 1 is the last whole number that a double tells from its neighbors.
    expect(brief(own)).toEqual([
      ["a", "integer", Number.MAX_SAFE_INTEGER],
      ["b", "text", "9007199254740992"],
    ]);
  });

  it("renames what tables cannot hold side by side, and says so once", async () => {
    const text = treesText('"fid":1,"Name":"a","name":"b","geometry":"c","__proto__":"d","bough_mine":1');
    const { own, findings, files } = await tableOf(text);
    expect(own.map(({ name }) => name)).toEqual(["fid_2", "Name", "name_2", "geometry_2", "__proto__"]);
    expect(findings.map(({ code, field, value }) => [code, field, value])).toEqual([
      ["column-renamed", "fid", "fid_2"],
      ["column-renamed", "name", "name_2"],
      ["column-renamed", "geometry", "geometry_2"],
    ]);
    const first = await alsoFiles(files, ["csv"]);
    expect(first.findings).toEqual(findings);
    expect(fileText(first.files, "findings.csv").match(/column-renamed/g)).toHaveLength(3);
    const counted = (revision: typeof files): number => JSON.parse(fileText(revision, "plan.json")).counts.findings;
    expect(counted(first.files)).toBe(counted(files) + 3);
    const second = await alsoFiles(first.files, ["csv"]);
    expect(second.findings).toEqual([]);
    expect(fileText(second.files, "findings.csv")).toBe(fileText(first.files, "findings.csv"));
  });

  it("gives every tree its id in the plan, and its feature's own id where there are any", async () => {
    const text = treesText('"id":"T1"', '"id":"T1"').replace(
      '{"type":"Feature",',
      '{"type":"Feature","id":9007199254740993,',
    );
    const { table } = await tableOf(text);
    expect(brief(table.columns.slice(0, 3))).toEqual([
      ["bough_tree", "text", "T1", "T1~2"],
      ["bough_feature_id", "text", "9007199254740993", null],
      ["id", "text", "T1", "T1"],
    ]);
  });
});
