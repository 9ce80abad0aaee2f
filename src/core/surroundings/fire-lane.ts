import type { SourceFeature } from "../model/feature.ts";
import type { Standard } from "../standard/standard.ts";
import type { Gathering } from "./gathering.ts";
import { isYes, readTag, readValue, wordOf } from "./read-value.ts";
import type { WayKind } from "./surroundings.ts";

/**
 * Whether a way is a fire lane: `only` where it is there for fire apparatus alone, `too` where others use it, `no`. Read from the column
 * `fire_lane`, a class such as `fire-lane`, or OpenStreetMap's `service=emergency_access` and `emergency=yes|designated`.
 */
export function fireLaneOf(gathering: Gathering, feature: SourceFeature, classWord: string): "only" | "too" | "no" {
  if (wordOf(readTag(feature, "service")) === "emergency-access" || CLASSES.has(classWord)) return "only";
  const given = readValue(gathering.columns, "roads", "fire_lane", feature);
  const emergency = wordOf(readTag(feature, "emergency"));
  const isSaid = isYes(given) || wordOf(given) === "designated" || EMERGENCY.has(emergency);
  if (!isSaid) return "no";
  return CLOSED.has(wordOf(readTag(feature, "access"))) ? "only" : "too";
}

const CLASSES = new Set(["fire-lane", "fire-access", "fire-apparatus-access-road", "emergency-access"]);
const EMERGENCY = new Set(["yes", "designated", "official"]);
const CLOSED = new Set(["no", "private", "emergency"]);

/**
 * The kind a way is measured as: a fire lane where it is nothing else, or where the standard keeps more height free over a fire lane than over
 * what it is otherwise. Its own kind where the standard has no rule for fire lanes.
 */
export function kindWithFireLane(standard: Standard, own: WayKind, fireLane: "only" | "too" | "no"): WayKind {
  const minimumOf = (kind: WayKind): number | null =>
    standard.rules.find((rule) => rule.kind === kind)?.minimumM ?? null;
  const fireM = minimumOf("fire-lane");
  if (fireLane === "no" || fireM === null) return own;
  const ownM = minimumOf(own);
  return (fireLane === "only" && own === "roadway") || ownM === null || fireM > ownM ? "fire-lane" : own;
}
