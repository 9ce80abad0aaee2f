import { describe, expect, test } from "vitest";
import { COMPLETION_LIMITS } from "../../../../src/core/plan/completion/completion-schema.ts";
import { parseCompletion } from "../../../../src/core/plan/completion/parse-completion.ts";
import { reported, sampleCompletion } from "./sample-completion.ts";

const again = (value: unknown): unknown => JSON.parse(JSON.stringify(value));
const faultsOf = (value: unknown): string => {
  const result = parseCompletion(again(value));
  return "faults" in result ? result.faults.join("\n") : "";
};
const withVisit = (change: Record<string, unknown>) => ({
  ...sampleCompletion,
  visits: [{ ...reported(0), ...change }],
});

describe("parseCompletion", () => {
  test("takes a completion as it was written", () => {
    expect(parseCompletion(again(sampleCompletion))).toEqual({ completion: sampleCompletion });
  });

  test.each([
    ["nothing", null],
    ["a list", []],
    ["a text", "boughline-completion"],
    ["another object", { format: "boughline-packet", version: 1 }],
  ])("refuses %s as no completion", (_, value) => {
    expect(faultsOf(value)).toMatch(/^This is not a completion/);
  });

  test("refuses a newer version with the number it reads up to", () => {
    expect(faultsOf({ ...sampleCompletion, version: 2 })).toMatch(/version 2; this Boughline reads up to 1/);
  });

  test.each([
    ["an unknown member", { mood: "good" }, /mood/],
    ["an unknown outcome", { outcome: "perhaps" }, /visits\.0\.outcome/],
    ["work left without a reason", { outcome: "not-done" }, /visits\.0\.reason.*needs one/],
    ["another reason without words", { outcome: "partly", reason: "other", notes: " " }, /visits\.0\.notes/],
    ["a date that is none", { date: "2027-02-30" }, /visits\.0\.date/],
    ["a time without a zone", { recordedAt: "2027-03-12T14:05:00" }, /visits\.0\.recordedAt/],
    ["an hour that is none", { recordedAt: "2027-03-12T24:05:00Z" }, /visits\.0\.recordedAt/],
    ["a dose in percent", { doseShare: 14 }, /visits\.0\.doseShare/],
    ["a height below the ground", { crownBaseM: -0.1 }, /visits\.0\.crownBaseM/],
    ["a height above every tree", { headroomM: 131 }, /visits\.0\.headroomM/],
    ["a figure as a text", { crownBaseM: "4.6" }, /visits\.0\.crownBaseM/],
    ["a note that is too long", { notes: "x".repeat(COMPLETION_LIMITS.text + 1) }, /visits\.0\.notes/],
  ])("refuses %s and names the member", (_, change, expected) => {
    expect(faultsOf(withVisit(change))).toMatch(expected);
  });

  test("takes the longest note and the highest tree", () => {
    expect(faultsOf(withVisit({ notes: "x".repeat(COMPLETION_LIMITS.text), headroomM: 130 }))).toBe("");
  });

  test("refuses two entries about one visit, and additions of one id", () => {
    expect(faultsOf({ ...sampleCompletion, visits: [reported(0), reported(0)] })).toMatch(/Two entries about visit/);
    const hazards = [{ ...sampleCompletion.hazards[0]!, addedId: "a1" }];
    expect(faultsOf({ ...sampleCompletion, hazards })).toBe("Two additions have the id a1.");
  });

  test("is not led astray by a member named __proto__", () => {
    const text = JSON.stringify(sampleCompletion).replace(/^{/, '{"__proto__":{"polluted":1},');
    expect("faults" in parseCompletion(JSON.parse(text))).toBe(true);
    expect(({} as { polluted?: number }).polluted).toBeUndefined();
  });

  test("tells at most fifty faults of a hopeless file", () => {
    const visits = Array.from({ length: 200 }, (_, at) => ({ ...reported(0), visitId: `v${at}`, outcome: "?" }));
    const result = parseCompletion({ ...sampleCompletion, visits });
    expect("faults" in result && result.faults.length).toBe(50);
  });
});
