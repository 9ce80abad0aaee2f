import type { SweptWire } from "./swept-wire.ts";

/** Members of a swept wire in the order of its columns; spans in many cases are kept as numbers in a row, not as objects. */
const COLUMNS = [
  "ax",
  "ay",
  "az",
  "bx",
  "by",
  "bz",
  "stillSagM",
  "swungSagM",
  "swingRad",
  "stringM",
  "parameterM",
] as const satisfies readonly (keyof SweptWire)[];

/** Numbers a wire takes. */
export const WIRE_STRIDE = COLUMNS.length;

/** Writes a wire's numbers into `out[at]` and on. */
export function writeWire(out: Float64Array, at: number, wire: SweptWire): void {
  for (const [column, member] of COLUMNS.entries()) out[at + column] = wire[member];
}

/** Fills a wire with the numbers from `from[at]` on. */
export function readWireInto(wire: SweptWire, from: Float64Array, at: number): void {
  for (const [column, member] of COLUMNS.entries()) wire[member] = from[at + column]!;
}
