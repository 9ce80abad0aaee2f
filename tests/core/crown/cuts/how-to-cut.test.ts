import { describe, expect, test } from "vitest";
import { type CutTask, type CutTree, howToCut } from "../../../../src/core/crown/cuts/how-to-cut.ts";

const maple: CutTree = { form: "tree", defects: [], traits: { genus: "Acer", isConifer: false } };
const heavyRemoval: CutTask = {
  cut: "removal",
  method: "three-cut",
  remedy: "remove-limb",
  limbDiameterM: [0.04, 0.1],
};
const words = (rules: readonly { text: string }[]) => rules.map(({ text }) => text).join(" ");

describe("howToCut", () => {
  test("a heavy limb comes off in three cuts at the collar", () => {
    const how = howToCut(heavyRemoval, maple, "us");
    expect(how.figures).toEqual(["collar", "no-collar", "three-cut"]);
    expect(words(how.steps)).toContain("12–24 in out, a quarter through; then from above, 2 in farther out");
    expect(words(how.doNot)).toMatch(/No flush cut.*No stub.*No paint on the wound, unless a disease rule/);
  });

  test("a limb of 4 cm takes the shorter distances, in the reader's unit", () => {
    const how = howToCut({ ...heavyRemoval, limbDiameterM: [0.03, 0.04] }, maple, "metric");
    expect(words(how.steps)).toContain("15–30 cm out, a quarter through; then from above, 2.5 cm farther out");
  });

  test("tips are cut back to a lateral of at least a third, never topped", () => {
    const how = howToCut({ ...heavyRemoval, cut: "reduction", method: "hand", remedy: "shorten" }, maple, "us");
    expect(how.kind).toBe("reduction");
    expect(how.figures).toEqual(["collar", "reduction"]);
    expect(words(how.steps)).toContain("at least a third");
    expect(words(how.doNot)).toContain("No topping");
    expect(words(how.tools)).toContain("Bypass shears up to 3/4 in, loppers up to 1 1/2 in");
  });

  test("palms lose only fronds below the horizontal, with clean tools", () => {
    const how = howToCut(heavyRemoval, { ...maple, form: "palm" }, "us");
    expect(how.figures).toEqual(["fronds"]);
    expect(words(how.steps)).toContain("below the horizontal");
    expect(words(how.cleaning)).toContain("before every palm");
  });

  test("conifers are never cut back into bare wood", () => {
    const pine: CutTree = { ...maple, form: "conifer", traits: { genus: "Pinus", isConifer: true } };
    expect(words(howToCut(heavyRemoval, pine, "us").doNot)).toContain(
      "never back into bare wood, and the leader stays",
    );
  });

  test("hedges are trimmed along a line, but what is broken in them is cut like a limb", () => {
    const hedge: CutTree = { ...maple, form: "hedge" };
    expect(howToCut({ ...heavyRemoval, remedy: "shorten" }, hedge, "us").kind).toBe("trim");
    expect(howToCut({ ...heavyRemoval, remedy: "remedial" }, hedge, "us").kind).toBe("removal");
  });

  test("tools are disinfected for what the tree can carry, and for a diseased limb", () => {
    expect(howToCut(heavyRemoval, maple, "us").cleaning).toEqual([]);
    const sick: CutTree = { ...maple, defects: ["diseased-limb"] };
    expect(words(howToCut(heavyRemoval, sick, "us").cleaning)).toMatch(/before the next one.*bleach/);
    const apple: CutTree = { ...sick, traits: { genus: "Malus", isConifer: false } };
    expect(words(howToCut(heavyRemoval, apple, "us").cleaning)).toContain("before each cut");
    const oak: CutTree = { ...maple, traits: { genus: "Quercus", isConifer: false } };
    const how = howToCut(heavyRemoval, oak, "us");
    expect(words(how.cleaning)).toContain("after each oak");
    expect(words(how.doNot)).toContain("except on an oak cut in its closed season");
  });

  test("every sentence says where it is from", () => {
    const trees: CutTree[] = [maple, { ...maple, form: "palm" }, { ...maple, form: "hedge" }];
    for (const tree of trees) {
      for (const cut of ["removal", "reduction"] as const) {
        for (const method of ["hand", "single-cut", "three-cut"] as const) {
          const how = howToCut({ ...heavyRemoval, cut, method }, tree, "us");
          for (const { text, source } of [...how.steps, ...how.doNot, ...how.tools, ...how.cleaning]) {
            expect(text).toMatch(/[.]$/);
            expect(source.title.length).toBeGreaterThan(8);
          }
        }
      }
    }
  });
});
