import { describe, expect, it } from "vitest";
import { layerTables } from "../../src/cli/layer-options.ts";

describe("--table", () => {
  it("names a table for a layer; names may hold anything", () => {
    expect([...layerTables(["trees=street_trees", "roads=a=b c"])]).toEqual([
      ["trees", "street_trees"],
      ["roads", "a=b c"],
    ]);
    expect(layerTables(undefined).size).toBe(0);
  });

  it.each(["street_trees", "tree=x", "trees=", "=x", ""])("refuses %j", (text) => {
    expect(() => layerTables([text])).toThrow(/--table takes LAYER=NAME/);
  });
});
