import { expect, test } from "vitest";
import { askedRange } from "../../src/cli/server/asked-range.ts";

// RFC 9110, section 14.1.2, gives these for a representation of 10000 bytes.
test.each([
  ["bytes=0-499", { from: 0, to: 500 }],
  ["bytes=500-999", { from: 500, to: 1000 }],
  ["bytes=-500", { from: 9500, to: 10_000 }],
  ["bytes=9500-", { from: 9500, to: 10_000 }],
  ["bytes=0-0", { from: 0, to: 1 }],
  ["bytes=-1", { from: 9999, to: 10_000 }],
])("the ranges of the standard's text: %s", (header, range) => {
  expect(askedRange(header, 10_000)).toEqual(range);
});

test.each([
  [undefined, "whole"],
  ["bytes=", "whole"],
  ["bytes=-", "whole"],
  ["bytes=5-4", "whole"],
  ["bytes=0-1,4-5", "whole"],
  ["lines=0-1", "whole"],
  ["bytes=10000-", "beyond"],
  ["bytes=-0", "beyond"],
  ["bytes=0-99999999", { from: 0, to: 10_000 }],
  ["bytes=-99999", { from: 0, to: 10_000 }],
])("what is no single part of the file: %s", (header, expected) => {
  expect(askedRange(header, 10_000)).toEqual(expected);
});

test("nothing is a part of an empty file", () => {
  expect(askedRange("bytes=0-", 0)).toBe("beyond");
  expect(askedRange("bytes=-5", 0)).toBe("beyond");
});
