import type { Finding } from "../../core/model/finding.ts";
import { LAYERS } from "../../core/model/terms.ts";
import type { PlanIndex } from "../plan-index.ts";

/** Where a finding's feature is: a tree of the plan, or another feature's box `[west, south, east, north]`. */
export type FindingPlace = { readonly treeId: string } | { readonly box: readonly [number, number, number, number] };

/** The place of the feature a finding names; null when it names none or the feature is not part of the plan. */
export function findingPlace(index: PlanIndex, finding: Finding): FindingPlace | null {
  const { feature, file, layer } = finding;
  if (feature === null) return null;
  const { plan } = index.opened;
  if (layer === "trees") {
    const inFile = feature.startsWith("#") ? `${file ?? ""}${feature}` : feature;
    for (const id of [feature, inFile]) if (index.treeById.has(id)) return { treeId: id };
    const isOnlyFile = plan.inputs.filter((input) => input.layer === "trees").length === 1;
    const ordinal = feature.startsWith("#") && isOnlyFile ? Number(feature.slice(1)) : Number.NaN;
    const tree = plan.trees.find((one) => one.ordinal === ordinal);
    return tree === undefined ? null : { treeId: tree.id };
  }
  if (!LAYERS.some((one) => one === layer)) return null;
  const around = plan.surroundings.find(
    (one) => one.layer === layer && (one.id === feature || one.id === `${file ?? ""}${feature}`),
  );
  const box = [
    Number.POSITIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
  ] as [number, number, number, number];
  if (around !== undefined && "coordinates" in around.geometry) widen(box, around.geometry.coordinates);
  return box[0] <= box[2] ? { box } : null;
}

function widen(box: [number, number, number, number], coordinates: unknown): void {
  if (!Array.isArray(coordinates)) return;
  const [lon, lat] = coordinates as unknown[];
  if (typeof lon === "number" && typeof lat === "number") {
    box[0] = Math.min(box[0], lon);
    box[1] = Math.min(box[1], lat);
    box[2] = Math.max(box[2], lon);
    box[3] = Math.max(box[3], lat);
  } else for (const inner of coordinates) widen(box, inner);
}
