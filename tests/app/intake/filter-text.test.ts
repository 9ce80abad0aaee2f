import { expect, test } from "vitest";
import { filterText } from "../../../src/app/intake/filter-text.ts";
import { matches, parseFilter } from "../../../src/formats/filter.ts";

test("one value is an equation, several are a list, none is no filter", () => {
  expect(filterText({ column: "TYPE", values: ["Road"] })).toBe("TYPE = Road");
  expect(filterText({ column: "TYPE", values: ["Road", "Alley"] })).toBe("TYPE one of Road, Alley");
  expect(filterText({ column: "TYPE", values: [] })).toBe("");
});

// Names and values that are themselves words or signs of a filter.
test.each([
  "a = b",
  "Rock and Roll",
  '6" pipe',
  "Smith, J",
  " one of these",
  "empty",
  "is filled",
  "contains x",
  "and",
])("a filter made of %j keeps the feature that has it and no other", (odd) => {
  for (const values of [[odd], [odd, "other"]]) {
    const filter = parseFilter(filterText({ column: odd, values }));
    expect(matches(filter, { [odd]: odd })).toBe(true);
    expect(matches(filter, { [odd]: "else" })).toBe(false);
    expect(matches(filter, {})).toBe(false);
  }
});
