import type { Finding } from "../../model/finding.ts";
import type { Gathering } from "../gathering.ts";
import type { ControlSign } from "./read-signs.ts";
import type { BuiltTriangle } from "./scene.ts";
import { sightFinding } from "./sight-finding.ts";
import type { SightTriangles } from "./sight-triangles.ts";
import { triangleLines } from "./triangle-lines.ts";

/** Adds the triangles as envelopes, and tells what is assumed of them, what leaves the data and which signs found no leg. */
export function addSightTriangles(gathering: Gathering, { triangles, loose, count }: SightTriangles): void {
  for (const triangle of triangles) addTriangle(gathering, triangle);
  for (const sign of loose) gathering.findings.push(looseSign(sign, gathering.standard.sight.signReachM));
  if (count.assumed > 0) {
    gathering.findings.push(
      sightFinding("sight-control-assumed", "warning", "signs", null, `${count.assumed} of ${count.all}`, {
        reason: `${count.assumed} of ${count.all} intersections have a leg without a sign or signal on record; how its traffic is controlled is assumed from the road classes.`,
        whatToDo:
          "Give signs and signals for them. Until then conflicts in these triangles are possible at most: nobody is sent to cut before the control is confirmed.",
      }),
    );
  }
  if (count.roundabouts > 0) {
    gathering.findings.push(
      sightFinding("roundabout-not-measured", "info", "roads", null, String(count.roundabouts), {
        reason: `${count.roundabouts} entries of roundabouts have no sight triangle: their sight distances follow a method of their own.`,
        whatToDo: "Have a traffic engineer look at them.",
      }),
    );
  }
}

function addTriangle(gathering: Gathering, { area, lane, coveredM, atMost }: BuiltTriangle): void {
  const { sight, views } = gathering.standard;
  const lines = triangleLines(area, lane, coveredM, sight, views);
  const envelope = gathering.addEnvelope({
    type: "sight",
    withLayer: "sight",
    withId: area.id,
    withName: area.roadName,
    area,
    atMost,
    ...(lines === null ? {} : { lines }),
    hazard: "sight-hidden",
  });
  gathering.shapes.addArea(envelope, [area.ring.map(([lonDeg, latDeg]) => [lonDeg, latDeg])]);
  if (coveredM >= area.legM - 1e-6) return;
  gathering.findings.push(
    sightFinding("sight-leg-cut", "info", "roads", area.id, null, {
      reason: `${area.legM.toFixed(0)} m of ${area.roadName ?? "the major road"} must be seen, the centerline goes on for ${coveredM.toFixed(0)} m only.`,
      whatToDo: "If the road goes on beyond the data, add its centerline; the rest of the sight line is not checked.",
    }),
  );
}

function looseSign(sign: ControlSign, reachM: number): Finding {
  if (sign.kind === "signal") {
    return sightFinding("signal-without-intersection", "info", sign.layer, sign.id, null, {
      reason: `No intersection of the road centerlines lies within ${reachM.toFixed(1)} m of this signal.`,
      whatToDo: "If it is not a crossing between intersections, check its position and that the centerlines meet.",
    });
  }
  return sightFinding(`${sign.kind}-sign-without-leg`, "warning", sign.layer, sign.id, null, {
    reason: `No intersection of the road centerlines within ${reachM.toFixed(1)} m has a leg that this ${sign.kind} sign controls.`,
    whatToDo: "Check its position and facing, and that the centerlines meet; its sight triangles are missing.",
  });
}
