import { describe, expect, test } from "vitest";
import { rangesOf } from "../../../src/core/packet/cautions.ts";
import { dropZoneM } from "../../../src/core/packet/drop-zone.ts";
import { drawingsOf, packetContent } from "../../../src/core/packet/packet-content.ts";
import { PACKET_COLUMNS, packetRows } from "../../../src/core/packet/packet-rows.ts";
import { zoneStops } from "../../../src/core/packet/zone-stops.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { dropReachM, plannedStops } from "../../../src/core/zone/stops.ts";
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
    expect(content.cover.location).toContain("latitude, longitude 43.07");
    expect(content.traffic.note).toContain("confirm with the road authority");
    expect(content.cover.notChecked).toContain("sign, signal, curve");
  });

  test("says which trees a caution is about", () => {
    const card = content.cards.find(({ treeId }) => treeId === "T-107");
    expect(card?.cautions).toContain("Within 3 m of a conductor: line-clearance arborist only.");
    expect(content.cautionPage.shared.join()).not.toContain("Within 3 m of a conductor");
  });

  test("gathers what several trees share under a number, and never shortens who may come near a line", () => {
    const traffic = "Branches can fall into traffic: traffic control as the road authority requires.";
    const line = "An overhead line is 2 m from the crown: only line-clearance arborists come within 3 m.";
    const some = new Set(["T-101", "T-102", "T-104"]);
    const prescriptions = smallPlan.prescriptions.map((one) =>
      some.has(one.treeId) ? { ...one, cautions: [traffic, line] } : { ...one, cautions: [] },
    );
    const gathered = packetContent({ ...smallPlan, prescriptions }, smallZone, usCommon());
    const numbers = gathered.cards.filter(({ treeId }) => some.has(treeId)).map(({ number }) => number);
    expect(gathered.cautionPage.shared).toEqual([
      `1. Trees ${rangesOf(numbers)}: ${traffic}`,
      `2. Trees ${rangesOf(numbers)}: ${line}`,
    ]);
    const card = gathered.cards.find(({ treeId }) => treeId === "T-102");
    expect(card?.cautions).toEqual([line, "Branches can fall into traffic (caution 1)."]);
  });

  test("writes runs of numbers as ranges", () => {
    expect(rangesOf([7, 1, 2, 3, 4, 9, 10])).toBe("1–4, 7, 9, 10");
  });

  test("has a cut guide of just the drawings its tasks need, which the cards name by letter", () => {
    const letters = content.cutGuide.panels.map(({ letter }) => letter);
    const named = content.cards.flatMap(({ texts }) => {
      const how = texts.find(([label]) => label === "How")?.[1] ?? "";
      return [...how.matchAll(/cut guide ([A-F](?:, [A-F])*)/g)].flatMap((match) => match[1]!.split(", "));
    });
    expect([...new Set(named)].sort()).toEqual(letters);
    expect(letters).not.toContain("E");
    expect(content.cutGuide.lists.map(({ title }) => title)).toContain("Do not");
  });

  test("names the trees after which tools are disinfected", () => {
    const trees = smallPlan.trees.map((tree) =>
      tree.id === "T-103" ? { ...tree, defects: ["diseased-limb" as const] } : tree,
    );
    const sick = packetContent({ ...smallPlan, trees }, smallZone, usCommon());
    const cleaning = sick.cutGuide.lists.find(({ title }) => title === "Clean tools")?.lines ?? [];
    const { number } = sick.cards.find(({ treeId }) => treeId === "T-103")!;
    expect(cleaning.join("\n")).toContain(`Tree ${number}: A limb is reported as diseased`);
    expect(cleaning.at(-1)).toContain("bleach");
  });

  test("never takes off a card who may come near a line, even where it holds for all trees", () => {
    const line = "An overhead line touches the crown: only line-clearance arborists come within 3 m.";
    const prescriptions = smallPlan.prescriptions.map((one) => ({ ...one, cautions: [line] }));
    const { cards } = packetContent({ ...smallPlan, prescriptions }, smallZone, usCommon());
    for (const { cautions } of cards) expect(cautions).toEqual([line]);
  });

  test("says once what several conflicts leave in doubt", () => {
    const base = "The crown base is not measured.";
    const conflicts = smallPlan.conflicts.flatMap((one) => [
      { ...one, doubt: base },
      { ...one, doubt: `${base} The trunk itself stands in the view.` },
    ]);
    const { cards } = packetContent({ ...smallPlan, conflicts }, smallZone, usCommon());
    const checks = cards.flatMap(({ texts }) => texts.filter(([name]) => name === "Check"));
    expect(checks.length).toBeGreaterThan(0);
    for (const [, text] of checks) expect(text.split(base)).toHaveLength(2);
  });

  test("draws notes of one kind together, and keeps a hazard apart from them", () => {
    const notes = [
      "Only possible, measure on site: Branches may hang lower than the 8 ft needed.",
      "Only possible, measure on site: Branches may be nearer than the 6 ft needed.",
      "Still a hazard after the first visit: Branches hang 7 ft above the walk. Mark or close the place.",
    ];
    const prescriptions = smallPlan.prescriptions.map((one) => ({
      ...one,
      cautions: one.treeId === "T-104" ? notes : [],
    }));
    const { cards } = packetContent({ ...smallPlan, prescriptions }, smallZone, usCommon());
    const card = cards.find(({ treeId }) => treeId === "T-104");
    expect(card?.notes).toEqual([
      "Only possible, measure on site: Branches may hang lower than the 8 ft needed. Branches may be nearer than the 6 ft needed.",
    ]);
    expect(card?.cautions).toEqual([notes[2]]);
  });

  test("gathers what ends the caution of one tree and stands by itself at another", () => {
    const look = "Look for overhead lines before any work: service drops are often not on the map.";
    const far = `An overhead line is 20 m from the crown: only line-clearance arborists come within 3 m. ${look}`;
    const prescriptions = smallPlan.prescriptions.map((one) => ({
      ...one,
      cautions: [one.treeId === "T-101" ? far : look],
    }));
    const { cards, cautionPage } = packetContent({ ...smallPlan, prescriptions }, smallZone, usCommon());
    expect(cautionPage.shared).toEqual([`1. All trees: ${look}`]);
    expect(cards[0]?.cautions).toEqual([far.slice(0, far.length - look.length - 1)]);
  });

  test("says why a season binds once where trees share it, and on the card where one has it alone", () => {
    const reason = "avoids 1 Apr to 15 Jun, when leaves are flushing and the bark slips easily";
    const own = "an oak is cut in winter only, where oak wilt occurs, as the forestry authority asks";
    const prescriptions = smallPlan.prescriptions.map((one) => ({
      ...one,
      visits: one.visits.map((visit) => ({ ...visit, windowReason: one.treeId === "T-101" ? own : reason })),
    }));
    const { cards, cautionPage } = packetContent({ ...smallPlan, prescriptions }, smallZone, usCommon());
    expect(cautionPage.seasons).toEqual([`Trees 2–9: Avoids${reason.slice(6)}.`]);
    const season = (treeId: string) => new Map(cards.find((card) => card.treeId === treeId)!.texts).get("Season");
    expect(season("T-101")).toContain("An oak is cut in winter only");
    expect(season("T-102")).toMatch(/2027; why: page of cautions\.$/);
  });

  test("says how far the drop zone reaches, as zones are drawn", () => {
    const stop = zoneStops(smallPlan, smallZone)[0]!;
    const zoned = plannedStops(smallPlan).find(({ tree }) => tree.id === stop.tree.id)!;
    expect(dropZoneM(stop.tree)).toBe(dropReachM(zoned));
    // T-101 reaches farthest to the south, 1.1 times its mean radius of 5.6 m, with 3 m around it.
    expect(new Map(content.cards[0]!.facts).get("Drop zone")).toBe("9.2 m from the trunk");
  });

  test("names protective equipment by what the zone asks for", () => {
    const worn = content.cautionPage.equipment.join("\n");
    for (const one of ["helmet", "hearing", "high-visibility", "saddle and line", "line-clearance"]) {
      expect(worn).toContain(one);
    }
    const settings = smallPlan.settings.map((setting) => ({ ...setting, road: null }));
    const away = packetContent({ ...smallPlan, settings }, { ...smallZone, crew: "ground" }, usCommon());
    for (const one of ["high-visibility", "saddle", "line-clearance", "aloft"]) {
      expect(away.cautionPage.equipment.join("\n")).not.toContain(one);
    }
    expect(away.cautionPage.equipment.at(-1)).toContain("local law decide");
  });

  test("prints once, on the page of cautions, what holds for all trees", () => {
    const nests = "Look for nests before cutting.";
    const prescriptions = smallPlan.prescriptions.map((one) => ({ ...one, cautions: [...one.cautions, nests] }));
    const shared = packetContent({ ...smallPlan, prescriptions }, smallZone, usCommon());
    expect(shared.cautionPage.shared).toContain(`1. All trees: ${nests}`);
    for (const { cautions, alsoSee } of shared.cards) {
      expect(cautions).not.toContain(nests);
      expect(alsoSee).toContain("page of cautions");
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
