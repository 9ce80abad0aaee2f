import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it, test } from "vitest";
import { resolveStandard } from "../../../src/core/standard/resolve-standard.ts";
import { SHIPPED_STANDARDS, shippedStandard } from "../../../src/core/standard/shipped-standards.ts";
import { standardJsonSchema } from "../../../src/core/standard/standard-json-schema.ts";

const ROOT = path.join(import.meta.dirname, "../../..");
const published = JSON.parse(readFileSync(path.join(ROOT, "docs/standard.schema.json"), "utf8")) as object;
// Strict but for one thing: members of `widths` are named by `propertyNames` and required without being listed as properties.
const validate = new Ajv2020({ strict: true, strictRequired: false, allErrors: true }).compile(published);

it("is published as the code has it (npm run standard-schema)", () => {
  expect(published).toEqual(standardJsonSchema());
});

describe("by an independent validator", () => {
  const profiles = readdirSync(path.join(ROOT, "src/core/standard/profiles"));
  test.each(["us-common.json", ...profiles.map((name) => `profiles/${name}`)])("%s is valid", (file) => {
    const json: unknown = JSON.parse(readFileSync(path.join(ROOT, "src/core/standard", file), "utf8"));
    validate(json);
    expect(validate.errors ?? []).toEqual([]);
  });

  test.each(SHIPPED_STANDARDS.map(({ id }) => [id] as const))("%s is valid as merged", (id) => {
    const resolved = resolveStandard(shippedStandard(id));
    expect("faults" in resolved ? resolved.faults : validate(resolved.json)).toBe(true);
  });

  test.each([
    [{ extends: "us-common" }],
    [{ extends: "us-common", title: "x", rules: { a: { minimun: "15 ft" } } }],
    [{ extends: "us-common", title: "x", rules: { a: { minimum: 15 } } }],
    [{ extends: "us-common", title: "x", deadlines: { never: 3 } }],
    [{ extends: "us-common", title: "x", region: "us" }],
    [{ id: "x", title: "x", rules: [] }],
    [[]],
  ])("%j is not", (json) => {
    expect(validate(json)).toBe(false);
    expect(resolveStandard(json)).toHaveProperty("faults");
  });
});

it("ships every profile of the folder", () => {
  const files = readdirSync(path.join(ROOT, "src/core/standard/profiles")).map((name) => name.replace(".json", ""));
  const ids = SHIPPED_STANDARDS.map(({ id }) => id);
  expect(ids[0]).toBe("us-common");
  expect([...ids.slice(1)].sort()).toEqual(files.sort());
});
