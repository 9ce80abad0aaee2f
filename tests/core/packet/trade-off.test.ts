import { expect, test } from "vitest";
import type { OptionTarget, PruningOption } from "../../../src/core/model/prescription.ts";
import { tradeOffText } from "../../../src/core/packet/trade-off.ts";

const option = (targets: readonly OptionTarget[]): PruningOption => ({
  remedy: "lift",
  liftToM: 4.6,
  shortenM: null,
  doseByVolumeShare: 0.12,
  doseByLeafShare: 0.1,
  doseShare: 0.12,
  limbDiameterM: [0.02, 0.06],
  lastsYears: 3.4,
  liveCrownRatioAfter: 0.7,
  dosePerYear: 0.035,
  ruledOutBy: null,
  targets,
});
const planned: OptionTarget = { lastsYears: 3.4, doseShare: 0.12, ruledOutBy: null };

test("says what is planned and what lasting shorter or longer takes", () => {
  const targets = [
    { lastsYears: 0.4, doseShare: 0.05, ruledOutBy: null },
    planned,
    { lastsYears: 6, doseShare: 0.21, ruledOutBy: null },
  ];
  expect(tradeOffText(option(targets))).toBe(
    "About 3 years as planned, 12 % of the live crown; under 1 year at 5 %, about 6 years at 21 %.",
  );
});

test("says what a limit forbids, and leaves out what takes next to nothing", () => {
  const targets = [
    { lastsYears: 0.4, doseShare: 0, ruledOutBy: null },
    planned,
    { lastsYears: 5, doseShare: 0.62, ruledOutBy: "takes 62 %" },
  ];
  expect(tradeOffText(option(targets))).toBe(
    "About 3 years as planned, 12 % of the live crown; about 5 years at 62 % (not allowed).",
  );
});

test("is empty where there is no choice", () => {
  expect(tradeOffText(option([planned]))).toBe("");
  // 3.1 and 3.4 years both read as about 3.
  expect(tradeOffText(option([{ lastsYears: 3.1, doseShare: 0.11, ruledOutBy: null }, planned]))).toBe("");
  expect(tradeOffText(option([]))).toBe("");
});
