import { describe, expect, test } from "vitest";
import { completeStandard } from "../../../src/core/standard/complete-standard.ts";
import { usCommon, usCommonSource } from "../../../src/core/standard/parse-standard.ts";

type Json = Record<string, unknown>;
const copy = (): Json => structuredClone(usCommonSource) as Json;

function completed(json: unknown) {
  const result = completeStandard(json);
  if ("faults" in result) throw new Error(result.faults.join("; "));
  return result;
}

describe("a standard of an earlier version", () => {
  test("gets the parts it lacks from the common standard, and one finding names them", () => {
    const old = copy();
    old.title = "Our city";
    delete old.views;
    delete (old.pruning as Json).cycleYears;
    const { standard, json, findings } = completed(old);
    expect(standard.views).toEqual(usCommon().views);
    expect(standard.pruning).toEqual(usCommon().pruning);
    expect(standard.title).toBe("Our city");
    expect((json as Json).views).toEqual(copy().views);
    expect(findings.map(({ code, severity, value }) => [code, severity, value?.split(", ").sort()])).toEqual([
      ["standard-completed", "warning", ["pruning.cycleYears", "views"]],
    ]);
    expect(findings[0]!.reason).toContain('"Our city"');
  });

  test("keeps every value it has", () => {
    const old = copy();
    delete old.sight;
    (old.crew as Json).hoursPerDay = 6;
    expect(completed(old).standard.crew.hoursPerDay).toBe(6);
  });

  test("is written back so that it is whole the next time", () => {
    const old = copy();
    delete old.ways;
    const { json } = completed(old);
    expect(completed(json).findings).toEqual([]);
    expect(completed(json).json).toBe(json);
  });
});

test("a whole standard comes back as the very value", () => {
  const json = copy();
  expect(completed(json)).toEqual({ standard: usCommon(), json, findings: [] });
  expect(completed(json).json).toBe(json);
});

test("rules and seasons are never added, and wrong values stay faults", () => {
  const withoutRules = copy();
  delete withoutRules.rules;
  expect("faults" in completeStandard(withoutRules)).toBe(true);
  const wrong = copy();
  (wrong.crew as Json).hoursPerDay = "eight";
  expect(completeStandard(wrong)).toMatchObject({ faults: [expect.stringContaining("crew.hoursPerDay")] });
  expect("faults" in completeStandard(null)).toBe(true);
  expect("faults" in completeStandard({ id: "x" })).toBe(true);
});
