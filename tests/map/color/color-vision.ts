import type { LinearRgb } from "./color-difference.ts";

/**
 * Color vision deficiency at full severity: matrices for linear RGB from Machado, Oliveira and Fernandes 2009, "A Physiologically-based
 * Model for Simulation of Color Vision Deficiency", IEEE TVCG 15(6), their table for severity 1.0. Typed from memory of that table; each
 * row sums to 1, which the test checks.
 */
export const VISIONS = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
} as const;

/** A linear color as it is seen with a deficiency, cut to what a screen can show. */
export function seenWith(vision: keyof typeof VISIONS, [red, green, blue]: LinearRgb): LinearRgb {
  const [first, second, third] = VISIONS[vision].map((row) =>
    Math.min(1, Math.max(0, row[0] * red + row[1] * green + row[2] * blue)),
  );
  return [first!, second!, third!];
}
