import { expect, test } from "vitest";
import type { Cut } from "../../../src/core/prescription/cut.ts";
import { doseBeyondLimits } from "../../../src/core/prescription/referral.ts";
import { conflict } from "./scene.ts";

test("staged visits reach a part of what is wanted, or more that does not last", () => {
  const lane = conflict("roadway", 2.7);
  const reasonAt = (targetM: number): string =>
    doseBeyondLimits([lane], null, { remedy: "shorten", targetM } as Cut, 0.4, "metric").reason;
  // 4.572 m is wanted.
  expect(reasonAt(4.1)).toContain(
    "Staged visits taking at most 40 % would reach 4.1 m of the 4.6 m wanted above the lane.",
  );
  expect(reasonAt(4.7)).toContain("would reach 4.7 m at the lane, which would not last a year.");
  expect(reasonAt(4.7)).not.toContain("wanted");
});
