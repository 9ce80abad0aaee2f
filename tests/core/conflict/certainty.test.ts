import { describe, expect, it } from "vitest";
import {
  atMost,
  certaintyOf,
  certaintyWithForecast,
  doubtOfSizes,
  type End,
  type Test,
} from "../../../src/core/conflict/certainty.ts";
import type { CrownSize } from "../../../src/core/conflict/crown-size.ts";
import { TreeView } from "../../../src/core/conflict/tree-view.ts";
import type { Basis, Certainty } from "../../../src/core/model/terms.ts";
import { HABITS } from "../../../src/core/model/terms.ts";
import { treeTable } from "../../../src/core/model/tree-table.ts";
import type { Size, Tree } from "../../../src/core/model/trees.ts";
import { tree } from "../prescription/scene.ts";

const size = (lowM: number, valueM: number, highM: number, basis: Basis = "measured"): Size => ({
  lowM,
  valueM,
  highM,
  basis,
  source: "column",
});

/** 12 m high (11 to 13), crown from 3 m (2 to 4), radius 4 m (3 to 5). */
function viewOf(over: Partial<Tree> = {}): TreeView {
  const view = new TreeView();
  const of: Tree = {
    ...tree(),
    height: size(11, 12, 13),
    crownBase: size(2, 3, 4),
    radius: size(3, 4, 5),
    ...over,
  };
  view.moveTo(treeTable([of]), 0, 10);
  return view;
}

const bases = (height: Basis, crownBase: Basis, radius: Basis): Partial<Tree> => ({
  height: size(11, 12, 13, height),
  crownBase: size(2, 3, 4, crownBase),
  radius: size(3, 4, 5, radius),
});

/** What a test is asked, with the answers it gives. */
function asked(view: TreeView, answer: Test, isThingSure = true) {
  const questions: (Pick<CrownSize, "heightM" | "baseM" | "eastM" | "habit"> & { readonly end: End })[] = [];
  const certainty = certaintyOf(
    view,
    ({ heightM, baseM, eastM, habit, ...rest }, end) => {
      questions.push({ heightM, baseM, eastM, habit, end });
      return answer({ heightM, baseM, eastM, habit, ...rest }, end);
    },
    isThingSure,
  );
  return { certainty, questions };
}

describe("a conflict at the estimate", () => {
  it("is confirmed where it holds with the smallest radius at both ends of height and base, for every profile", () => {
    const { certainty, questions } = asked(viewOf(), () => true);
    expect(certainty).toBe("confirmed");
    expect(questions[0]).toEqual({ heightM: 12, baseM: 3, eastM: 4, habit: "ellipsoid", end: "typical" });
    const rest = questions.slice(1);
    expect(rest).toHaveLength(4 * HABITS.length);
    expect(new Set(rest.map(({ heightM, baseM, habit }) => `${heightM} ${baseM} ${habit}`))).toEqual(
      new Set(HABITS.flatMap((habit) => [`11 2 ${habit}`, `11 4 ${habit}`, `13 2 ${habit}`, `13 4 ${habit}`])),
    );
    expect(rest.every(({ eastM, end }) => eastM === 3 && end === "least")).toBe(true);
  });

  it("is probable where one of these fails, where a size is not measured, or where the thing is in doubt", () => {
    const failsAt = (heightM: number, baseM: number) =>
      asked(viewOf(), (crown, end) => end === "typical" || crown.heightM !== heightM || crown.baseM !== baseM);
    for (const heightM of [11, 13])
      for (const baseM of [2, 4]) expect(failsAt(heightM, baseM).certainty).toBe("probable");
    expect(asked(viewOf(), (crown, end) => end === "typical" || crown.habit !== "cone").certainty).toBe("probable");
    expect(asked(viewOf(bases("estimated", "measured", "measured")), () => true).certainty).toBe("probable");
    expect(asked(viewOf(), () => true, false).certainty).toBe("probable");
  });

  it("is asked of the profiles alone that its form can have", () => {
    const { questions } = asked(viewOf({ form: "palm" }), () => true);
    expect(new Set(questions.slice(1).map(({ habit }) => habit))).toEqual(new Set(["dome", "ellipsoid", "vase"]));
  });
});

describe("a conflict not at the estimate", () => {
  const beyond: Test = (_, end) => end === "most";

  it("is possible where the largest crown that could be has it, and none where that has not", () => {
    // A measured tree may be a column, which from the lowest base to the greatest height holds every other crown.
    const { certainty, questions } = asked(viewOf(), beyond);
    expect(certainty).toBe("possible");
    expect(questions.slice(1)).toEqual([{ heightM: 13, baseM: 2, eastM: 5, habit: "column", end: "most" }]);
    expect(asked(viewOf(), () => false).certainty).toBeNull();
  });

  it("is asked of the tree's own profile at all ends where sizes are estimated", () => {
    const { questions, certainty } = asked(viewOf(bases("measured", "estimated", "measured")), () => false);
    expect(certainty).toBeNull();
    expect(questions.slice(1)).toEqual(
      [2, 3, 4].flatMap((baseM) =>
        [11, 13].map((heightM) => ({ heightM, baseM, eastM: 5, habit: "ellipsoid", end: "most" })),
      ),
    );
    const last: Test = (crown, end) => end === "most" && crown.baseM === 4 && crown.heightM === 13;
    expect(asked(viewOf(bases("measured", "estimated", "measured")), last).certainty).toBe("possible");
  });

  it("leaves a crown a tenth of the tree's height where its base could be as high as its top, and never begins under ground", () => {
    const estimated = { ...bases("estimated", "estimated", "estimated"), crownBase: size(-1, 3, 12, "estimated") };
    const { questions } = asked(viewOf(estimated), () => false);
    const ends = questions.slice(1).map(({ heightM, baseM }) => [heightM, baseM]);
    expect(ends[0]).toEqual([11, 0]);
    // Nine tenths of 11 and 13 m.
    expect(ends[4]![1]).toBeCloseTo(9.9, 12);
    expect(ends[5]![1]).toBeCloseTo(11.7, 12);
  });
});

describe("a forecast", () => {
  const now =
    (certainty: Certainty | null): Test =>
    (_, end) =>
      certainty === "confirmed" ||
      (certainty === "probable" && end === "typical") ||
      (certainty === "possible" && end === "most");

  it("is probable, and takes nothing from what is surer now", () => {
    const soon = (certainty: Certainty | null) => certaintyWithForecast(viewOf(), now(certainty), true, true);
    expect([null, "possible", "probable", "confirmed"].map((given) => soon(given as Certainty | null))).toEqual([
      "probable",
      "probable",
      "probable",
      "confirmed",
    ]);
  });

  it("that never comes changes nothing", () => {
    const never = (certainty: Certainty | null) => certaintyWithForecast(viewOf(), now(certainty), true, false);
    expect([null, "possible", "probable", "confirmed"].map((given) => never(given as Certainty | null))).toEqual([
      null,
      "possible",
      "probable",
      "confirmed",
    ]);
  });

  it("of a tree known by its position alone is possible at most", () => {
    const view = viewOf(bases("assumed", "assumed", "assumed"));
    expect(certaintyWithForecast(view, now("probable"), true, true)).toBe("possible");
    expect(certaintyWithForecast(view, now(null), true, true)).toBe("possible");
    expect(certaintyWithForecast(view, now(null), true, false)).toBeNull();
    // One size known is enough.
    for (const known of [
      bases("measured", "assumed", "assumed"),
      bases("assumed", "estimated", "assumed"),
      bases("assumed", "assumed", "measured"),
    ]) {
      expect(certaintyWithForecast(viewOf(known), now("probable"), true, false)).toBe("probable");
    }
  });
});

it("the less sure of two is taken", () => {
  const all: readonly Certainty[] = ["confirmed", "probable", "possible"];
  expect(all.map((one) => all.map((other) => atMost(one, other)))).toEqual([
    ["confirmed", "probable", "possible"],
    ["probable", "probable", "possible"],
    ["possible", "possible", "possible"],
  ]);
});

describe("why it is no surer", () => {
  const said = (over: Partial<Tree>, certainty: Certainty) => doubtOfSizes(viewOf(over), certainty, "metric");

  it("is not said of what is confirmed", () => {
    expect(said({}, "confirmed")).toBeNull();
    expect(said(bases("assumed", "assumed", "assumed"), "confirmed")).toBeNull();
  });

  it("is the position, where nothing else is known", () => {
    expect(said(bases("assumed", "assumed", "assumed"), "possible")).toBe(
      "Only the tree's position is known: its sizes are assumed.",
    );
  });

  it("is how large the crown would have to be, where that is only possible", () => {
    expect(said({}, "possible")).toBe(
      "It holds only if the crown is wider, lower or fuller than modeled: radius up to 5.0 m, base down to 2.0 m.",
    );
    expect(said({ ...bases("estimated", "measured", "measured"), crownBase: size(0.04, 3, 4) }, "possible")).toBe(
      "It holds only if the crown is wider or lower than estimated: radius up to 5.0 m, base down to the ground.",
    );
    expect(said({ crownBase: size(0.05, 3, 4) }, "possible")).not.toContain("the ground");
  });

  it("names the sizes that are not measured", () => {
    expect(said(bases("estimated", "measured", "measured"), "probable")).toBe("The height is not measured.");
    expect(said(bases("measured", "assumed", "estimated"), "probable")).toBe(
      "The crown base and crown radius are not measured.",
    );
    expect(said(bases("estimated", "estimated", "estimated"), "probable")).toBe(
      "The height, crown base and crown radius are not measured.",
    );
    expect(said({}, "probable")).toBe("It does not hold for every crown shape within the error of measurement.");
  });
});
