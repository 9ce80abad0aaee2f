import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isSafeFileName, safeFileName } from "../../src/formats/safe-file-name.ts";

describe("safeFileName", () => {
  it.each([
    ["zone 7.pdf", "zone-7.pdf"],
    ["../../etc/passwd", "etc-passwd"],
    ["con.txt", "_con.txt"],
    ["AUX", "_AUX"],
    ["Straße.csv", "Stra-e.csv"],
    ["", "file"],
    ["...", "file"],
    ["🌳", "file"],
    ["a".repeat(300), "a".repeat(60)],
  ])("makes %j into %j", (text, name) => {
    expect(safeFileName(text, new Set())).toBe(name);
  });

  it("numbers names that repeat, letter case apart", () => {
    const taken = new Set<string>();
    expect(["a.csv", "A.CSV", "a.csv"].map((text) => safeFileName(text, taken))).toEqual([
      "a.csv",
      "A-2.CSV",
      "a-3.csv",
    ]);
  });

  it("is safe and new for any text", () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(fc.string({ unit: "binary" }), fc.constantFrom("nul", "com1.x.y", "a.b.", ".a.-")), {
          maxLength: 9,
        }),
        (texts) => {
          const taken = new Set<string>();
          const names = texts.map((text) => safeFileName(text, taken));
          expect(names.filter((name) => !isSafeFileName(name))).toEqual([]);
          expect(new Set(names.map((name) => name.toLowerCase())).size).toBe(texts.length);
        },
      ),
      { seed: 1, numRuns: 2000 },
    );
  });
});
