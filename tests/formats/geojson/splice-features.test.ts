import { describe, expect, it } from "vitest";
import type { MemberValue } from "../../../src/formats/geojson/member-texts.ts";
import { spliceFeatures } from "../../../src/formats/geojson/splice-features.ts";
import { collection, point, readText, textOf } from "./reading.ts";

const due = new Map<string, MemberValue>([["bough_due", "2027-03-01"]]);
const splice = (text: string, members: ReadonlyMap<string, MemberValue> = due): string =>
  textOf(spliceFeatures([readText(text)], () => members));

/** A point feature's text with the given text in the place of its properties. */
const withProperties = (text: string): string =>
  `{"type":"Feature", "properties" :${text}, "geometry":{"type":"Point","coordinates":[1.50,2e0]}}`;

describe("spliceFeatures", () => {
  it.each([
    ["{}", '{"bough_due":"2027-03-01"}'],
    ["{ }", '{"bough_due":"2027-03-01" }'],
    ['{"a":1}', '{"a":1,"bough_due":"2027-03-01"}'],
    ['{ "a" : 1\n }', '{ "a" : 1,"bough_due":"2027-03-01"\n }'],
    ['{"a":"}","b":{"c":[1,{}]}}', '{"a":"}","b":{"c":[1,{}]},"bough_due":"2027-03-01"}'],
    ['{"a":"\\"}\\\\"}', '{"a":"\\"}\\\\","bough_due":"2027-03-01"}'],
    ["null", '{"bough_due":"2027-03-01"}'],
    ['{"bough_due":"2020-01-01"}', '{"bough_due":"2027-03-01"}'],
    ['{"bough_due":1,"a":1}', '{"a":1,"bough_due":"2027-03-01"}'],
    ['{"a":1, "bough_x":{"y":[1,2]} , "b":2}', '{"a":1, "b":2,"bough_due":"2027-03-01"}'],
    ['{"a":1, "bough_x":1, "bough_y":2 }', '{"a":1,"bough_due":"2027-03-01" }'],
    ['{"b\\u006fugh_x":1,"a":1}', '{"a":1,"bough_due":"2027-03-01"}'],
    ['{"a":1,"a":2}', '{"a":1,"a":2,"bough_due":"2027-03-01"}'],
    ['{"bough":1,"Bough_x":2,"":3}', '{"bough":1,"Bough_x":2,"":3,"bough_due":"2027-03-01"}'],
  ])("turns properties %s into %s and touches nothing else", (before, after) => {
    expect(splice(` ${collection(withProperties(before))}\r\n`)).toBe(` ${collection(withProperties(after))}\r\n`);
  });

  it("gives a feature without properties some", () => {
    const text = '{"type":"Feature","geometry":{"type":"Point","coordinates":[1,2]} }';
    expect(splice(collection(text))).toBe(
      collection(
        '{"type":"Feature","geometry":{"type":"Point","coordinates":[1,2]},"properties":{"bough_due":"2027-03-01"} }',
      ),
    );
  });

  it("writes into the properties that count when the member comes twice", () => {
    const text = point(1, 2, '{"a":1}').replace('"geometry"', '"properties":{"b":2},"geometry"');
    expect(splice(collection(text))).toBe(collection(text.replace('{"b":2}', '{"b":2,"bough_due":"2027-03-01"}')));
  });

  it("writes text, numbers, booleans and null, in the order given", () => {
    const members = new Map<string, MemberValue>([
      ["bough_why", 'a "quote", é and \u2028'],
      ["bough_height_m", 4.27],
      ["bough_overdue", false],
      ["bough_refer", null],
    ]);
    const text = splice(collection(point(1, 2)), members);
    expect(text).toContain('"bough_height_m":4.27,"bough_overdue":false,"bough_refer":null}');
    expect(JSON.parse(text).features[0].properties).toEqual(Object.fromEntries(members));
  });

  it("keeps foreign members, their order, and all blanks between features", () => {
    const text = `{ "name":"oaks","type":"FeatureCollection", "bbox":[0,0,9,9],\n"features":[\n  ${point(1, 2)} ,\n\t${point(3, 4)}\n ], "made":{"by":"x"} }\n`;
    expect(splice(text, new Map())).toBe(text);
  });

  it("leaves out features that were set aside, with one comma each", () => {
    const [a, b, c] = [point(1, 2, '{"n":1}'), point(3, 4, '{"n":2}'), point(5, 6, '{"n":3}')];
    const bad = "null";
    const none = new Map();
    expect(splice(collection(`\n${bad}`, `\n${a}`, `\n${b}`), none)).toBe(collection(`\n${a}`, `\n${b}`));
    expect(splice(collection(`\n${a}`, `\n${bad}`, `\n${b}`), none)).toBe(collection(`\n${a}`, `\n${b}`));
    expect(splice(collection(`\n${a}`, `\n${b}`, `\n${bad}\n`), none)).toBe(collection(`\n${a}`, `\n${b}\n`));
    expect(splice(collection(bad), none)).toBe(collection());
    const read = readText(collection(a, b, c));
    const kept = textOf(spliceFeatures([read], (one) => (one.properties.n === 2 ? null : new Map())));
    expect(kept).toBe(collection(a, c));
  });

  it("merges files under the first one's head and tail, in order, without a bbox that no longer holds", () => {
    const first = `{"name":"one","type":"FeatureCollection","bbox":[0,0,1,1],"features":[ ${point(1, 2)} ],"x":1}`;
    const second = `{"name":"two","type":"FeatureCollection","features":[${point(3, 4)},${point(5, 6)}]}`;
    const third = point(7, 8);
    const reads = [readText(first), readText(second, { firstOrdinal: 1 }), readText(third, { firstOrdinal: 3 })];
    expect(textOf(spliceFeatures(reads, () => new Map()))).toBe(
      `{"name":"one","type":"FeatureCollection","features":[ ${point(1, 2)},\n${point(3, 4)},${point(5, 6)},\n${point(7, 8)} ],"x":1}`,
    );
  });

  it("makes a collection of a sequence, a feature and a bare geometry", () => {
    const frame = (...texts: readonly string[]): string =>
      `{"type":"FeatureCollection","features":[\n${texts.join(",\n")}\n]}\n`;
    expect(splice(`${point(1, 2)}\n${point(3, 4)}`, new Map())).toBe(frame(point(1, 2), point(3, 4)));
    expect(splice(point(1, 2), new Map())).toBe(frame(point(1, 2)));
    expect(splice('{"type": "Point","coordinates":[1,2]}')).toBe(
      frame(
        '{"type":"Feature","properties":{"bough_due":"2027-03-01"},"geometry":{"type": "Point","coordinates":[1,2]}}',
      ),
    );
  });

  it("leaves the byte-order mark away and writes an empty collection of nothing", () => {
    expect(splice(`\ufeff${collection()}`)).toBe(collection());
    expect(JSON.parse(textOf(spliceFeatures([], () => null)))).toEqual({ type: "FeatureCollection", features: [] });
  });

  it("gives large outputs in chunks", () => {
    const note = `{"note":"${"x".repeat(700_000)}"}`;
    const text = collection(point(1, 2, note), point(3, 4, note), point(5, 6, note));
    const chunks = [...spliceFeatures([readText(text)], () => new Map())];
    expect(chunks.length).toBeGreaterThan(1);
    expect(textOf(chunks)).toBe(text);
  });

  it("throws for names without the prefix and for numbers that are none", () => {
    expect(() => splice(collection(point(1, 2)), new Map([["due", 1]]))).toThrow(RangeError);
    expect(() => splice(collection(point(1, 2)), new Map([["bough_x", Number.NaN]]))).toThrow(RangeError);
  });
});
