import { describe, expect, it } from "vitest";
import { fastestSpeedKmh } from "../../../src/core/surroundings/fastest-speed.ts";
import { parseVoltageV } from "../../../src/core/surroundings/parse-voltage.ts";
import { meaningOfClass } from "../../../src/core/surroundings/road-class.ts";

describe("fastestSpeedKmh", () => {
  it("reads numbers and texts with and without a unit", () => {
    // 25 mph are 25 * 1.609344 = 40.2336 km/h.
    expect(fastestSpeedKmh("25 mph", "km/h")).toBeCloseTo(40.2336, 9);
    expect(fastestSpeedKmh("50", "km/h")).toBe(50);
    expect(fastestSpeedKmh("50", "mph")).toBeCloseTo(80.4672, 9);
    expect(fastestSpeedKmh("40 km/h", "mph")).toBe(40);
    expect(fastestSpeedKmh(30, "km/h")).toBe(30);
  });

  it("takes the fastest of several, and nothing from words, zero or the absurd", () => {
    expect(fastestSpeedKmh("30 mph; 40 mph", "km/h")).toBeCloseTo(64.37376, 9);
    for (const value of ["walk", "none", "GB:nsl_single", "", 0, -5, 9999, null, {}, "3".repeat(50_000)]) {
      expect(fastestSpeedKmh(value, "km/h")).toBeNull();
    }
  });
});

describe("parseVoltageV", () => {
  it("reads volts and kilovolts, the highest of several", () => {
    expect(parseVoltageV("11000", "V")).toBe(11_000);
    expect(parseVoltageV("12.47 kV", "V")).toBe(12_470);
    expect(parseVoltageV("12.47", "kV")).toBe(12_470);
    expect(parseVoltageV("400;33000", "V")).toBe(33_000);
    expect(parseVoltageV("240 V", "kV")).toBe(240);
    for (const value of ["unknown", 0, -1, 1e9, null, "high"]) expect(parseVoltageV(value, "V")).toBeNull();
  });
});

describe("meaningOfClass", () => {
  const meaning = (text: string): string | null => {
    const found = meaningOfClass(text);
    return found === null ? null : found.way === "road" ? found.roadClass : found.way === "path" ? found.kind : "none";
  };

  it("knows its own classes, map tags, census codes and city words", () => {
    expect(meaning("minor-arterial")).toBe("minor-arterial");
    expect(meaning("motorway_link")).toBe("freeway");
    expect(meaning("tertiary")).toBe("collector");
    expect(meaning("S1400")).toBe("local-residential");
    expect(meaning("Major")).toBe("major-arterial");
    expect(meaning("Lane")).toBe("service-alley");
    expect(meaning("Local - NP")).toBe("local-residential");
    expect(meaning("Principal Arterial - Other")).toBe("major-arterial");
  });

  it("tells paths from roads, and what is not in use", () => {
    expect(meaning("PPathL - NP")).toBe("walkway");
    expect(meaning("Local Access Pathway")).toBe("walkway");
    expect(meaning("shared_use_path")).toBe("bikeway");
    expect(meaning("construction")).toBe("none");
    expect(meaning("UEL")).toBeNull();
    expect(meaning("__proto__")).toBeNull();
  });
});
