import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { byteOrderMarkLength, findUtf8Fault, placeInText, utf8Text } from "../../../src/formats/json/utf8-text.ts";

describe("findUtf8Fault", () => {
  it("finds a fault exactly where the platform's strict decoder refuses the bytes", () => {
    const bytes = fc.array(
      fc.oneof(fc.constantFrom(0x41, 0xc2, 0xe0, 0xed, 0xf0, 0xf4, 0x80, 0x8f, 0x90, 0x9f, 0xa0, 0xbf), fc.nat(255)),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(bytes, (list) => {
        const at = findUtf8Fault(Uint8Array.from(list));
        const decodes = (end: number): boolean => {
          try {
            utf8Text(Uint8Array.from(list), 0, end);
            return true;
          } catch {
            return false;
          }
        };
        expect(at === -1).toBe(decodes(list.length));
        if (at !== -1) expect(decodes(at)).toBe(true);
      }),
      { seed: 1, numRuns: 20_000 },
    );
  });
});

describe("placeInText", () => {
  it("counts lines by LF, CR and CR LF, and columns by characters", () => {
    const text = "aé🌳b\r\nc\rd\ne";
    const placeOf = (letter: string): unknown => {
      const offset = new TextEncoder().encode(text.slice(0, text.indexOf(letter))).length;
      const { line, column } = placeInText(new TextEncoder().encode(text), offset);
      return [line, column];
    };
    expect([..."abcde"].map(placeOf)).toEqual([
      [1, 1],
      [1, 4],
      [2, 1],
      [3, 1],
      [4, 1],
    ]);
  });
});

describe("byteOrderMarkLength", () => {
  it("is 3 for the whole mark and 0 for a part of it", () => {
    expect(byteOrderMarkLength(Uint8Array.of(0xef, 0xbb, 0xbf))).toBe(3);
    expect(byteOrderMarkLength(Uint8Array.of(0xef, 0xbb))).toBe(0);
  });
});
