import { describe, expect, it } from "vitest";
import { equivalentDiameterM, parseStemsM } from "../../../src/core/inventory/stem-list.ts";

describe("parseStemsM", () => {
  it.each([
    ["4.1,1.2,3.4", [4.1, 1.2, 3.4]],
    ["12; 10; 8", [12, 10, 8]],
    ["12/10", [12, 10]],
    ["12, 10", [12, 10]],
    ["12 and 10", [12, 10]],
    ["3,5;4,5", [3.5, 4.5]],
    [
      [3, 4, 0],
      [3, 4],
    ],
  ])("reads %j", (value, stems) => {
    expect(parseStemsM(value, "m")).toEqual(stems);
  });

  it.each(["69.8", "4,1", "1/2", "12 3/4", "a;b", "", "12;", "12;-3", Array(31).fill(1), "1;".repeat(200), null, 5])(
    "takes %j for no list",
    (value) => {
      expect(parseStemsM(value, "m")).toBeNull();
    },
  );
});

describe("equivalentDiameterM", () => {
  it("is the root of the sum of squares", () => {
    // 3-4-5: 9 + 16 = 25.
    expect(equivalentDiameterM([3, 4])).toBe(5);
    // Three stems of 5, 6 and 8: 25 + 36 + 64 = 125.
    expect(equivalentDiameterM([5, 6, 8])).toBeCloseTo(Math.sqrt(125), 12);
  });
});
