import { describe, expect, test } from "vitest";
import { drawingsOf, packetContent } from "../../../src/core/packet/packet-content.ts";
import { PACKET_COLUMNS, packetRows } from "../../../src/core/packet/packet-rows.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { smallPlan, smallZone } from "./small-plan.ts";

const content = packetContent(smallPlan, smallZone, usCommon());

describe("packetContent", () => {
  test("has a row and a card for each visit, in order of work, and no other tree", () => {
    expect(content.order.map(({ treeId }) => treeId)).toEqual(smallZone.treeIds);
    expect(content.cards.map(({ treeId }) => treeId)).toEqual(smallZone.treeIds);
    // T-110 is referred and has no visit.
    expect(JSON.stringify(content)).not.toContain("T-110");
  });

  test("says when, who and how long on the cover, and leaves the emergency lines blank", () => {
    const figures = new Map(content.cover.figures);
    expect(figures.get("Due")).toBe("31 Mar 2027");
    expect(figures.get("Crew")).toBe("Line-clearance crew");
    expect(figures.get("Crew hours")).toBe("6.5");
    expect(figures.get("Trees")).toBe("9");
    expect(content.cover.emergency.length).toBeGreaterThanOrEqual(4);
    expect(content.cover.closure.note).toContain("confirm with the road authority");
    expect(content.cover.notChecked).toContain("sign, signal, curve");
  });

  test("says which trees a caution is about", () => {
    expect(content.signOff.treeCautions).toContain("Tree 7: Within 3 m of a conductor: line-clearance arborist only.");
  });

  test("prints once, on the last page, what holds for all trees", () => {
    const nests = "Look for nests before cutting.";
    const prescriptions = smallPlan.prescriptions.map((one) => ({ ...one, cautions: [...one.cautions, nests] }));
    const shared = packetContent({ ...smallPlan, prescriptions }, smallZone, usCommon());
    expect(shared.signOff.treeCautions).toContain(`All trees: ${nests}`);
    for (const { cautions, alsoSee } of shared.cards) {
      expect(cautions).not.toContain(nests);
      expect(alsoSee).toContain("last page");
    }
  });

  test("shows a section for each conflict a visit works on", () => {
    expect(content.cards.find(({ treeId }) => treeId === "T-103")?.sections).toHaveLength(2);
    expect(content.cards.find(({ treeId }) => treeId === "T-101")?.sections).toHaveLength(1);
  });

  test("every drawing has words for people who do not see it", () => {
    for (const { description } of drawingsOf(content)) expect(description.length).toBeGreaterThan(40);
  });

  test("refuses a zone with a visit the plan does not have", () => {
    const zone = { ...smallZone, visitIds: ["nobody"] };
    expect(() => packetContent(smallPlan, zone, usCommon())).toThrow(RangeError);
  });
});

test("packetRows has one cell a column, in order of work", () => {
  const rows = packetRows(smallPlan, smallZone);
  expect(rows).toHaveLength(9);
  for (const { cells } of rows) expect(cells).toHaveLength(PACKET_COLUMNS.length);
  expect(rows.map(({ cells }) => cells[0])).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
});
