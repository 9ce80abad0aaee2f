import fc from "fast-check";
import { expect, test } from "vitest";
import { spreadLabels } from "../../../../src/core/crown/section/spread-labels.ts";

test("labels that are far apart stay where they are", () => {
  expect(spreadLabels([10, 20], 3, 0, 50)).toEqual([10, 20]);
});

test("labels that touch share the move", () => {
  // Two at 10 with a pitch of 3: half of it up, half down.
  expect(spreadLabels([10, 10], 3, 0, 50)).toEqual([8.5, 11.5]);
});

test("never nearer than the pitch, inside the limits while they fit, order kept", () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: -20, max: 80, noNaN: true }), { maxLength: 12 }), (wanted) => {
      const placed = spreadLabels(wanted, 3, 0, 50);
      const order = wanted.map((_, at) => at).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
      order.forEach((index, rank) => {
        expect(placed[index]!).toBeGreaterThanOrEqual(-1e-9);
        expect(placed[index]!).toBeLessThanOrEqual(50 + 1e-9);
        if (rank > 0) expect(placed[index]! - placed[order[rank - 1]!]!).toBeGreaterThanOrEqual(3 - 1e-9);
      });
    }),
    { seed: 1, numRuns: 300 },
  );
});
