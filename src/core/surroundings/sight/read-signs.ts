import { columnValue } from "../../model/column-map.ts";
import type { SourceFeature } from "../../model/feature.ts";
import { parseDecimal } from "../../units/parse-length.ts";
import { type Gathering, plainFeature } from "../gathering.ts";
import { readLengthM, readTag, readValue, textOf, wordOf } from "../read-value.ts";
import { controlKindOf, scopeOf } from "./control-kind.ts";
import { faceKindOf } from "./faces/face-kind.ts";

/** A sign or signal that controls traffic at an intersection. */
export interface ControlSign {
  readonly id: string;
  readonly layer: "signs" | "signals";
  readonly kind: "stop" | "yield" | "signal";
  /** Whether it says that every leg stops, or that only the lesser roads do. */
  readonly scope: "all-way" | "minor" | null;
  readonly lonDeg: number;
  readonly latDeg: number;
  /** Direction the face looks to, degrees clockwise from north; or which way the traffic it controls runs along its line; or unknown. */
  readonly facing: number | "forward" | "backward" | null;
}

/** Adds signs or signals and answers those among them that control intersections, whichever of the two layers they are in. */
export function readSigns(
  gathering: Gathering,
  layer: "signs" | "signals",
  features: readonly SourceFeature[],
): ControlSign[] {
  const controls: ControlSign[] = [];
  for (const feature of features) {
    if (feature.geometry.type !== "Point") {
      gathering.leaveOutGeometry(feature, `${layer} as Point`);
      continue;
    }
    const id = gathering.idOf(feature);
    const kind = readValue(gathering.columns, layer, "kind", feature, "highway", "traffic_sign");
    const heightM = readLengthM(gathering.columns, layer, "height", feature);
    gathering.features.push({
      ...plainFeature(id, feature, textOf(kind), layer === "signs" ? "sign" : "signal"),
      heightM,
      heightSource: heightM === null ? null : "height",
    });
    const control = controlKindOf(layer, kind);
    const [lonDeg, latDeg] = feature.geometry.coordinates;
    const facing = facingOf(gathering, layer, feature);
    const face = faceKindOf(layer, kind, control);
    if (face !== null)
      gathering.faces.push({ id, layer, kind: face, lonDeg: lonDeg!, latDeg: latDeg!, bottomM: heightM, facing });
    if (control === null) continue;
    controls.push({
      id,
      layer,
      kind: control,
      scope: control === "signal" ? null : scopeOf(kind, readTag(feature, "stop")),
      lonDeg: lonDeg!,
      latDeg: latDeg!,
      facing,
    });
  }
  return controls;
}

const POINTS = ["n", "nne", "ne", "ene", "e", "ese", "se", "sse", "s", "ssw", "sw", "wsw", "w", "wnw", "nw", "nnw"];
const WORDS: ReadonlyMap<string, string> = new Map([
  ["north", "n"],
  ["northeast", "ne"],
  ["east", "e"],
  ["southeast", "se"],
  ["south", "s"],
  ["southwest", "sw"],
  ["west", "w"],
  ["northwest", "nw"],
]);

function facingOf(gathering: Gathering, layer: ControlSign["layer"], feature: SourceFeature): ControlSign["facing"] {
  const given =
    columnValue(gathering.columns, layer, "facing", feature.properties) ??
    readTag(feature, "direction") ??
    readTag(feature, "traffic_signals:direction");
  if (typeof given === "number") return Number.isFinite(given) ? ((given % 360) + 360) % 360 : null;
  const word = wordOf(given);
  if (word === "forward" || word === "backward") return word;
  const point = POINTS.indexOf(WORDS.get(word) ?? word);
  if (point >= 0) return point * 22.5;
  const degrees = parseDecimal(word);
  return degrees === null ? null : ((degrees % 360) + 360) % 360;
}
