import { expect, it } from "vitest";
import { howWords, methodFor } from "../../../src/core/prescription/cut-method.ts";

it("chooses the method by limb size", () => {
  expect([0.02, 0.021, 0.0254, 0.026].map(methodFor)).toEqual(["hand", "single-cut", "single-cut", "three-cut"]);
});

it("says what must not be done", () => {
  const removal = howWords("removal", "three-cut");
  expect(removal).toContain("collar");
  expect(removal).toContain("no flush cut, no stub");
  expect(howWords("reduction", "hand")).toContain("at least a third");
});
