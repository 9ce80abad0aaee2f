import type { Gathering } from "../gathering.ts";
import type { BuiltView } from "./built-view.ts";
import type { Face } from "./faces/face.ts";
import { sightFinding } from "./sight-finding.ts";

/** Shorter than this, meters, nothing is missing of a view. */
const SLACK_M = 1;

/** Adds the views around curves and to faces as envelopes, and tells what is assumed of them, what leaves the data and which faces nobody drives toward. */
export function addRoadViews(
  gathering: Gathering,
  { views, loose }: { readonly views: readonly BuiltView[]; readonly loose: readonly Face[] },
): void {
  let assumed = 0;
  for (const view of views) {
    const { area, lines, name, atMost, hazard, wantedM } = view;
    const envelope = gathering.addEnvelope({
      type: "sight",
      withLayer: "sight",
      withId: area.id,
      withName: name,
      area,
      atMost,
      lines,
      hazard,
    });
    gathering.shapes.addArea(envelope, [area.ring.map(([lonDeg, latDeg]) => [lonDeg, latDeg])]);
    if (area.kind !== "curve" && atMost === "possible") assumed += 1;
    if (lines.lengthM >= wantedM - SLACK_M) continue;
    gathering.findings.push(
      sightFinding("view-partly-checked", "info", "roads", area.id, null, {
        reason: `${wantedM.toFixed(0)} m of the approach should be looked along, the centerline holds ${lines.lengthM.toFixed(0)} m.`,
        whatToDo: "If the road goes on beyond the data, add its centerline; the rest of the view is not checked.",
      }),
    );
  }
  for (const face of loose) {
    gathering.findings.push(
      sightFinding("face-without-approach", "info", face.layer, face.id, null, {
        reason:
          "No road centerline near this face has traffic that comes toward it; whether trees hide it is not checked.",
        whatToDo: "Check its position and facing, and that the centerlines are there.",
      }),
    );
  }
  if (assumed > 0) {
    gathering.findings.push(
      sightFinding("facing-assumed", "warning", "signs", null, `${assumed} of ${views.filter(isFace).length}`, {
        reason: `For ${assumed} of ${views.filter(isFace).length} views to signs and signals the facing, or the side of the road, is not recorded and assumed.`,
        whatToDo: "Give the facing and the true position. Until then conflicts with these views are possible at most.",
      }),
    );
  }
}

const isFace = ({ area }: BuiltView): boolean => area.kind !== "curve";
