import { describe, expect, it } from "vitest";
import { columnNames } from "../../../src/formats/write/column-names.ts";

describe("columnNames", () => {
  it("keeps names that no other has and nothing reserves", () => {
    const names = ["id", "DBH (in)", 'say "hi"', "a.b", "名前", "constructor", "__proto__"];
    expect(columnNames(names)).toEqual(names);
  });

  it("tells apart names that differ by case only, the first keeping its own", () => {
    expect(columnNames(["Name", "name", "NAME"])).toEqual(["Name", "name_2", "NAME_3"]);
  });

  it("keeps the key's and the geometry's names free", () => {
    expect(columnNames(["fid", "GEOM", "geometry", "bough_tree"], ["bough_tree"])).toEqual([
      "fid_2",
      "GEOM_2",
      "geometry_2",
      "bough_tree_2",
    ]);
  });

  it("does not give a name that a later column has", () => {
    expect(columnNames(["fid", "fid_2"])).toEqual(["fid_3", "fid_2"]);
  });

  it("puts _ for control characters and for an empty name", () => {
    expect(columnNames(["a\nb", "", "\u007f"])).toEqual(["a_b", "_", "__2"]);
  });

  it("cuts to bytes, between letters, and still tells apart", () => {
    // An umlaut takes two bytes: five of them fit eleven, not six.
    expect(columnNames(["üüüüüü", "üüüüüüü"], [], 11)).toEqual(["üüüüü", "üüüü_2"]);
  });
});
