import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { expect, test } from "vitest";
import { NOT_DONE_REASONS } from "../../../../src/core/plan/completion/completion.ts";
import { completionJsonSchema } from "../../../../src/core/plan/completion/completion-json-schema.ts";
import { parseCompletion } from "../../../../src/core/plan/completion/parse-completion.ts";
import { reported, sampleCompletion } from "./sample-completion.ts";

const published = JSON.parse(readFileSync("docs/completion.schema.json", "utf8"));

test("is published as the code has it (npm run completion-schema)", () => {
  expect(published).toEqual(completionJsonSchema());
});

test("names every member of a completion and allows no other", () => {
  // The sample says nothing beside the work.
  expect(Object.keys(published.properties)).toEqual([...Object.keys(sampleCompletion), "words"]);
  expect(published.additionalProperties).toBe(false);
  const visit = published.properties.visits.items;
  expect(Object.keys(visit.properties)).toEqual(Object.keys(sampleCompletion.visits[0]!));
  expect(visit.properties.reason.anyOf[0].enum).toEqual([...NOT_DONE_REASONS]);
});

test("an independent validator takes what the reader takes, and refuses what it refuses", () => {
  // Dates and the rules between members are beyond a schema; what is compared here is within it.
  const validate = new Ajv2020({ strict: true, allErrors: true }).compile(published);
  expect(validate(sampleCompletion)).toBe(true);
  const changes: Record<string, unknown>[] = [
    { mood: "good" },
    { outcome: "perhaps" },
    { doseShare: 14 },
    { crownBaseM: -0.1 },
    { headroomM: 131 },
    { crownBaseM: "4.6" },
    { notes: "x".repeat(4001) },
    { visitId: "" },
  ];
  for (const change of changes) {
    const bad = { ...sampleCompletion, visits: [{ ...reported(0), ...change }] };
    expect(validate(bad)).toBe(false);
    expect("faults" in parseCompletion(bad)).toBe(true);
  }
});
