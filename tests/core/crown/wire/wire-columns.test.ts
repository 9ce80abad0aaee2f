import { expect, it } from "vitest";
import { type SweptWire, stillWire } from "../../../../src/core/crown/wire/swept-wire.ts";
import { readWireInto, WIRE_STRIDE, writeWire } from "../../../../src/core/crown/wire/wire-columns.ts";

it("gives back what was written, each member in its place", () => {
  const wire: SweptWire = { ...stillWire(1, 2, 3, 4, 5, 6, 7), swungSagM: 8, swingRad: 9, stringM: 10, parameterM: 11 };
  expect(WIRE_STRIDE).toBe(Object.keys(wire).length);
  const out = new Float64Array(3 * WIRE_STRIDE);
  writeWire(out, WIRE_STRIDE, wire);
  const back = stillWire(0, 0, 0, 0, 0, 0, 0);
  readWireInto(back, out, WIRE_STRIDE);
  expect(back).toEqual(wire);
  expect([out[0], out[2 * WIRE_STRIDE]]).toEqual([0, 0]);
});
