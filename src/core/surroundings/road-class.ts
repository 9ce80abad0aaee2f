import { ROAD_CLASSES, type RoadClass } from "../model/surroundings.ts";
import { wordOf } from "./read-value.ts";
import type { WayKind } from "./surroundings.ts";

/** What a class name makes of a feature: a road of a class, a path, or nothing a tree could be too close to. */
export type ClassMeaning =
  | { readonly way: "road"; readonly roadClass: RoadClass; readonly isBus: boolean }
  | { readonly way: "path"; readonly kind: Extract<WayKind, "walkway" | "bikeway"> }
  | { readonly way: "none" };

const ROADS: Readonly<Record<RoadClass, readonly string[]>> = {
  freeway: ["motorway", "motorway-link", "interstate", "expressway", "highway", "s1100", "s1630", "ramp"],
  "major-arterial": [
    "trunk",
    "trunk-link",
    "primary",
    "primary-link",
    "major",
    "arterial",
    "principal-arterial",
    "primary-arterial",
    "s1200",
  ],
  "minor-arterial": ["secondary", "secondary-link", "secondary-arterial"],
  collector: ["tertiary", "tertiary-link", "major-collector", "minor-collector", "distributor", "busway"],
  "local-residential": ["residential", "local", "minor", "street", "road", "living-street", "neighborhood", "s1400"],
  "local-access": ["unclassified", "access", "local-access-road", "cul-de-sac", "s1740", "private", "track", "s1500"],
  "service-alley": [
    "service",
    "alley",
    "lane",
    "driveway",
    "parking-aisle",
    "fire-lane",
    "fire-access",
    "fire-apparatus-access-road",
    "emergency-access",
    "emergency-bay",
    "s1640",
    "s1730",
  ],
  "rural-two-lane": ["rural", "county"],
};

const WALKWAYS = [
  "footway",
  "sidewalk",
  "crosswalk",
  "pedestrian",
  "path",
  "pathway",
  "ppath",
  "ppathl",
  "walkway",
  "walk",
  "steps",
  "stairs",
  "stairway",
  "trail",
  "promenade",
  "plaza",
  "corridor",
  "bridleway",
  "crossing",
  "street-crossing",
  "s1710",
  "s1720",
];
const BIKEWAYS = [
  "cycleway",
  "bikeway",
  "bike",
  "bicycle",
  "bike-path",
  "bike-lane",
  "shared",
  "shared-use",
  "shared-path",
  "shared-use-path",
  "multi-use",
  "multi-use-path",
  "greenway",
  "s1820",
];
const NOTHING = [
  "construction",
  "proposed",
  "planned",
  "abandoned",
  "razed",
  "raceway",
  "platform",
  "elevator",
  "services",
  "rest-area",
];

const MEANINGS: ReadonlyMap<string, ClassMeaning> = new Map<string, ClassMeaning>([
  ...ROAD_CLASSES.map((name): [string, ClassMeaning] => [name, road(name)]),
  ...ROAD_CLASSES.flatMap((name) => ROADS[name].map((word): [string, ClassMeaning] => [word, road(name)])),
  ["busway", { way: "road", roadClass: "collector", isBus: true }],
  ["bus-guideway", { way: "road", roadClass: "collector", isBus: true }],
  ...WALKWAYS.map((word): [string, ClassMeaning] => [word, { way: "path", kind: "walkway" }]),
  ...BIKEWAYS.map((word): [string, ClassMeaning] => [word, { way: "path", kind: "bikeway" }]),
  ...NOTHING.map((word): [string, ClassMeaning] => [word, { way: "none" }]),
]);

/**
 * What a class name means, or null when it is not known: this project's road classes, OpenStreetMap `highway` values, the Census
 * feature class codes of roads, and words that cities use. Compared without regard to case; of a compound the longest known beginning
 * counts, then its last word: `Local - NP` is local, `Local Access Pathway` a path. The assignment is ours (OSM wiki and Census MTFCC
 * descriptions, from memory).
 */
export function meaningOfClass(value: unknown): ClassMeaning | null {
  const words = wordOf(value).split("-").filter(Boolean);
  const last = words.length > 1 ? MEANINGS.get(words[words.length - 1]!) : undefined;
  const whole = MEANINGS.get(words.join("-"));
  if (whole !== undefined) return whole;
  if (last?.way === "path") return last;
  for (let count = words.length - 1; count > 0; count -= 1) {
    const meaning = MEANINGS.get(words.slice(0, count).join("-"));
    if (meaning !== undefined) return meaning;
  }
  return last ?? null;
}

function road(roadClass: RoadClass): ClassMeaning {
  return { way: "road", roadClass, isBus: false };
}
