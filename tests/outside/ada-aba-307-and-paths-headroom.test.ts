// Sources: ADA/ABA Accessibility Standards 307.4, vertical clearance of at least 80 in, printed as 2030 mm (read); PROWAG supplemental notice
// R210.3, nothing at or below 8.0 ft over a shared use path, printed as 2.4 m (read; a proposed rule); Pedestrian and Bicycle Information
// Center, 8 ft overhead and 10 ft with maintenance or emergency vehicles (read).
import { expect, it } from "vitest";
import { ruleOf, shipped } from "../core/standard/shipped.ts";

it("no walk is lower than 80 in by law, and below it a deadline runs", () => {
  const walk = ruleOf(shipped("us-common"), "walkway-headroom");
  // 80 times 25.4 is 2032; the standard prints 2030, rounded to 10 mm.
  expect(Math.abs((walk.floor?.minimumM ?? 0) * 1000 - 2030)).toBeLessThanOrEqual(5);
  expect(walk.hazard?.belowM).toBeCloseTo(80 * 0.0254, 9);
  expect(ruleOf(shipped("ada-floor"), "walkway-headroom").minimumM).toBeCloseTo(80 * 0.0254, 9);
});

it("paths keep 8 ft, and 10 ft where vehicles use them", () => {
  const path = ruleOf(shipped("us-common"), "bikeway-headroom");
  // Printed to 0.1 m.
  expect(Math.abs(path.minimumM - 2.4)).toBeLessThanOrEqual(0.05);
  expect(path.minimumM).toBeCloseTo(8 * 0.3048, 9);
  expect(ruleOf(shipped("bikeway-10"), "bikeway-headroom").minimumM).toBeCloseTo(10 * 0.3048, 9);
});
