import { expect, test } from "vitest";
import { nearestNames } from "../../../src/core/standard/nearest-names.ts";

test.each([
  ["minimun", ["clearTo", "minimum", "admits"], ["minimum"]],
  ["Widht", ["widths", "seasons"], ["widths"]],
  ["ab", ["ax", "ay", "az", "aw"], ["ax", "ay", "az"]],
  ["nothing", ["far away"], ["far away"]],
  ["nothing", [], []],
  ["x".repeat(100_000), ["y"], ["y"]],
])("%.20s among %j: %j", (name, known, nearest) => {
  expect(nearestNames(name, known)).toEqual(nearest);
});
