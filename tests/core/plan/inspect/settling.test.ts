import { describe, expect, it } from "vitest";
import {
  asIfMeasured,
  type Judge,
  type Question,
  settlingFigures,
} from "../../../../src/core/plan/inspect/settling.ts";
import { settlingText } from "../../../../src/core/plan/inspect/settling-words.ts";
import { planOfWork } from "../../zone/plan-of-work.ts";

const tree = planOfWork([{ id: "A", at: [0, 0] }]).trees[0]!;
const ask = (figure: Question["figure"]): Question => ({ tree, conflictId: "c", figure });
/** A rule by crown base alone: below 4 m it holds, up to 5 m it is possible, above it is gone. */
const byBase: Judge = (asked) =>
  asked.map(({ tree: { crownBase } }) => {
    if (crownBase.valueM < 4) return "probable";
    return crownBase.valueM <= 5 ? "possible" : null;
  });

describe("the figures that settle a question", () => {
  it("are found within 4 cm, on the settled side of where the answer turns", () => {
    const [base, height] = settlingFigures([ask("crown-base"), ask("height")], byBase);
    expect(base).toMatchObject({ figure: "crown-base", goneFor: "large" });
    expect(base!.goneAtM).toBeGreaterThan(5);
    expect(base!.goneAtM).toBeLessThan(5.04);
    expect(base!.holdsAtM).toBeLessThan(4);
    expect(base!.holdsAtM).toBeGreaterThan(3.96);
    expect(height).toMatchObject({ goneAtM: null, holdsAtM: null });
  });

  it("turn round where a conflict is gone for small values", () => {
    const byRadius: Judge = (asked) => asked.map(({ tree: { radius } }) => (radius.valueM < 3 ? null : "possible"));
    const [radius] = settlingFigures([ask("crown-radius")], byRadius);
    expect(radius).toMatchObject({ goneFor: "small", holdsAtM: null });
    expect(radius!.goneAtM).toBeLessThan(3);
    expect(radius!.goneAtM).toBeGreaterThan(2.96);
  });

  it("are said rounded to the settled side", () => {
    const settlings = [{ figure: "crown-base", goneFor: "large", goneAtM: 5.01, holdsAtM: 3.99 }] as const;
    const conflict = { doubt: null } as never;
    expect(settlingText({ conflict, settlings }, "metric")).toEqual([
      "Crown base 5.1 m or more: no conflict; 3.9 m or less: sure enough to send a crew.",
    ]);
    // 5.01 m is 197.2 in, 198 in are 16 ft 6 in; 3.99 m is 157.1 in, 157 in are 13 ft 1 in.
    expect(settlingText({ conflict, settlings }, "us")).toEqual([
      "Crown base 16 ft 6 in or more: no conflict; 13 ft 1 in or less: sure enough to send a crew.",
    ]);
  });
});

describe("a tree as if measured", () => {
  it("has the error of a measurement, and its radii in proportion", () => {
    expect(asIfMeasured(tree, "height", 10).height).toMatchObject({ lowM: 9, highM: 11, basis: "measured" });
    expect(asIfMeasured(tree, "crown-base", 0.1).crownBase).toMatchObject({ lowM: 0, basis: "measured" });
    const uneven = { ...tree, radii: { northM: 2, eastM: 4, southM: 6, westM: 4 } };
    expect(asIfMeasured(uneven, "crown-radius", 2).radii).toEqual({ northM: 1, eastM: 2, southM: 3, westM: 2 });
  });
});
