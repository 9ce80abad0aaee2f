import type { Position } from "geojson";
import type { SourceFeature } from "../../model/feature.ts";
import type { Basis } from "../../model/terms.ts";
import type { Gathering } from "../gathering.ts";
import { alongLine } from "./along-line.ts";
import type { Poles } from "./poles.ts";
import { readAmount } from "./read-amount.ts";

/** What a line says of its two ends; null is unknown. */
export interface LineEnds {
  readonly firstM: number | null;
  readonly lastM: number | null;
  readonly firstGroundM: number | null;
  readonly lastGroundM: number | null;
}

/** A line with one attachment height has it at both ends. */
export function readEnds(gathering: Gathering, feature: SourceFeature): LineEnds {
  const firstM = readAmount(gathering, feature, "attachment_height_1", "height");
  const lastM = readAmount(gathering, feature, "attachment_height_2");
  return {
    firstM,
    lastM: lastM ?? firstM,
    firstGroundM: readAmount(gathering, feature, "ground_z_1"),
    lastGroundM: readAmount(gathering, feature, "ground_z_2"),
  };
}

export interface LineHeights {
  readonly attachmentM: Float64Array;
  /** Elevation of the ground at each vertex; null where none is known. */
  readonly groundM: Float64Array | null;
  readonly basis: Basis;
}

/** Attachment heights and elevations of the ground at a line's vertices, and how the heights are known. What the line says outranks its poles. */
export function lineHeights(
  ends: LineEnds,
  line: readonly Position[],
  lengthsM: readonly number[],
  poles: Poles,
  assumedM: number,
): LineHeights {
  const last = line.length - 1;
  const carriers = line.map((position) => poles.at(position));
  const known = carriers.map((pole) => pole?.attachmentM ?? null);
  const grounds = carriers.map((pole) => pole?.groundM ?? null);
  known[0] = ends.firstM ?? known[0] ?? ends.lastM;
  known[last] = ends.lastM ?? known[last]!;
  grounds[0] = ends.firstGroundM ?? grounds[0]!;
  grounds[last] = ends.lastGroundM ?? grounds[last]!;
  const attachmentM = alongLine(known, lengthsM);
  const isKnown = ends.lastM !== null || known.every((heightM) => heightM !== null);
  const isByPoleTop = carriers.some(
    (pole, at) =>
      pole?.basis === "estimated" &&
      pole.attachmentM !== null &&
      !((at === 0 && ends.firstM !== null) || (at === last && ends.lastM !== null)),
  );
  return {
    attachmentM: attachmentM ?? new Float64Array(line.length).fill(assumedM),
    groundM: alongLine(grounds, lengthsM),
    basis: attachmentM === null ? "assumed" : isKnown && !isByPoleTop ? "measured" : "estimated",
  };
}
