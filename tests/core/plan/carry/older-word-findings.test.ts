import { expect, test } from "vitest";
import type { Size, Tree } from "../../../../src/core/model/trees.ts";
import type { ArboristWord } from "../../../../src/core/model/word.ts";
import { wordsInForce } from "../../../../src/core/model/words-in-force.ts";
import { olderWordFindings } from "../../../../src/core/plan/carry/older-word-findings.ts";
import { isoDate } from "../../../../src/core/units/calendar.ts";

const size = (valueM: number, basis: Size["basis"]): Size => ({
  ...{ valueM, lowM: valueM * 0.9, highM: valueM * 1.1, basis, source: "inventory" },
});
/** Only what is asked of a tree here. */
const tree = (heightM: number, basis: Size["basis"] = "measured"): Tree =>
  ({
    ...{ id: "T-1", height: size(heightM, basis), crownBase: size(2, "estimated"), radius: size(3, "estimated") },
    ...{ headroomOverRoadM: null, dbhM: null, dbhBasis: null },
  }) as unknown as Tree;
const word: ArboristWord = {
  ...{
    wordId: "w-1",
    treeId: "T-1",
    visitId: null,
    on: isoDate("2027-02-01"),
    by: "R. Ashe",
    why: "",
    takenBack: null,
  },
  ...{ kind: "measurement", value: { of: "height", valueM: 11 } },
};
const found = (now: Tree, before: Tree | null, words: readonly ArboristWord[] = [word], on = "2027-09-01") =>
  olderWordFindings([now], () => before, wordsInForce(words), isoDate(on));

test("an inventory that was measured after an arborist and says otherwise is told beside the word, which holds", () => {
  // The word's figure stands in the tree; the inventory's is kept beside it.
  const said = { ...tree(11), unsaid: { height: size(13.5, "measured") } } as Tree;
  const [finding, ...others] = found(said, tree(9));
  expect(others).toEqual([]);
  expect(finding).toMatchObject({ code: "carry-word-older", severity: "warning", feature: "T-1", value: "w-1" });
  expect(finding!.reason).toBe(
    "The inventory's height of 13.50 m, measured by 2027-09-01, is newer than the 11.00 m that R. Ashe measured on 2027-02-01, which is used until it is taken back.",
  );
});

test("nothing is told of what is not newer, not measured, not another figure, or taken back", () => {
  expect(found(tree(13.5), tree(9), [word], "2027-02-01")).toEqual([]);
  expect(found(tree(13.5, "estimated"), tree(9))).toEqual([]);
  expect(found(tree(11.01), tree(9))).toEqual([]);
  expect(found(tree(13.5), tree(13.5))).toEqual([]);
  expect(found(tree(13.5), null)).toEqual([]);
  const takenBack = { on: isoDate("2027-03-01"), by: "B. Birch", why: "" };
  expect(found(tree(13.5), tree(9), [{ ...word, takenBack }])).toEqual([]);
});
