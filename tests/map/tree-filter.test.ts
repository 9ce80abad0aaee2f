import { expect, test } from "vitest";
import { isoDate } from "../../src/core/units/calendar.ts";
import { filterExpression } from "../../src/map/tree-filter.ts";

test("no filter leaves a layer's own filter as it is", () => {
  expect(filterExpression(undefined, null)).toBeUndefined();
  expect(filterExpression(["get", "quiet"], {})).toEqual(["get", "quiet"]);
});

test("every member given must hold, beside the layer's own filter", () => {
  expect(filterExpression(["get", "quiet"], { urgencies: ["now"], kinds: ["walkway", "sign"] })).toEqual([
    "all",
    ["get", "quiet"],
    ["in", ["get", "urgency"], ["literal", ["now"]]],
    ["any", ["in", ",walkway,", ["get", "kinds"]], ["in", ",sign,", ["get", "kinds"]]],
  ]);
});

test("a tree without a visit falls outside every range of dates", () => {
  expect(filterExpression(undefined, { dueTo: isoDate("2027-03-01") })).toEqual([
    "all",
    ["!=", ["get", "due"], ""],
    ["<=", ["get", "due"], "2027-03-01"],
  ]);
});

test("many trees are looked up, each once, and no trees are none", () => {
  expect(filterExpression(undefined, { treeIds: ["T-1", "T-2", "T-1"] })).toEqual([
    "all",
    ["match", ["get", "tree"], ["T-1", "T-2"], true, false],
  ]);
  expect(filterExpression(undefined, { treeIds: [] })).toEqual(["all", false]);
});
