import { ownMember } from "../json/own-member.ts";
import { type FeatureFault, featureFault } from "./feature-fault.ts";

/**
 * The warning about a `bbox` member that is none (RFC 7946 section 5: an array of two numbers for each dimension), of a collection, feature
 * or geometry; null for a sound or absent one. Nothing relies on it.
 */
export function bboxDoubt(value: unknown, field: string): FeatureFault | null {
  const bbox = ownMember(value, "bbox");
  if (bbox === undefined || bbox === null) return null;
  const isSound = Array.isArray(bbox) && (bbox.length === 4 || bbox.length === 6) && bbox.every(Number.isFinite);
  if (isSound) return null;
  const doubt = featureFault(
    "bad-bbox",
    field,
    bbox,
    "The bbox is not an array of four or six numbers; it is not used.",
    "Leave it out, or export the file anew.",
  );
  return { ...doubt, severity: "warning" };
}
