import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { spliceFeatures } from "../../../src/formats/geojson/splice-features.ts";
import { readText, textOf } from "./reading.ts";

/** Blanks as people and programs leave them. */
const blanks = fc.constantFrom("", "", "", " ", "\n", "\t ", "\r\n  ");
/** JSON strings, some of their characters written as escapes. */
const stringText = fc
  .array(
    fc.oneof(
      fc.string({ unit: "binary", maxLength: 3 }),
      fc.constantFrom('"', "\\", "}", "]", ",", "é", "🌳", "\u2028"),
    ),
  )
  .chain((parts) => fc.tuple(fc.constant(parts.join("")), fc.boolean()))
  .map(([text, escaped]) => (escaped ? escapeAll(text) : JSON.stringify(text)));
const escapeAll = (text: string): string =>
  `"${text
    .split("")
    .map((unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`)
    .join("")}"`;
const keyText = fc.oneof(
  fc.constantFrom(
    '"a"',
    '"id"',
    '"type"',
    '"properties"',
    '"__proto__"',
    '"constructor"',
    '"\\u0061"',
    '""',
    '"bough"',
  ),
  stringText,
);
const numberText = fc.constantFrom("0", "-0", "1.50", "1e3", "-2.5E-3", "123456789", "0.1000");
const { value: valueText } = fc.letrec<{ value: string; object: string; array: string }>((tie) => ({
  value: fc.oneof(
    { maxDepth: 3 },
    numberText,
    stringText,
    fc.constantFrom("true", "false", "null"),
    tie("array"),
    tie("object"),
  ),
  object: members(fc.array(fc.tuple(keyText, tie("value")), { maxLength: 4 })),
  array: fc
    .tuple(blanks, fc.array(tie("value"), { maxLength: 3 }), blanks)
    .map(([before, values, after]) => `[${before}${values.join(`${after},${before}`)}${after}]`),
}));

/** An object's text; names may repeat. */
function members(list: fc.Arbitrary<[string, string][]>): fc.Arbitrary<string> {
  return fc.tuple(list, blanks, blanks, blanks).map(([all, a, b, c]) => {
    return `{${a}${all.map(([key, value]) => `${key}${b}:${c}${value}`).join(`${a},${b}`)}${c}}`;
  });
}

const foreignKey = fc.constantFrom('"name"', '"x"', '"__proto__"', '"foreign"');
const propertiesText = members(fc.array(fc.tuple(keyText, valueText), { maxLength: 5 }));
const featureText = fc
  .tuple(
    propertiesText,
    fc.array(fc.tuple(foreignKey, valueText), { maxLength: 2 }),
    blanks,
    fc.integer({ min: 0, max: 3 }),
  )
  .map(([properties, foreign, blank, turn]) => {
    const all = [
      `"type":${blank}"Feature"`,
      `"properties"${blank}:${properties}`,
      `"geometry":{"type":"Point",${blank}"coordinates":[${blank}1.250,-2e0]}`,
      ...foreign.map(([key, value]) => `${key}:${value}`),
    ];
    return `{${blank}${[...all.slice(turn), ...all.slice(0, turn)].join(`,${blank}`)}${blank}}`;
  });
const collectionText = fc
  .tuple(
    fc.array(featureText, { minLength: 1, maxLength: 4 }),
    fc.array(fc.tuple(foreignKey, valueText), { maxLength: 2 }),
    blanks,
    blanks,
  )
  .map(([features, foreign, a, b]) => {
    const rest = foreign.map(([key, value]) => `${key}${a}:${b}${value},`).join("");
    return `${a}{${b}"type":"FeatureCollection",${rest}"features":${a}[${b}${features.join(`${a},${b}`)}${a}]${b}}${a}`;
  });

const RUNS = { seed: 1, numRuns: 2000 };
const added = new Map([["bough_due", "2027-01-01"]] as const);

describe("reading and splicing, on odd but legal texts", () => {
  it("reads what JSON.parse reads", () => {
    fc.assert(
      fc.property(collectionText, (text) => {
        const read = readText(text);
        expect(read.fault).toBeNull();
        const expected = JSON.parse(text).features as { properties: unknown; geometry: unknown }[];
        expect(read.features.map(({ properties, geometry }) => ({ properties, geometry }))).toEqual(
          expected.map(({ properties, geometry }) => ({ properties, geometry })),
        );
      }),
      RUNS,
    );
  });

  it("gives the same bytes back after new members went in and out again", () => {
    fc.assert(
      fc.property(collectionText, (text) => {
        const spliced = textOf(spliceFeatures([readText(text)], () => added));
        const values = JSON.parse(spliced).features as { properties: Record<string, unknown> }[];
        expect(values.every(({ properties }) => properties.bough_due === "2027-01-01")).toBe(true);
        expect(textOf(spliceFeatures([readText(spliced)], () => new Map()))).toBe(text);
        expect(textOf(spliceFeatures([readText(spliced)], () => added))).toBe(spliced);
      }),
      RUNS,
    );
  });
});
