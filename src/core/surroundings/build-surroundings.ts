import type { ColumnMap } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import type { Finding } from "../model/finding.ts";
import type { PlanOptions, SetAside } from "../model/plan.ts";
import { CONFLICT_KINDS, type ConflictKind, LAYERS, type Layer } from "../model/terms.ts";
import type { Standard } from "../standard/standard.ts";
import { Gathering } from "./gathering.ts";
import { noteUnreadable } from "./note-unreadable.ts";
import { readBuildings } from "./read-buildings.ts";
import { readConductors } from "./read-conductors.ts";
import { readWays, type WaysRead } from "./read-ways.ts";
import { addRoadViews } from "./sight/add-road-views.ts";
import { addSightTriangles } from "./sight/add-sight-triangles.ts";
import { readSigns } from "./sight/read-signs.ts";
import { RoadGraphs } from "./sight/road-graphs.ts";
import { roadViews } from "./sight/road-views.ts";
import { sightTriangles } from "./sight/sight-triangles.ts";
import type { Surroundings } from "./surroundings.ts";

/**
 * What stands around the trees, from the layers given: placed in fixed local planes, indexed, with every assumption labeled. Features that
 * cannot be used are set aside; a layer that is absent leaves its kinds unchecked, and an empty one does not.
 */
export function buildSurroundings(
  layers: { readonly [L in Layer]?: readonly SourceFeature[] },
  columns: ColumnMap,
  standard: Standard,
  options: PlanOptions,
): { surroundings: Surroundings; setAside: SetAside[]; findings: Finding[] } {
  const gathering = new Gathering(columns, standard, options);
  readBuildings(gathering, layers.buildings ?? []);
  const roads = readWays(gathering, "roads", layers.roads ?? [], layers.paths !== undefined);
  const paths = readWays(gathering, "paths", layers.paths ?? []);
  for (const layer of ["signs", "signals", "conductors"] as const)
    noteUnreadable(gathering, layer, layers[layer] ?? []);
  const controls = [
    ...readSigns(gathering, "signs", layers.signs ?? []),
    ...readSigns(gathering, "signals", layers.signals ?? []),
  ];
  readConductors(gathering, layers.conductors ?? []);

  const centerlines = [...roads.centerlines, ...paths.centerlines];
  const graphs = new RoadGraphs(centerlines);
  const sight = sightTriangles(centerlines, controls, standard, options.drive, graphs);
  addSightTriangles(gathering, sight);
  const views = roadViews(centerlines, gathering.faces, standard, options.drive, graphs);
  addRoadViews(gathering, views);

  const given = new Set(LAYERS.filter((layer) => layers[layer] !== undefined));
  return {
    surroundings: {
      features: gathering.features,
      sight: [...sight.triangles, ...views.views].map(({ area }) => area),
      envelopes: gathering.envelopes,
      planes: gathering.shapes.finish(),
      poles: gathering.poles,
      given,
      notChecked: notChecked(given, gathering, centerlines.length > 0, roads),
    },
    setAside: gathering.setAside,
    findings: gathering.findings,
  };
}

function notChecked(
  given: ReadonlySet<Layer>,
  { envelopes, faces }: Gathering,
  hasCenterlines: boolean,
  roads: WaysRead,
): ConflictKind[] {
  const missing = new Set<ConflictKind>();
  // What is placed beside roads by assumption does not say that there is nothing elsewhere.
  const hasKind = (kind: ConflictKind): boolean =>
    envelopes.some((one) => one.type === "way" && one.kind === kind && one.beside === undefined);
  if (!given.has("buildings")) missing.add("building-side").add("building-roof");
  if (!given.has("roads") && !hasKind("roadway")) missing.add("roadway");
  if (!roads.hasBusColumn && !hasKind("bus-route")) missing.add("bus-route");
  if (!roads.saysFireLanes && !hasKind("fire-lane")) missing.add("fire-lane");
  if (!given.has("paths")) {
    if (!hasKind("walkway")) missing.add("walkway");
    if (!hasKind("bikeway")) missing.add("bikeway");
  }
  if (!hasCenterlines) missing.add("sight-triangle").add("curve");
  if (!hasCenterlines || !given.has("signs")) missing.add("sign");
  if (!hasCenterlines || !(given.has("signals") || faces.some(({ kind }) => kind === "signal"))) missing.add("signal");
  if (!given.has("conductors")) missing.add("conductor");
  return CONFLICT_KINDS.filter((kind) => missing.has(kind));
}
