import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readTrees } from "../../../src/core/inventory/read-trees.ts";
import type { SourceFeature } from "../../../src/core/model/feature.ts";
import { DEFECTS } from "../../../src/core/model/terms.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { OPTIONS, read, readOne, treeFeatures } from "./tree-features.ts";

const WHOLE = { id: "1", species: "Acer platanoides", dbh: 30, height: 11, crown_base: 2.5, crown_radius: 4 };

describe("measured sizes", () => {
  it("are taken over unchanged, with the error of measuring around them", () => {
    const { tree, findings } = readOne(WHOLE);
    expect(findings).toEqual([]);
    // 11 m within 10 %; 2.5 m within 0.3 m; 4 m within 10 %.
    expect(tree.height).toEqual({ valueM: 11, lowM: 9.9, highM: 12.1, basis: "measured", source: "column height" });
    expect(tree.crownBase).toMatchObject({ valueM: 2.5, lowM: 2.2, highM: 2.8, basis: "measured" });
    expect(tree.radius).toMatchObject({ valueM: 4, lowM: 3.6, highM: 4.4, basis: "measured" });
    expect(tree.radii).toEqual({ northM: 4, eastM: 4, southM: 4, westM: 4 });
    expect(tree.dbhM).toBe(0.3);
  });

  it("come in the column's unit unless the value names its own", () => {
    const columns = {
      trees: {
        dbh: { column: "DBH_IN", unit: "in" },
        height: { column: "HT", unit: "ft" },
        crown_base: { column: "BASE" },
      },
    } as const;
    const { tree } = readOne({ DBH_IN: 12, HT: "40", BASE: "3,5 m", crown_spread: "6 m" }, columns);
    // 12 in = 0.3048 m, 40 ft = 12.192 m; half of the spread is the radius.
    expect(tree.dbhM).toBeCloseTo(0.3048, 12);
    expect(tree.height.valueM).toBeCloseTo(12.192, 12);
    expect(tree.crownBase.valueM).toBe(3.5);
    expect(tree.radius.valueM).toBe(3);
  });

  it("make a radius of two widths, whose difference widens the interval", () => {
    const { tree } = readOne({ ...WHOLE, crown_radius: null, crown_width_1: 6, crown_width_2: 10 });
    // Radii 3 and 5 m: mean 4 m, half their difference 1 m; 10 % of 4 m more.
    expect(tree.radius.valueM).toBe(4);
    expect(tree.radius.lowM).toBeCloseTo(4 - 0.4 - 1, 12);
    expect(tree.radius.highM).toBeCloseTo(4 + 0.4 + 1, 12);
  });

  it("keep quadrant radii apart and fill a missing one with the mean", () => {
    const { tree } = readOne({ ...WHOLE, radius_n: 2, radius_e: 4, radius_s: 6, radius_w: "n/a" });
    expect(tree.radii).toEqual({ northM: 2, eastM: 4, southM: 6, westM: 4 });
    expect(tree.radius.valueM).toBe(4);
    expect(tree.radius.source).toContain("3 quadrant radii");
  });

  it("take 0 as unknown for stem, height and radius, and as a true crown base", () => {
    const { tree, findings } = readOne({ ...WHOLE, dbh: 0, crown_base: 0 });
    expect(tree.dbhM).toBeNull();
    expect(tree.crownBase).toMatchObject({ valueM: 0, lowM: 0, highM: 0.3, basis: "measured" });
    expect(findings).toEqual([]);
    const unknownBase = readOne(
      { ...WHOLE, crown_base: 0 },
      { trees: { crown_base: { column: "crown_base", zero: "unknown" } } },
    );
    expect(unknownBase.tree.crownBase.basis).toBe("estimated");
  });
});

describe("implausible values", () => {
  it.each([
    ["height", 127.74, "implausible-value", "height"],
    ["height", 0.3, "implausible-value", "height"],
    ["dbh", 614, "implausible-value", null],
    ["crown_base", 13, "crown-base-above-top", "crownBase"],
    ["crown_base", 10.9, "crown-too-shallow", "crownBase"],
    ["crown_radius", 26, "implausible-value", "radius"],
    ["crown_radius", -4, "implausible-value", "radius"],
    ["height", "tall", "unreadable-value", "height"],
  ] as const)("%s %s is a finding, and its place is estimated and says so", (field, value, code, size) => {
    const { tree, findings } = readOne({ ...WHOLE, [field]: value });
    const finding = findings.find((one) => one.code === code);
    expect(finding).toMatchObject({ severity: "warning", field, feature: "1", value: String(value) });
    if (size === null) return;
    expect(tree[size].basis).toBe("estimated");
    expect(tree[size].source).toContain("the given value was set aside");
  });

  it("a height of 3 m is not believed of a stem 120 cm thick", () => {
    const { tree, codes } = readOne({ ...WHOLE, dbh: 120, height: 3, crown_base: 1 });
    expect(codes).toContain("height-too-low-for-dbh");
    expect(tree.height.valueM).toBeGreaterThan(10);
    expect(tree.crownBase).toMatchObject({ valueM: 1, basis: "measured" });
  });
});

describe("missing sizes", () => {
  it("come from the stem diameter by urban allometry", () => {
    const { tree, findings } = readOne({ id: 7, species: "Acer platanoides", dbh: 30 });
    expect(tree.height.basis).toBe("estimated");
    expect(tree.height.source).toMatch(
      /^urban allometry, Acer platanoides, from dbh: quad of \w+ \(.+\), \d+ trees, sigma /,
    );
    expect(tree.height.lowM).toBeLessThan(tree.height.valueM);
    expect(tree.crownBase.valueM).toBeGreaterThan(0);
    expect(findings.map((finding) => finding.reason)).toContain(
      "1 tree: height estimated from dbh by urban allometry.",
    );
  });

  it("name the region whose equations come first, once, and only where allometry was needed", () => {
    const regionOf = (place: (typeof OPTIONS)["place"]) =>
      read([{ species: "Acer platanoides", dbh: 30 }, { dbh: 20 }], {}, { ...OPTIONS, place })
        .findings.filter((one) => one.code === "allometry-region")
        .map((one) => one.reason);
    expect(regionOf({ hardinessZone: null, region: "US-CA", climate: "SoCalC" })).toEqual([
      "2 trees: sizes estimated by urban allometry; equations of SoCalC (Santa Monica) come first, by the climate given; others where it has none.",
    ]);
    expect(regionOf({ hardinessZone: null, region: null })[0]).toContain("no region is known");
    expect(readOne(WHOLE).codes).not.toContain("allometry-region");
  });

  it("keep the proportions of the equation under a measured height", () => {
    const free = readOne({ species: "Acer platanoides", dbh: 30 }).tree;
    const tall = readOne({ species: "Acer platanoides", dbh: 30, height: 2 * free.height.valueM }).tree;
    expect(tall.crownBase.valueM / tall.height.valueM).toBeCloseTo(free.crownBase.valueM / free.height.valueM, 9);
    expect(tall.crownBase.basis).toBe("estimated");
  });

  it("come from like trees as shares of the height where only that is known", () => {
    const like = [0.1, 0.2, 0.2, 0.2, 0.3].map((share, at) => ({
      ...WHOLE,
      id: at,
      height: 10,
      crown_base: 10 * share,
      crown_radius: 3,
    }));
    const { trees } = read([...like, { id: "x", species: "Acer platanoides", height: 20 }]);
    // Median share 0.2 of 20 m is 4 m; radius 3 m of 10 m, so 6 m of 20 m.
    expect(trees[5]!.crownBase).toMatchObject({ valueM: 4, basis: "estimated" });
    expect(trees[5]!.radius.valueM).toBeCloseTo(6, 12);
  });

  it("are the inventory's median, assumed and wide, for a tree known by position alone", () => {
    const others = [4, 6, 8, 10, 12].map((height, at) => ({
      ...WHOLE,
      id: at,
      height,
      crown_base: height / 4,
      crown_radius: height / 4,
    }));
    const { trees, findings } = read([...others, { id: "x" }]);
    expect(trees[5]!.height).toMatchObject({ valueM: 8, lowM: 4, highM: 12, basis: "assumed" });
    expect(trees[5]!.crownBase).toMatchObject({ valueM: 2, lowM: 1, highM: 3, basis: "assumed" });
    expect(findings.find((one) => one.code === "size-assumed" && one.field === "height")?.severity).toBe("warning");
  });

  it("are the database's median by type where the inventory measured nothing", () => {
    const { tree } = readOne({ species: "Picea pungens" });
    expect(tree.height.basis).toBe("assumed");
    expect(tree.height.source).toContain("Urban Tree Database");
  });

  it("of palms do not come from the stem", () => {
    const { tree } = readOne({ species: "Washingtonia robusta", dbh: 40 });
    expect(tree.form).toBe("palm");
    expect(tree.height.basis).toBe("assumed");
  });

  it("of hedges reach the ground", () => {
    const { tree } = readOne({ species: "Thuja plicata", form: "Hedge" });
    expect(tree.form).toBe("hedge");
    expect(tree.crownBase).toMatchObject({ valueM: 0, basis: "assumed" });
  });
});

describe("ids and places", () => {
  it("tell repeated ids apart and name trees without one after their place in the file", () => {
    const { trees, findings } = read([{ id: 5 }, { id: "5" }, {}, { id: "5~2" }, { id: 5 }]);
    expect(trees.map((tree) => tree.id)).toEqual(["5", "5~2", "trees.geojson#2", "5~2~2", "5~3"]);
    expect(findings.filter((one) => one.code === "duplicate-id").map((one) => one.feature)).toEqual([
      "5~2",
      "5~2~2",
      "5~3",
    ]);
    expect(findings.find((one) => one.code === "id-missing")?.reason).toContain("1 tree: ");
  });

  it("say when two trees stand on one point, and keep both", () => {
    const [first, second] = treeFeatures([{ id: "a" }, { id: "b" }]);
    const twins = [first!, { ...second!, geometry: first!.geometry }];
    const { trees, findings } = readTrees(twins, {}, usCommon(), OPTIONS);
    expect(trees).toHaveLength(2);
    expect(findings.find((one) => one.code === "same-place")?.reason).toContain("tree a");
  });
});

describe("trees too near to each other", () => {
  /** Trees along a meridian and a parallel from a corner, by centimeters north and east; a degree of latitude is 111,195 m. */
  const at = (places: readonly (readonly [northCm: number, eastCm: number])[], latDeg: number) =>
    treeFeatures(places.map((_, index) => ({ id: `t${index}` }))).map((feature, index) => ({
      ...feature,
      geometry: {
        type: "Point" as const,
        coordinates: [
          -123 + places[index]![1] / 11_119_500 / Math.cos((latDeg * Math.PI) / 180),
          latDeg + places[index]![0] / 11_119_500,
        ],
      },
    }));
  const found = (places: readonly (readonly [number, number])[], latDeg = 49) =>
    readTrees(at(places, latDeg), {}, usCommon(), OPTIONS).findings.filter((one) => one.code === "near-place");

  it("are named with the nearest one before them, across the squares of the search", () => {
    const [finding, ...more] = found([
      [0, 0],
      [0, 100],
      [20, 0],
    ]);
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ feature: "t2", severity: "warning" });
    expect(finding!.reason).toContain("20 cm from tree t0");
  });

  it.each([0, 49, -33.9, 69.6])("are the same as by comparing all with all, at latitude %d", (latDeg) => {
    let seed = 7;
    const next = (): number => {
      // Lehmer's generator: the same places in every run.
      seed = (seed * 48_271) % 2_147_483_647;
      return seed % 400;
    };
    const places = Array.from({ length: 60 }, () => [next(), next()] as const);
    const expected = places.filter((one, index) =>
      places.slice(0, index).some((other) => Math.hypot(one[0] - other[0], one[1] - other[1]) <= 30),
    );
    expect(expected.length).toBeGreaterThan(5);
    const same = places.filter((one, index) => places.slice(0, index).some((other) => `${one}` === `${other}`));
    expect(found(places, latDeg)).toHaveLength(expected.length - same.length);
  });
});

describe("state", () => {
  it("keeps dead trees as dead", () => {
    for (const row of [
      { alive: "Dead" },
      { condition: "Dead as of 09/2022" },
      { alive: "N" },
      { condition: "snag" },
      { species: "Dead" },
      { species: "Snag" },
      { common_name: "standing dead tree", alive: "Live" },
      { alive: 0 },
    ]) {
      expect(readOne(row).tree.condition).toBe("dead");
    }
    expect(readOne({ alive: "Live" }).tree.condition).toBe("unknown");
    expect(readOne({ condition: "GOOD", alive: "Y" }).tree.condition).toBe("good");
  });

  it("sets aside places where no tree stands", () => {
    const rows = [{ condition: "Removed as of 08/2022" }, { species: "Stump" }, { species: "Vacant site, small" }];
    const { trees, setAside, findings } = read(rows);
    expect(trees).toEqual([]);
    expect(findings).toEqual([]);
    expect(setAside.map((one) => [one.ordinal, one.finding.code])).toEqual([
      [0, "no-tree-there"],
      [1, "no-tree-there"],
      [2, "no-tree-there"],
    ]);
  });

  it("reads forms, also from a status column, and infers a shrub only when it must", () => {
    expect(readOne({ form: "Coniferous" }).tree).toMatchObject({ form: "conifer", traits: { matchedBy: "type" } });
    expect(readOne({ condition: "hedge" }).tree.form).toBe("hedge");
    expect(
      readOne({ form: "A" }, { trees: { form: { column: "form", values: { a: "deciduous" } } } }).tree.traits
        .matchedName,
    ).toBe("deciduous broadleaves");
    const low = { species: "Acer palmatum", height: 2, crown_base: 0 };
    const inferred = readOne(low);
    expect(inferred.tree.form).toBe("shrub");
    expect(inferred.codes).toContain("form-inferred");
    expect(readOne({ ...low, form: "tree" }).tree.form).toBe("tree");
    expect(readOne({ ...low, species: "Picea abies" }).tree.form).toBe("conifer");
  });

  it("reads defects in the trade's words and says which it did not understand", () => {
    const { tree, findings } = readOne({ defects: "Dead limbs; included bark, woodpecker hole" });
    expect(tree.defects).toEqual(["dead-limb", "included-bark"]);
    expect(findings.find((one) => one.code === "defect-not-understood")?.value).toBe("woodpecker hole");
  });

  it("puts a city's defect codes into the trade's words, one by one where a cell lists several", () => {
    const codes = { DL: "dead limb", IB: "included bark", "7": "sucker", OK: "none" };
    const defectsOf = (value: unknown) => {
      const columns = { trees: { defects: { column: "CODES", values: codes } } };
      const { tree, findings } = readOne({ CODES: value }, columns);
      return [tree.defects, findings.filter(({ code }) => code === "defect-not-understood").map((one) => one.value)];
    };
    expect(defectsOf("dl")).toEqual([["dead-limb"], []]);
    expect(defectsOf("DL, ib;7")).toEqual([["dead-limb", "included-bark", "sucker"], []]);
    expect(defectsOf(["IB", "DL"])).toEqual([["included-bark", "dead-limb"], []]);
    expect(defectsOf(7)).toEqual([["sucker"], []]);
    expect(defectsOf("OK")).toEqual([[], []]);
    expect(defectsOf("DL|XX")).toEqual([["dead-limb"], ["xx"]]);
  });

  it("knows every defect by its own word", () => {
    for (const defect of DEFECTS) expect(readOne({ defects: defect }).tree.defects).toEqual([defect]);
  });

  it("reads the other fields", () => {
    const { tree } = readOne({
      last_dose: 20,
      last_pruned: "2024-03-01",
      planted: 2019,
      stems: "3",
      protected: "yes",
      street: " Elm St ",
      headroom_over_road: "13 ft 6 in",
      caliper_at_planting: "2 in",
      ground_z: -1.5,
    });
    expect(tree).toMatchObject({ lastDoseShare: 0.2, lastPruned: "2024-03-01", planted: "2019-07-01", stems: 3 });
    expect(tree).toMatchObject({ isProtected: true, street: "Elm St", groundZM: -1.5 });
    // 13.5 ft * 0.3048 = 4.1148 m; 2 in = 0.0508 m.
    expect(tree.headroomOverRoadM).toBeCloseTo(4.1148, 12);
    expect(tree.caliperAtPlantingM).toBeCloseTo(0.0508, 12);
  });

  it("does not use dates that cannot be, lie ahead or can be read two ways", () => {
    const { trees, findings } = read([
      { planted: "2024-02-30" },
      { planted: "2026-06-16" },
      { planted: "3/4/2024" },
      { planted: "soon" },
    ]);
    expect(trees.map((tree) => tree.planted)).toEqual([null, null, null, null]);
    expect(findings.filter((one) => one.field === "planted").map((one) => one.code)).toEqual([
      "impossible-date",
      "future-date",
      "ambiguous-date",
      "unreadable-value",
    ]);
    const inTheUs = { ...OPTIONS, place: { hardinessZone: null, region: "US-WI" } };
    expect(readOne({ planted: "3/4/2024" }, {}, inTheUs).tree.planted).toBe("2024-03-04");
    // A bare year of the as-of date itself: its middle lies ahead, so the as-of date stands for it.
    expect(readOne({ planted: 2026 }).tree.planted).toBe("2026-06-15");
  });

  it("reads day and month in the order that the column's other dates prove, and says so", () => {
    const { trees, findings } = read([{ planted: "3/4/2024" }, { planted: "25/4/2024" }]);
    expect(trees.map((tree) => tree.planted)).toEqual(["2024-04-03", "2024-04-25"]);
    expect(findings.find((one) => one.code === "date-order-inferred")).toMatchObject({ value: "3/4/2024" });
    // Proofs of both orders prove neither.
    const mixed = read([{ planted: "3/4/2024" }, { planted: "25/4/2024" }, { planted: "4/25/2024" }]);
    expect(mixed.trees.map((tree) => tree.planted)).toEqual([null, "2024-04-25", "2024-04-25"]);
    expect(mixed.findings.map((one) => one.code)).toContain("ambiguous-date");
  });

  it("says when a mapped column is nowhere to be found", () => {
    const { codes } = readOne({ id: 1 }, { trees: { dbh: { column: "DIAM" } } });
    expect(codes[0]).toBe("column-not-found");
  });
});

describe("whatever comes in", () => {
  const hostile = fc.oneof(
    fc.constantFrom(
      "__proto__",
      "constructor",
      "toString",
      "valueOf",
      "<img src=x onerror=1>",
      "=1+1",
      "NaN",
      "1e999",
      "∞",
      "-0",
      "",
    ),
    fc.string({ maxLength: 20 }),
    fc.double(),
    fc.integer(),
    fc.boolean(),
    fc.constant(null),
    fc.constant({}),
    fc.array(fc.string(), { maxLength: 3 }),
  );
  const FIELDS = [
    "id",
    "species",
    "common_name",
    "form",
    "dbh",
    "height",
    "crown_base",
    "crown_radius",
    "crown_width_1",
    "planted",
    "alive",
    "condition",
    "defects",
    "stems",
    "last_dose",
    "protected",
  ];

  it("every feature ends as a tree with ordered sizes or is set aside, and nothing else is touched", () => {
    const row = fc.record(Object.fromEntries(FIELDS.map((field) => [field, hostile])), { requiredKeys: [] });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 12 }), (rows) => {
        const { trees, setAside, findings } = read(rows);
        expect(trees.length + setAside.length).toBe(rows.length);
        expect(new Set(trees.map((tree) => tree.id)).size).toBe(trees.length);
        for (const [at, tree] of trees.entries()) {
          expect(tree.row).toBe(at);
          for (const size of [tree.height, tree.crownBase, tree.radius]) {
            expect(size.lowM).toBeLessThanOrEqual(size.valueM);
            expect(size.highM).toBeGreaterThanOrEqual(size.valueM);
            expect(size.lowM).toBeGreaterThanOrEqual(0);
            expect(Number.isFinite(size.highM)).toBe(true);
          }
          expect(tree.height.valueM - tree.crownBase.valueM).toBeGreaterThanOrEqual(0.24);
          expect(tree.radius.valueM).toBeGreaterThan(0);
        }
        for (const finding of findings) expect((finding.value ?? "").length).toBeLessThanOrEqual(256);
      }),
      { seed: 1, numRuns: 300 },
    );
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  it("the same features give the same answer, and one bad feature changes no measured tree", () => {
    const rows = [WHOLE, { ...WHOLE, id: "2" }];
    expect(read(rows)).toEqual(read(rows));
    const bad = { id: {}, species: [], height: "??", dbh: "a".repeat(100_000) };
    const { trees } = read([...rows, bad]);
    expect(trees.slice(0, 2)).toEqual(read(rows).trees);
  });

  it("long texts and names cost no time", () => {
    const texts = [
      " ".repeat(50_000),
      `1${" ".repeat(50_000)}q`,
      "Acer ".repeat(20_000),
      "(".repeat(50_000),
      "'".repeat(50_000),
    ];
    const started = performance.now();
    read(
      texts.map((text) => ({
        species: text,
        common_name: text,
        dbh: text,
        planted: text,
        form: text,
        condition: text,
        defects: text,
      })),
    );
    // Linear work on texts cut to 256 characters takes milliseconds; the bound only tells it from a quadratic one.
    expect(performance.now() - started).toBeLessThan(1_000);
  });

  it("a feature that is no point is set aside", () => {
    const [feature] = treeFeatures([{}]);
    const line = { ...feature!, geometry: { type: "LineString", coordinates: [] } } as unknown as SourceFeature<never>;
    const { setAside } = readTrees([line], {}, usCommon(), OPTIONS);
    expect(setAside[0]?.finding.code).toBe("not-a-point");
  });
});
