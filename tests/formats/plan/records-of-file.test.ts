import { describe, expect, it } from "vitest";
import { featureRecords, lineRecords, madeInTurns } from "../../../src/formats/plan/records-of-file.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const noTurn = async () => {};
const one = '{"type":"Feature","properties":{"a":"x,]}"},"geometry":null}';

describe("the records of a large file", () => {
  it.each([
    ["one a line", `{"type":"FeatureCollection","features":[\n${one},\n${one}\n]}\n`],
    ["none", '{"type":"FeatureCollection","features":[\n\n]}\n'],
    ["all on one line", `{"type":"FeatureCollection","features":[${one},${one}]}`],
    ["over many lines", `{"type":"FeatureCollection","features":[\n${JSON.stringify(JSON.parse(one), null, 2)}\n]}\n`],
    ["two on a line", `{"type":"FeatureCollection","features":[\n${one},${one},\n${one}\n]}`],
    ["members after the features", `{"type":"FeatureCollection","features":[\n${one}\n],"name":"x"}`],
  ])("are those that parsing it whole gives: %s", async (_, text) => {
    expect(await featureRecords(bytes(text), noTurn)).toEqual(JSON.parse(text).features);
  });

  it.each([
    ["a comma too many", `{"type":"FeatureCollection","features":[\n${one},\n]}`],
    ["a comma too few", `{"type":"FeatureCollection","features":[\n${one}\n${one}\n]}`],
    ["no end", `{"type":"FeatureCollection","features":[\n${one}\n`],
    ["more after the end", `{"type":"FeatureCollection","features":[\n${one}\n]}\n]}`],
  ])("are refused where the whole would be: %s", async (_, text) => {
    expect(() => JSON.parse(text)).toThrow(SyntaxError);
    await expect(featureRecords(bytes(text), noTurn)).rejects.toThrow(SyntaxError);
  });

  it("are lines, with turns between them", async () => {
    const text = Array.from({ length: 3000 }, (_, at) => JSON.stringify({ at, text: "x".repeat(300) })).join("\n");
    let turns = 0;
    const turn = async () => {
      turns += 1;
    };
    const found = await lineRecords<{ at: number }>(bytes(text), turn);
    expect(found.map(({ at }) => at)).toEqual(Array.from({ length: 3000 }, (_, at) => at));
    expect(turns).toBeGreaterThan(2);
    expect(await madeInTurns([1, 2, 3], (one) => one * 2, turn)).toEqual([2, 4, 6]);
  });

  it("are refused where bytes are no text", async () => {
    await expect(lineRecords(Uint8Array.of(34, 255, 34), noTurn)).rejects.toThrow(TypeError);
  });
});
