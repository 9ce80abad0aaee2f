import { CERTAINTIES, type Certainty, REMEDIES, type Remedy, ZONE_STATES } from "../../core/model/terms.ts";
import { type ThemeName, TOKENS, type TonedUrgency } from "../tokens.ts";
import { markShape, SURROUNDING_SHAPES } from "./mark-shape.ts";
import { IMAGE_RATIO, markField, paintMark, paintQuiet } from "./paint-mark.ts";
import { paintZonePattern } from "./paint-zone-pattern.ts";
import type { Canvas } from "./pixels.ts";

/** An image as a map's `addImage` takes it. */
export interface MapImage extends Canvas {
  readonly id: string;
  readonly pixelRatio: number;
}

export const IMAGE_PREFIX = "boughline-";
export const CLEAR_IMAGE = `${IMAGE_PREFIX}mark-clear`;
export const TAB_IMAGE = `${IMAGE_PREFIX}zone-tab`;

/** Name of a mark's image. */
export const markImageId = (remedy: Remedy, urgency: TonedUrgency, certainty: Certainty): string =>
  `${IMAGE_PREFIX}mark-${remedy}-${urgency}-${certainty}`;

/** Every image the layers name: marks by remedy, urgency and certainty, the clear ring, small surroundings and zone patterns. */
export function mapImages(theme: ThemeName): MapImage[] {
  const { ink, ground, quiet, urgency, surroundings, zone } = TOKENS.themes[theme];
  const images: MapImage[] = [];
  const add = (id: string, canvas: Canvas) => images.push({ id, pixelRatio: IMAGE_RATIO, ...canvas });
  for (const remedy of REMEDIES) {
    const shape = markShape(remedy);
    const field = markField(shape);
    for (const [name, tone] of Object.entries(urgency) as [TonedUrgency, string][]) {
      for (const certainty of CERTAINTIES)
        add(markImageId(remedy, name, certainty), paintMark(shape, { tone, ink, ground, certainty }, field));
    }
  }
  add(CLEAR_IMAGE, paintQuiet(CLEAR_SHAPE, quiet, ground));
  for (const [name, shape] of Object.entries(SURROUNDING_SHAPES))
    add(
      `${IMAGE_PREFIX}${name}`,
      paintQuiet(shape, name === "pole" ? surroundings.conductor : surroundings.sign, ground),
    );
  for (const state of ZONE_STATES) add(`${IMAGE_PREFIX}zone-${state}`, paintZonePattern(state, zone));
  add(TAB_IMAGE, paintQuiet(TAB_SHAPE, zone, ground));
  return images;
}

const ring = markShape("none");
/** The small ring of a tree that nothing is wanted of. */
export const CLEAR_SHAPE = {
  ...ring,
  outer: ring.outer.map(([x, y]) => [x * 0.8, y * 0.8] as const),
  cuts: [ring.outer.map(([x, y]) => [x * 0.52, y * 0.52] as const)],
};
const TAB_SHAPE = {
  outer: [
    [-5, -5],
    [5, -5],
    [-5, 5],
  ] as const,
  cuts: [],
  turns: false,
};
