import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { CERTAINTIES, REMEDIES, URGENCIES, ZONE_STATES } from "../../../src/core/model/terms.ts";
import { TOKENS } from "../../../src/map/tokens.ts";
import { smallOpenedPlan } from "../small-opened-plan.ts";
import { PARAMETERS, SLD_CONTENT } from "./sld-content.ts";
import { elementsOf, type XmlElement, xmlTree } from "./xml-tree.ts";

const FOLDER = new URL("../../../styles/sld/", import.meta.url);
const names = readdirSync(FOLDER);
const LAYERS = ["trees", "conflicts", "sight", "zones", "surroundings"] as const;
const tree = (layer: (typeof LAYERS)[number]) => xmlTree(readFileSync(new URL(`${layer}.sld`, FOLDER), "utf8"));
const opened = smallOpenedPlan();

/** What is wrong with the order and number of an element's children and theirs, by the schemas' content. */
function faults(element: XmlElement): string[] {
  const { name, children } = element;
  const inner = children.flatMap(faults);
  if (PARAMETERS.has(name)) {
    const strange = children.filter((child) => !["ogc:PropertyName", "ogc:Mul"].includes(child.name));
    return [...inner, ...strange.map((child) => `${child.name} in ${name}`)];
  }
  const content = SLD_CONTENT[name];
  if (content === undefined) return children.length === 0 ? inner : [...inner, `${name} has children`];
  // The content as a pattern over the children's names, each closed by a blank.
  const pattern = content.map((item) => {
    const [, alternatives, times] = /^(.*?)([?*+]?)$/.exec(item)!;
    return `(?:(?:${alternatives!.split("|").join("|")}) )${times}`;
  });
  const list = children.map((child) => `${child.name} `).join("");
  return new RegExp(`^${pattern.join("")}$`).test(list) ? inner : [...inner, `${name}: ${list}`];
}

type Members = Readonly<Record<string, unknown>>;

/** Whether a filter (Filter Encoding 1.1, clauses 9 and 10) holds for a feature's members. */
function holds({ name, children }: XmlElement, members: Members): boolean {
  const value = () => members[children[0]!.text] ?? null;
  switch (name) {
    case "ogc:Filter":
      return holds(children[0]!, members);
    case "ogc:And":
      return children.every((child) => holds(child, members));
    case "ogc:Or":
      return children.some((child) => holds(child, members));
    case "ogc:Not":
      return !holds(children[0]!, members);
    case "ogc:PropertyIsNull":
      return value() === null;
    case "ogc:PropertyIsEqualTo":
      return value() !== null && String(value()) === children[1]!.text;
    case "ogc:PropertyIsNotEqualTo":
      return value() !== null && String(value()) !== children[1]!.text;
    default:
      throw new Error(`No meaning for ${name}`);
  }
}

const textOf = (element: XmlElement, name: string): string | undefined =>
  element.children.find((child) => child.name === name)?.text;

/** Names of the rules that draw a feature at a scale of 1 to a number (SE 1.1, 10.2: from the least scale on, below the greatest). */
const drawnBy = (layer: (typeof LAYERS)[number], members: Members, scale: number): string[] =>
  elementsOf(tree(layer), "se:Rule")
    .filter((rule) => scale >= Number(textOf(rule, "se:MinScaleDenominator") ?? 0))
    .filter((rule) => scale < Number(textOf(rule, "se:MaxScaleDenominator") ?? Number.POSITIVE_INFINITY))
    .filter((rule) => {
      const filter = rule.children.find((child) => child.name === "ogc:Filter");
      return filter === undefined || holds(filter, members);
    })
    .map((rule) => textOf(rule, "se:Name")!);

test("the reader of these tests refuses what is not well-formed", () => {
  for (const bad of ["<a><b></a></b>", "<a>", "<a/><b/>", "<a>1 < 2</a>", "<a>R&D</a>"])
    expect(() => xmlTree(bad)).toThrow();
});

describe.each(LAYERS)("%s.sld", (layer) => {
  test("is well-formed, of version 1.1.0, and its elements stand as the schemas have them", () => {
    const root = tree(layer);
    expect(root.name).toBe("StyledLayerDescriptor");
    expect(root.attributes.version).toBe("1.1.0");
    expect(root.attributes.xmlns).toBe("http://www.opengis.net/sld");
    expect(faults(root)).toEqual([]);
  });

  test("names only pictures that lie beside it, each with a plain shape to fall back on", () => {
    for (const graphic of elementsOf(tree(layer), "se:Graphic")) {
      expect(graphic.children.some((child) => child.name === "se:Mark")).toBe(true);
      for (const resource of elementsOf(graphic, "se:OnlineResource"))
        expect(names).toContain(resource.attributes["xlink:href"]);
    }
  });

  test("has its colors from the light theme", () => {
    const own = new Set(JSON.stringify(TOKENS.themes.light).match(/#[0-9a-f]{6}/g));
    const used = readFileSync(new URL(`${layer}.sld`, FOLDER), "utf8").match(/#[0-9a-f]{6}/g) ?? [];
    expect(used.filter((color) => !own.has(color))).toEqual([]);
  });
});

test("the pictures are well-formed, and every one is named", () => {
  const pictures = names.filter((name) => name.endsWith(".svg"));
  const named = LAYERS.flatMap((layer) =>
    elementsOf(tree(layer), "se:OnlineResource").map(({ attributes }) => attributes["xlink:href"]),
  );
  expect(new Set(named)).toEqual(new Set(pictures));
  for (const name of pictures) expect(xmlTree(readFileSync(new URL(name, FOLDER), "utf8")).name).toBe("svg");
});

describe("a tree", () => {
  const CLOSE = 5_000;
  const FAR = 30_000;

  test("of every remedy, urgency and certainty has exactly one mark close up and one dot far out", () => {
    let tried = 0;
    for (const bough_remedy of REMEDIES.filter((one) => one !== "none"))
      for (const bough_urgency of URGENCIES.filter((one) => one !== "clear"))
        for (const bough_certainty of [...CERTAINTIES, null]) {
          const members = { bough_remedy, bough_urgency, bough_certainty, bough_conflicts: "roadway" };
          const sure = bough_certainty ?? "confirmed";
          expect(drawnBy("trees", members, CLOSE)).toEqual([`${bough_remedy}-${bough_urgency}-${sure}`]);
          expect(drawnBy("trees", members, FAR)).toEqual([`far-${bough_urgency}`]);
          tried += 1;
        }
    expect(tried).toBe(6 * 4 * 4);
  });

  test("without work is a dot, one to watch for a conflict has a mark, a clear one a ring", () => {
    const of = (bough_urgency: string, bough_conflicts: string | null) =>
      drawnBy("trees", { bough_remedy: "none", bough_urgency, bough_conflicts, bough_certainty: null }, CLOSE);
    expect(of("watch", "")).toEqual(["nothing-found"]);
    expect(of("watch", null)).toEqual(["nothing-found"]);
    expect(of("watch", "walkway")).toEqual(["none-watch-confirmed"]);
    expect(of("clear", "")).toEqual(["clear"]);
  });

  test("of a plan is drawn once at either scale", () => {
    for (const { properties } of opened.trees.features)
      for (const scale of [CLOSE, FAR]) expect(drawnBy("trees", properties ?? {}, scale)).toHaveLength(1);
  });

  test("close up has its crown, and its figure where there is one", () => {
    const members = { bough_remedy: "lift", bough_urgency: "now", bough_certainty: "confirmed", bough_lift_m: 1.2 };
    expect(drawnBy("trees", members, 900)).toEqual(["crown", "lift-now-confirmed", "figure-lift"]);
    expect(drawnBy("trees", { ...members, bough_lift_m: null }, 900)).toEqual(["crown", "lift-now-confirmed"]);
  });

  test("turns its mark to the conflict only where the shape shows a side", () => {
    const turned = elementsOf(tree("trees"), "se:Rule")
      .filter((rule) => elementsOf(rule, "se:Rotation").length > 0)
      .map((rule) => textOf(rule, "se:Name")!.replace(/-(now|next-window|this-cycle|watch)-.*/, ""));
    expect(new Set(turned)).toEqual(new Set(["shorten", "remove-limb"]));
  });
});

test("every zone has its state's pattern, but a done one its tab, and an outline by urgency", () => {
  for (const state of ZONE_STATES)
    for (const urgency of URGENCIES)
      expect(new Set(drawnBy("zones", { state, urgency }, 20_000))).toEqual(new Set([state, `due-${urgency}`]));
});

test("conflicts, sight and surroundings of a plan are all drawn", () => {
  const scale = 1_000;
  for (const { properties, geometry } of opened.conflicts.features)
    if (geometry !== null) expect(drawnBy("conflicts", properties ?? {}, scale)).toHaveLength(1);
  for (const { properties } of opened.sight.features)
    expect(drawnBy("sight", properties ?? {}, scale)).toEqual([properties?.part]);
  for (const { properties } of opened.surroundings.features)
    expect(drawnBy("surroundings", properties ?? {}, scale)).toEqual([properties?.layer]);
});
