// Source: nst/JSONTestSuite, folder test_parsing (tests/fixtures/json-test-suite/README.md). The verdicts are the suite's own: `y_` is JSON,
// `n_` is not, `i_` is left to the parser.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { readGeoJson } from "../../src/formats/geojson/read-geojson.ts";
import { findJsonFault } from "../../src/formats/json/find-json-fault.ts";

const folder = fileURLToPath(new URL("../fixtures/json-test-suite/", import.meta.url));
const names = readdirSync(folder).filter((name) => name.endsWith(".json"));
const SYNTAX = ["bad-json", "bad-utf8"];

const faultCode = (name: string, wrap: (bytes: Uint8Array) => Uint8Array = (bytes) => bytes): string | null => {
  const bytes = wrap(new Uint8Array(readFileSync(join(folder, name))));
  return readGeoJson(bytes, { layer: "trees", file: name }).fault?.code ?? null;
};

/** The file as the `note` of a feature that is good otherwise. */
const asProperty = (bytes: Uint8Array): Uint8Array => {
  const before = '{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"note":';
  const after = '},"geometry":{"type":"Point","coordinates":[1,2]}}]}';
  return Uint8Array.from([...Buffer.from(before), ...bytes, ...Buffer.from(after)]);
};

describe("JSONTestSuite", () => {
  it("is here in full: 95 y, 188 n, 35 i", () => {
    const count = (letter: string): number => names.filter((name) => name.startsWith(letter)).length;
    expect([count("y_"), count("n_"), count("i_")]).toEqual([95, 188, 35]);
  });

  it("has every y_ file read as JSON, alone and as a property", () => {
    const wrong = names.filter(
      (name) =>
        name.startsWith("y_") &&
        (SYNTAX.includes(faultCode(name) ?? "") || SYNTAX.includes(faultCode(name, asProperty) ?? "")),
    );
    expect(wrong).toEqual([]);
  });

  it("has every n_ file refused as no JSON", () => {
    const wrong = names.filter((name) => name.startsWith("n_") && !SYNTAX.includes(faultCode(name) ?? ""));
    expect(wrong).toEqual([]);
  });

  it("has each file inside a property judged as JSON.parse judges the whole", () => {
    const wrong = names.filter((name) => {
      const isSyntax = SYNTAX.includes(faultCode(name, asProperty) ?? "");
      const whole = asProperty(new Uint8Array(readFileSync(join(folder, name))));
      return isSyntax === isJson(whole);
    });
    expect(wrong).toEqual([]);
  });

  it("has the place of a fault found wherever JSON.parse finds one", () => {
    const wrong = names.filter((name) => {
      const bytes = new Uint8Array(readFileSync(join(folder, name)));
      const text = textOrNull(bytes);
      return text !== null && (findJsonFault(bytes) === null) !== isJson(bytes);
    });
    expect(wrong).toEqual([]);
  });
});

function textOrNull(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}

function isJson(bytes: Uint8Array): boolean {
  const text = textOrNull(bytes);
  if (text === null) return false;
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}
