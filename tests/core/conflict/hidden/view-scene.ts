import { findConflicts } from "../../../../src/core/conflict/find-conflicts.ts";
import type { HiddenShare, SightArea, SightKind } from "../../../../src/core/model/surroundings.ts";
import { treeTable } from "../../../../src/core/model/tree-table.ts";
import type { Tree } from "../../../../src/core/model/trees.ts";
import { ShapesBuilder } from "../../../../src/core/plane/shapes-builder.ts";
import type { Standard } from "../../../../src/core/standard/standard.ts";
import type { Envelope } from "../../../../src/core/surroundings/surroundings.ts";
import { at, OPTIONS, type Points, ring, STANDARD, type TreeGiven, tree } from "../scene.ts";

/** A standard that lets no trunk off, so that each is reckoned with. */
export const NO_EXEMPTION: Standard = {
  ...STANDARD,
  sight: { ...STANDARD.sight, trunks: { maxWidthM: 0, maxCount: null } },
};

export interface ViewScene {
  readonly kind: SightKind;
  readonly lane: Points;
  readonly lengthM: number;
  readonly fixed: readonly [number, number] | null;
  readonly aheadM?: number;
  readonly laneEndM: number;
  readonly otherEndM: readonly [number, number];
  readonly trees: readonly (TreeGiven & { readonly dbhM?: number })[];
  readonly walls?: readonly { readonly ring: Points; readonly bottomM: number; readonly heightM: number }[];
  readonly standard?: Standard;
}

export const pointOf = (x: number, y: number): readonly [number, number] => {
  const [lonDeg, latDeg] = at(x, y);
  return [lonDeg!, latDeg!];
};

/** What the conflict search finds of one area with these lines of sight; the area itself is a square that holds the whole scene. */
export function lookAlong(scene: ViewScene): ReturnType<typeof findConflicts> & { hidden: HiddenShare } {
  const square: Points = [
    [-400, -400],
    [400, -400],
    [400, 400],
    [-400, 400],
  ];
  const isFace = scene.kind === "sign" || scene.kind === "signal";
  const area: SightArea = {
    id: "area",
    kind: scene.kind,
    movement: isFace ? "sign-face" : scene.kind === "curve" ? "curve" : "left-turn",
    roadName: "Test Street",
    direction: null,
    control: null,
    controlSource: "scene",
    designSpeedKmh: 50,
    legM: scene.lengthM,
    ring: ring(square).map(([lonDeg, latDeg]) => [lonDeg!, latDeg!] as const),
    windowLowM: 0.6,
    windowHighM: 2.4,
    ruleId: isFace ? "sign-view" : scene.kind === "curve" ? "curve-window" : "sight-window",
    doubt: null,
    hidden: null,
  };
  const envelopes: Envelope[] = [
    {
      type: "sight",
      withLayer: "sight",
      withId: area.id,
      withName: area.roadName,
      area,
      lines: {
        lane: scene.lane.map(([x, y]) => pointOf(x, y)),
        lengthM: scene.lengthM,
        fixed: scene.fixed === null ? null : pointOf(...scene.fixed),
        aheadM: scene.aheadM ?? 0,
        laneEndM: scene.laneEndM,
        otherEndM: scene.otherEndM,
      },
      hazard: isFace ? "sign-hidden" : "sight-hidden",
    },
  ];
  const shapes = new ShapesBuilder();
  shapes.addArea(0, [ring(square)]);
  for (const wall of scene.walls ?? []) {
    shapes.addArea(envelopes.length, [ring(wall.ring)]);
    envelopes.push({
      type: "building",
      withLayer: "buildings",
      withId: `b${envelopes.length}`,
      withName: null,
      heightM: wall.heightM,
      heightBasis: "measured",
      bottomM: wall.bottomM,
      bottomBasis: "measured",
    });
  }
  const trees = scene.trees.map((given, row): Tree => ({ ...tree(given, row), dbhM: given.dbhM ?? null }));
  const found = findConflicts(
    treeTable(trees),
    {
      features: [],
      sight: [area],
      envelopes,
      planes: shapes.finish(),
      poles: [],
      given: new Set(["trees", "roads", "buildings"]),
      notChecked: [],
    },
    scene.standard ?? NO_EXEMPTION,
    OPTIONS,
    new Map(),
  );
  return { ...found, hidden: found.sight[0]!.hidden! };
}
