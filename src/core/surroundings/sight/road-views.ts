import { planeOf, planesAcross } from "../../plane/plane.ts";
import { spanOf } from "../../plane/shapes-builder.ts";
import type { Standard } from "../../standard/standard.ts";
import type { Centerline } from "../centerline.ts";
import type { BuiltView } from "./built-view.ts";
import { curveViews } from "./curves/curve-views.ts";
import type { Face } from "./faces/face.ts";
import { faceViews } from "./faces/face-views.ts";
import { RoadGraphs } from "./road-graphs.ts";

/** The views around curves and to faces of a whole network, and the faces that no approach was found for. */
export function roadViews(
  centerlines: readonly Centerline[],
  faces: readonly Face[],
  standard: Standard,
  drive: "right" | "left",
  graphs = new RoadGraphs(centerlines),
): { readonly views: readonly BuiltView[]; readonly loose: readonly Face[] } {
  const planes = new Set(faces.map(({ lonDeg }) => planeOf(lonDeg)));
  for (const { lines } of centerlines) {
    const [westDeg, eastDeg, latDeg] = spanOf(lines);
    for (const plane of planesAcross(westDeg, eastDeg, latDeg, 0)) planes.add(plane);
  }
  const views = new Map<string, BuiltView>();
  const loose: Face[] = [];
  for (const plane of [...planes].sort((one, other) => one - other)) {
    const graph = graphs.of(plane);
    const toFaces = faceViews(graph, centerlines, faces, plane, standard, drive);
    const found = [...curveViews(graph, centerlines, plane, standard, drive), ...toFaces.views];
    // The same thing drawn twice is looked at once.
    for (const view of found) if (!views.has(view.area.id)) views.set(view.area.id, view);
    loose.push(...toFaces.loose);
  }
  return { views: [...views.values()], loose };
}
