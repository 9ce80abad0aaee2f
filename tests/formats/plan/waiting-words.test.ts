import { describe, expect, test } from "vitest";
import { readWaiting, waitingWords } from "../../../src/formats/plan/waiting-words.ts";

const figures = {
  years: 5,
  trees: 1312,
  now: { visits: 1400, hours: 801.4, crowns: 130.12, referred: 40 },
  later: { visits: 1600, hours: 1210.6, crowns: 171.44, referred: 61 },
  now_prunable_later_referred: ["T-1", "T-2"],
};

describe("waitingWords", () => {
  test("says a forecast: hours, live wood and the trees that pass from prunable to referred", () => {
    // 1211 - 801.4 = 409.2 h; 171.44 - 130.12 = 41.32 crowns.
    expect(waitingWords(figures)).toBe(
      "Forecast of waiting 5 years with the 1,312 trees cleared: 1,211 crew-hours instead of 801 (409 h more), " +
        "live wood of 41 whole crowns more taken, and 2 trees that can be pruned now would be referred (their work is not in these hours).",
    );
  });

  test("says less where waiting takes less", () => {
    const less = { ...figures, later: { ...figures.later, hours: 700 }, now_prunable_later_referred: [] };
    expect(waitingWords(less)).toContain("(101 h less)");
    expect(waitingWords(less)).toContain("no tree passes from prunable to referred");
  });
});

test("readWaiting takes what is whole and refuses the rest", () => {
  const bytes = (text: string) => new TextEncoder().encode(text);
  expect(readWaiting(bytes(JSON.stringify(figures)))).toEqual(figures);
  for (const text of ["", "null", "{}", '{"years":5,"now":{},"later":{}}']) expect(readWaiting(bytes(text))).toBeNull();
});
