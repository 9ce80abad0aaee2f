import { describe, expect, test } from "vitest";
import type { Drawing, Shape } from "../../../src/core/crown/drawing.ts";
import { drawPlanInset } from "../../../src/core/crown/plan-inset.ts";
import type { SectionSubject } from "../../../src/core/crown/section/subject.ts";
import { drawSection } from "../../../src/core/crown/section-drawing.ts";
import { sketchConflict, sketchPrescription, sketchTree } from "../packet/small-plan.ts";

const OPTIONS = { units: "metric", widthMm: 90, heightMm: 75 } as const;
/** Coordinates are written to 0.01 mm, so a difference of two is off by at most 0.01. */
const WRITTEN_MM = 0.011;

const tree = sketchTree(0, {
  id: "T-1",
  eastM: 0,
  species: "Quercus rubra",
  commonName: "Red oak",
  heightM: 14,
  baseM: 3,
  radiusM: 5,
  dbhM: 0.4,
});
const conflict = sketchConflict(tree, {
  kind: "roadway",
  withId: "r1",
  withName: "Oak Street",
  measuredM: 3.2,
  minimumM: 4.2672,
  clearToM: 4.572,
  distanceM: 2,
  bearingDeg: 90,
});
const subject = (more: Partial<SectionSubject> = {}): SectionSubject => ({
  tree,
  conflict,
  prescription: sketchPrescription(tree, [conflict], {
    remedy: "shorten",
    doseShare: 0.14,
    liftToM: 4.572,
    why: "Branches hang low.",
    where: "Street side",
  }),
  setting: null,
  ...more,
});

const paths = (drawing: Drawing) =>
  drawing.shapes.filter((shape): shape is Extract<Shape, { type: "path" }> => shape.type === "path");
const texts = (drawing: Drawing) => drawing.shapes.flatMap((shape) => (shape.type === "text" ? [shape] : []));

function bounds(d: string) {
  const numbers = (d.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
  const xs = numbers.filter((_, at) => at % 2 === 0);
  const ys = numbers.filter((_, at) => at % 2 === 1);
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

const crownOf = (drawing: Drawing) => bounds(paths(drawing).find(({ fill }) => fill === "crown")!.d);

describe("drawSection", () => {
  test("is at true scale: one length in meters is the same on paper across and up", () => {
    const crown = crownOf(drawSection(subject(), OPTIONS));
    // East radius 0.9 x 5 m, west radius 5 m; height 14 m less base 3 m.
    const mmPerM = (crown.right - crown.left) / 9.5;
    expect((crown.bottom - crown.top) / mmPerM).toBeCloseTo(11, 1);
    expect(Math.abs(crown.bottom - crown.top - 11 * mmPerM)).toBeLessThan(2 * WRITTEN_MM);
  });

  test("hatches exactly what is cut: from the curb out, below the target", () => {
    const drawing = drawSection(subject(), OPTIONS);
    const crown = crownOf(drawing);
    const mmPerM = (crown.right - crown.left) / 9.5;
    const axis = crown.left + 5 * mmPerM;
    const ground = crown.bottom + 3 * mmPerM;
    const removed = bounds(paths(drawing).find(({ hatched }) => hatched === true)!.d);
    expect(Math.abs(removed.left - (axis + 2 * mmPerM))).toBeLessThan(2 * WRITTEN_MM);
    expect(Math.abs(removed.top - (ground - 4.572 * mmPerM))).toBeLessThan(2 * WRITTEN_MM);
    // The ellipse at 4.572 m: u = 1.572 / 11, radius 4.5 sqrt(1 - (2u - 1)^2) = 3.149 m.
    expect((removed.right - axis) / mmPerM).toBeCloseTo(3.149, 2);
  });

  test("says the share, the heights and the basis", () => {
    const estimated = sketchTree(0, {
      id: "T-1",
      eastM: 0,
      species: "Quercus rubra",
      commonName: "Red oak",
      heightM: 14,
      baseM: 3,
      radiusM: 5,
      dbhM: 0.4,
      basis: "estimated",
    });
    const said = texts(drawSection(subject({ tree: estimated }), OPTIONS)).map(({ text }) => text);
    expect(said).toContain("14 % comes off");
    expect(said).toContain("needs 4.3 m");
    expect(said).toContain("now 3.2 m");
    expect(said).toContain("clear to 4.6 m");
    expect(said).toContain("14.0 m est.");
  });

  test("draws a measured edge solid and an estimated one dashed", () => {
    const thick = (drawing: Drawing) =>
      paths(drawing).filter(({ stroke, fill }) => stroke?.widthMm === 0.35 && fill === "none");
    const isDashed = (drawing: Drawing) => thick(drawing).some(({ stroke }) => stroke?.dashMm !== undefined);
    expect(isDashed(drawSection(subject(), OPTIONS))).toBe(false);
    const estimated = { ...tree, height: { ...tree.height, basis: "estimated" as const } };
    expect(isDashed(drawSection(subject({ tree: estimated }), OPTIONS))).toBe(true);
  });

  test("hatches nothing for a referred tree and says so", () => {
    const drawing = drawSection(
      subject({ prescription: sketchPrescription(tree, [conflict], null, "Too much.") }),
      OPTIONS,
    );
    expect(paths(drawing).some(({ hatched }) => hatched === true)).toBe(false);
    expect(drawing.description).toContain("referred to a licensed arborist");
  });

  test("says what the cut reaches before a wall, and no meters past it", () => {
    const wall = sketchConflict(tree, {
      kind: "building-side",
      withId: "b1",
      withName: "Elm House",
      measuredM: -1.4,
      minimumM: 0.9144,
      clearToM: 1.8288,
      distanceM: 3.6,
      bearingDeg: 270,
    });
    const [task] = sketchPrescription(tree, [wall], {
      remedy: "shorten",
      doseShare: 0.1,
      why: "Branches touch the wall.",
      where: "House side",
    }).tasks;
    const prescription = {
      ...sketchPrescription(tree, [wall], null),
      tasks: [{ ...task!, targetM: 2.4144 }],
    };
    const drawing = drawSection(subject({ conflict: wall, prescription }), OPTIONS);
    const said = texts(drawing).map(({ text }) => text);
    expect(said).toContain("touches the wall");
    expect(said).toContain("cut to 2.4 m");
    expect(drawing.description).toContain("Branches touch it; 0.9 m is needed, and the work clears to 2.4 m.");
  });

  test("hangs the crown where it was measured over the road, and says so", () => {
    // The road begins 2 m out of the 4.5 m of the east side: the underside there is (1 - sqrt(1 - 0.444^2)) / 2 of the crown above its
    // base. The model, with its base at 3 m, has it at 3.57 m; measured were 4.2 m.
    const lowest = (1 - Math.sqrt(1 - (2 / 4.5) ** 2)) / 2;
    const measured = { ...tree, headroomOverRoadM: 4.2 };
    for (const kind of ["roadway", "bus-route", "fire-lane"] as const) {
      const over = { ...conflict, kind, measuredM: 4.2 };
      const drawing = drawSection(subject({ tree: measured, conflict: over }), OPTIONS);
      const { top, bottom, left, right } = crownOf(drawing);
      // The crown is 4.5 m wide to the east and 5 m to the west.
      const mmPerM = (right - left) / 9.5;
      const baseM = (4.2 - lowest * 14) / (1 - lowest);
      expect(Math.abs(bottom - top - (14 - baseM) * mmPerM)).toBeLessThan(2 * WRITTEN_MM);
      expect(drawing.description).toContain("hang 4.2 m above it");
      expect(drawing.description).toContain("The crown is drawn as it was measured over the road.");
    }
  });

  test("draws the model where the road shown is another, and beside walls", () => {
    const measured = { ...tree, headroomOverRoadM: 4.2 };
    const model = crownOf(drawSection(subject(), OPTIONS));
    expect(crownOf(drawSection(subject({ tree: measured }), OPTIONS))).toEqual(model);
    const walk = { ...conflict, kind: "walkway" as const, measuredM: 4.2 };
    expect(drawSection(subject({ tree: measured, conflict: walk }), OPTIONS).description).not.toContain("measured");
  });

  test("says what of the target is for leaf, rain and ice", () => {
    const over = { ...conflict, droopAllowanceM: 0.2 };
    expect(drawSection(subject({ conflict: over }), OPTIONS).description).toContain(
      "the work clears to 4.6 m, for branches hang up to 0.2 m lower in leaf, rain or ice.",
    );
    expect(drawSection(subject(), OPTIONS).description).toContain("the work clears to 4.6 m. ");
  });

  test("gives no headroom to a crown that is not over the road yet", () => {
    const far = { ...conflict, distanceM: 6, measuredM: 8.5 };
    expect(drawSection(subject({ conflict: far }), OPTIONS).description).toContain(
      "Branches do not reach over it yet;",
    );
  });

  test("shows a tree without conflict", () => {
    const drawing = drawSection(subject({ conflict: null }), OPTIONS);
    expect(paths(drawing).some(({ fill }) => fill === "clearance")).toBe(false);
    expect(drawing.description).toContain("No conflict is shown");
  });

  test("is told in words: sizes, thing, clearance and what comes off", () => {
    expect(drawSection(subject(), OPTIONS).description).toBe(
      "Side view at true scale of Red oak T-1: height 14.0 m, crown base 3.0 m, crown radius 5.0 m. " +
        "To the east, 2.0 m from the trunk: roadway Oak Street. Branches hang 3.2 m above it; 4.3 m is needed, " +
        "and the work clears to 4.6 m. Shortening branch tips takes about 14 % of the live crown (hatched).",
    );
  });

  test("draws a wire where it comes nearest at rest, and says so; one that wind swings stays at rest", () => {
    const wire = sketchConflict(tree, {
      kind: "conductor",
      withId: "w1",
      measuredM: 0.4,
      minimumM: 0.9,
      clearToM: 3,
      distanceM: 5,
      bearingDeg: 90,
    });
    const point = { lonDeg: 0, latDeg: 0, heightM: 8.5 };
    const drawn = (loadCase: "maximum-temperature" | "wind-6-psf") =>
      drawSection(
        subject({ conflict: { ...wire, loadCase, nearest: { thing: point, crown: point } }, heightOfThingM: 11 }),
        OPTIONS,
      );
    const hot = drawn("maximum-temperature");
    expect(hot.description).toContain("The wire is drawn where it comes nearest, at rest at 54 °C.");
    expect(texts(hot).map(({ text }) => text)).toContain("wire at 54 °C");
    const blown = drawn("wind-6-psf");
    expect(blown.description).toContain(
      "The wire is drawn at rest; it comes nearest in a wind of 78 km/h (287 Pa) at 16 °C.",
    );
    expect(texts(blown).map(({ text }) => text)).toContain("wire at rest");
    // The clear-to circle about the wire is the largest round shape: its middle lies at 8.5 m when hot, at 11 m otherwise.
    const middleMm = (drawing: Drawing): number => {
      const block = bounds(paths(drawing).find(({ fill }) => fill === "clearance")!.d);
      return (block.top + block.bottom) / 2;
    };
    const mmPerM = (drawing: Drawing): number => {
      const block = bounds(paths(drawing).find(({ fill }) => fill === "clearance")!.d);
      return (block.bottom - block.top) / 6;
    };
    const groundMm = (drawing: Drawing): number => crownOf(drawing).bottom + 3 * mmPerM(drawing);
    expect((groundMm(hot) - middleMm(hot)) / mmPerM(hot)).toBeCloseTo(8.5, 1);
    expect((groundMm(blown) - middleMm(blown)) / mmPerM(blown)).toBeCloseTo(11, 1);
  });

  test.each(["roadway", "walkway", "building-side", "building-roof", "conductor", "sight-triangle"] as const)(
    "keeps %s inside the sheet at 60 mm, without a label on another",
    (kind) => {
      const other = sketchConflict(tree, {
        kind,
        withId: "x",
        measuredM: 0.4,
        minimumM: 0.9,
        clearToM: 1.8,
        distanceM: 3,
        bearingDeg: 45,
        datumM: kind === "building-roof" ? 5 : 0,
      });
      const prescription = sketchPrescription(tree, [other], {
        remedy: "shorten",
        doseShare: 0.05,
        why: "",
        where: "",
      });
      const drawing = drawSection(
        { ...subject(), conflict: other, prescription, heightOfThingM: 7 },
        { units: "us", widthMm: 60, heightMm: 60 },
      );
      for (const shape of paths(drawing)) {
        const box = bounds(shape.d);
        expect(Number.isFinite(box.left + box.right + box.top + box.bottom)).toBe(true);
        expect(box.left).toBeGreaterThanOrEqual(-0.5);
        expect(box.right).toBeLessThanOrEqual(60.5);
      }
      const column = texts(drawing).filter(
        ({ anchor, rotateDeg, xMm }) => anchor === "start" && rotateDeg === undefined && xMm > 35,
      );
      const lines = column.map(({ yMm }) => yMm).sort((a, b) => a - b);
      for (let at = 1; at < lines.length; at += 1) expect(lines[at]! - lines[at - 1]!).toBeGreaterThan(2.1);
      for (const { sizeMm } of texts(drawing)) expect(sizeMm).toBeGreaterThanOrEqual(2.1);
    },
  );
});

test("drawPlanInset keeps the crown's shape, north up", () => {
  const drawing = drawPlanInset(subject(), { units: "metric", sizeMm: 30 });
  const crown = bounds(paths(drawing).find(({ fill }) => fill === "crown")!.d);
  // North 5 m and south 5.5 m; east 4.5 m and west 5 m.
  expect((crown.bottom - crown.top) / (crown.right - crown.left)).toBeCloseTo(10.5 / 9.5, 2);
  expect(drawing.description).toContain("to the east, 2.0 m from the trunk");
});

describe("a crown beside its trunk", () => {
  const leaning = { ...tree, crownEastM: 2, crownNorthM: 0, stemRunM: 1.2 };
  const beside = { ...conflict, distanceM: 1, trunkDistanceM: 3 };

  test("stands that far from its trunk at the drawing's scale, and distances count from the trunk", () => {
    const drawing = drawSection(subject({ tree: leaning, conflict: beside }), OPTIONS);
    const crown = crownOf(drawing);
    // The crown is 11 m deep.
    const mmPerM = (crown.bottom - crown.top) / 11;
    // Of the shapes in paper's color the trunk is the tallest.
    const [trunk] = paths(drawing)
      .filter(({ fill }) => fill === "paper")
      .map(({ d }) => bounds(d))
      .sort((one, other) => one.top - other.top) as [ReturnType<typeof bounds>];
    const groundMm = crown.bottom + 3 * mmPerM;
    expect(trunk.bottom).toBeCloseTo(groundMm, 1);
    // The foot 2 m left of the crown's axis, the stem leaning over it to the right.
    const axisMm = crown.left + leaning.radii.westM * mmPerM;
    const footMm = trunk.left + 0.2 * 1.25 * mmPerM;
    expect((axisMm - footMm) / mmPerM).toBeCloseTo(2, 1);
    expect(trunk.right).toBeGreaterThan(axisMm);
    expect(drawing.description).toContain("The crown stands 2.0 m east of the trunk.");
    expect(drawing.description).toContain("3.0 m from the trunk: roadway Oak Street");
  });

  test("has its trunk beside the middle of the plan inset", () => {
    const inset = drawPlanInset(subject({ tree: leaning, conflict: beside }), { units: "metric", sizeMm: 40 });
    const trunk = bounds(paths(inset).find(({ fill }) => fill === "ink")!.d);
    expect((trunk.left + trunk.right) / 2).toBeLessThan(20 - 3);
    expect(inset.description).toContain("3.0 m from the trunk");
  });
});
