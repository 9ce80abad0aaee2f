import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it, test } from "vitest";
import { columnMapFromGuesses } from "../../../src/core/inventory/column-map-from-guesses.ts";
import { columnMapJsonSchema } from "../../../src/core/inventory/column-map-json-schema.ts";
import { parseColumnMap } from "../../../src/core/inventory/column-map-schema.ts";
import { guessColumnMap } from "../../../src/core/inventory/guess-columns.ts";
import { LAYERS } from "../../../src/core/model/terms.ts";

const published = JSON.parse(readFileSync("docs/column-map.schema.json", "utf8")) as object;
const validate = new Ajv2020({ strict: true, allErrors: true }).compile(published);

it("is published as the code has it (npm run column-map-schema)", () => {
  expect(published).toEqual(columnMapJsonSchema());
});

describe("by an independent validator", () => {
  it("the campus map and every map made of guesses are valid", () => {
    const campus: unknown = JSON.parse(readFileSync("tests/fixtures/ubc/columns.json", "utf8"));
    expect(validate(campus)).toBe(true);
    const names = ["id", "height", "voltage", "DBH_in", "crown_base", "name", "kind"];
    const guesses = LAYERS.flatMap((layer) => guessColumnMap(layer, names, []).guesses);
    expect(guesses.length).toBeGreaterThan(8);
    expect(validate(columnMapFromGuesses(guesses))).toBe(true);
  });

  test.each([
    [{ tree: {} }],
    [{ trees: { dbhh: "X" } }],
    [{ trees: { dbh: 5 } }],
    [{ trees: { dbh: "" } }],
    [{ trees: { dbh: { unit: "cm" } } }],
    [{ trees: { dbh: { column: "D", unit: "furlong" } } }],
    [{ trees: { dbh: { column: "D", zero: "maybe" } } }],
    [[]],
  ])("%j is not, nor is it read", (json) => {
    expect(validate(json)).toBe(false);
    expect(parseColumnMap(json)).toHaveProperty("faults");
  });
});
