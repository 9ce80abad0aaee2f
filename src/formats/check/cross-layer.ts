import type { SourceFeature } from "../../core/model/feature.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { Layer } from "../../core/model/terms.ts";
import { withThousands } from "../../core/units/with-thousands.ts";
import type { CoordinateSystem } from "../crs/system.ts";
import { type Extent, emptyExtent, widen } from "../geojson/extent.ts";
import { firstPosition, gapKm, isEmpty, layerExtent, swapped, widenByGeometry } from "./layer-extent.ts";

/** What of a file is looked at when files are laid beside each other. */
export interface PlacedFile {
  readonly layer: Layer;
  readonly file: string;
  readonly features: readonly SourceFeature[];
  readonly system: CoordinateSystem;
  /** What to do where longitude and latitude are exchanged; GeoJSON's own rule where it is left out. */
  readonly axesAdvice?: string | undefined;
}

/** Farther apart than this, things are no longer each other's surroundings: beyond any sight line or fall. Our policy. */
const APART_KM = 0.5;
/** A city's trees do not lie farther than this from their middle. Our policy. */
const SCATTERED_KM = 100;
/** Trees grow from Isla Hornos (56 S) to the larches of Ary-Mas (72.5 N); from memory. */
const TREE_LATITUDES_DEG = [-56, 72.6] as const;

const LON_FIRST = "Write longitude first, then latitude (RFC 7946 section 3.1.1).";
const SWAPPED = "swapped-axes-suspected";

/**
 * What only shows when a run's files are laid beside each other: layers that lie apart, trees outside all others, longitude and latitude that
 * look swapped, positions far from the rest, and datums that differ. Nothing is changed; every finding names one file.
 */
export function crossLayerFindings(files: readonly PlacedFile[]): Finding[] {
  const placed = files
    .map((file) => ({ ...file, extent: layerExtent(file.features) }))
    .filter(({ extent }) => !isEmpty(extent));
  return [
    ...placed.flatMap((file) => latitudeFinding(file)),
    ...placed.flatMap((file) => scatterFinding(file)),
    ...apartFindings(placed),
    ...datumFindings(placed),
  ];
}

type Placed = PlacedFile & { readonly extent: Extent };

/** Trees at latitudes where none grow: swapped axes, or the wrong hemisphere. */
function latitudeFinding({ layer, file, features, axesAdvice }: Placed): Finding[] {
  if (layer !== "trees") return [];
  const [south, north] = TREE_LATITUDES_DEG;
  const odd = features.filter(({ geometry }) => {
    const latDeg = geometry.type === "Point" ? geometry.coordinates[1]! : 0;
    return latDeg < south || latDeg > north;
  });
  if (odd.length === 0) return [];
  return [
    about(layer, file, {
      code: "latitude-without-trees",
      value: String((odd[0]!.geometry as { coordinates: number[] }).coordinates[1]),
      reason: `${counted(odd, features)} lie where no tree grows, south of 56 or north of 72.6 degrees; longitude and latitude may be swapped.`,
      whatToDo: `${axesAdvice ?? LON_FIRST} Nothing was changed.`,
    }),
  ];
}

/** Positions far from the middle one; usually slips of the pen or positions that were never filled in. */
function scatterFinding({ layer, file, features }: Placed): Finding[] {
  const places = features.flatMap(({ geometry }) => {
    const place = firstPosition(geometry);
    return place === null ? [] : [place];
  });
  const middle = pointExtent(median(places.map(([x]) => x)), median(places.map(([, y]) => y)));
  const far = places.filter(([x, y]) => gapKm(pointExtent(x, y), middle) > SCATTERED_KM);
  if (far.length === 0) return [];
  return [
    about(layer, file, {
      code: "far-from-the-rest",
      value: far[0]!.join(" ").slice(0, 256),
      reason: `${counted(far, features)} lie over ${SCATTERED_KM} km from the middle of the file; their positions are probably wrong.`,
      whatToDo: "Correct the positions, or give each city a file and a plan of its own.",
    }),
  ];
}

function apartFindings(placed: readonly Placed[]): Finding[] {
  const trees = placed.filter(({ layer }) => layer === "trees");
  const others = placed.filter(({ layer }) => layer !== "trees");
  if (trees.length === 0 || others.length === 0) return [];
  const treeExtent = union(trees);
  const findings: Finding[] = [];
  const near: Placed[] = [];
  for (const other of others) {
    const km = gapKm(other.extent, treeExtent);
    if (km <= APART_KM) {
      near.push(other);
      continue;
    }
    const isSwapped = gapKm(swapped(other.extent), treeExtent) <= APART_KM;
    findings.push(isSwapped ? swappedFinding(other) : apartFinding(other, km));
  }
  // When several layers would all fit exchanged it is the trees that are.
  const areAllSwapped = findings.length === others.length && findings.every(({ code }) => code === SWAPPED);
  if (areAllSwapped && others.length > 1) return trees.map(swappedFinding);
  return near.length === 0 ? findings : [...findings, ...treesOutside(trees, near)];
}

function treesOutside(trees: readonly Placed[], near: readonly Placed[]): Finding[] {
  const extent = union(near);
  return trees.flatMap(({ layer, file, features }) => {
    const outside = features.filter(({ geometry }) => {
      const own = emptyExtent();
      widenByGeometry(own, geometry);
      return gapKm(own, extent) > APART_KM;
    });
    if (outside.length === 0) return [];
    return [
      about(layer, file, {
        code: "trees-outside-surroundings",
        value: null,
        reason: `${counted(outside, features)} stand over 500 m outside everything else that was given; nothing was found for them because nothing is known there.`,
        whatToDo: "Give the other layers for the whole area, or leave these trees out.",
      }),
    ];
  });
}

const apartFinding = ({ layer, file }: Placed, km: number): Finding =>
  about(layer, file, {
    code: "layers-apart",
    value: null,
    reason: `The ${layer} lie ${km < 10 ? km.toFixed(1) : withThousands(Math.round(km))} km from the trees; nothing of them can be near a tree.`,
    whatToDo: "Check the file and its coordinate system; one of the two layers is likely in another one.",
  });

const swappedFinding = ({ layer, file, axesAdvice }: Placed): Finding =>
  about(layer, file, {
    code: SWAPPED,
    value: null,
    reason: `The ${layer} lie far from the other layers, and would lie among them with longitude and latitude exchanged.`,
    whatToDo: `${axesAdvice ?? LON_FIRST} Nothing was changed.`,
  });

/** Layers measured from different datums, against the trees' one. */
function datumFindings(placed: readonly Placed[]): Finding[] {
  const reference = placed.find(({ layer }) => layer === "trees") ?? placed[0];
  if (reference === undefined) return [];
  return placed
    .filter(({ system }) => system.datum.name !== reference.system.datum.name)
    .map(({ layer, file, system }) => {
      const one = system.datum;
      const other = reference.system.datum;
      return about(layer, file, {
        code: "datums-mixed",
        value: one.name.slice(0, 256),
        reason: `The ${layer} are measured from ${one.name}, the ${reference.layer} from ${other.name}; they may be off against each other by ${offset(one, other)}.`,
        whatToDo: "Have all layers in one datum, converted by the agency's own tool.",
      });
    });
}

function offset(one: CoordinateSystem["datum"], other: CoordinateSystem["datum"]): string {
  if (one.kind === "unknown" || other.kind === "unknown") return "hundreds of meters";
  const shifted = [one, other].filter(({ kind }) => kind === "shifted");
  if (shifted.length === 0) return "1 to 2 m";
  if (shifted.some(({ errorM }) => errorM === null)) return "an amount that is not published";
  const largestM = Math.max(...shifted.map(({ errorM }) => errorM!));
  const sources = shifted.map(({ source }) => source).filter((source) => source !== null);
  return `up to ${largestM} m (${[...new Set(sources)].join(", ")})${shifted.length < 2 && (one.kind === "same" || other.kind === "same") ? " and 1 to 2 m more" : ""}`;
}

const union = (placed: readonly Placed[]): Extent => {
  const all = emptyExtent();
  for (const { extent } of placed) {
    widen(all, extent.minX, extent.minY);
    widen(all, extent.maxX, extent.maxY);
  }
  return all;
};

const pointExtent = (x: number, y: number): Extent => ({ minX: x, maxX: x, minY: y, maxY: y });

/** The middle value; the upper of the two middle ones for an even count. */
const median = (values: readonly number[]): number =>
  Float64Array.from(values).sort()[Math.floor(values.length / 2)] ?? Number.NaN;

const counted = (some: readonly unknown[], all: readonly unknown[]): string =>
  `${withThousands(some.length)} of ${withThousands(all.length)} features`;

const about = (layer: Layer, file: string, what: Pick<Finding, "code" | "value" | "reason" | "whatToDo">): Finding => ({
  ...what,
  severity: "warning",
  layer,
  file,
  feature: null,
  field: null,
});
