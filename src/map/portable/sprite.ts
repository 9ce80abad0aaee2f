import { IMAGE_PREFIX, type MapImage, mapImages } from "../symbols/mark-images.ts";
import type { Canvas } from "../symbols/pixels.ts";
import type { ThemeName } from "../tokens.ts";
import { halved } from "./halved.ts";
import { png } from "./png.ts";

/** Images side by side in the sheet; ten rows of ten hold all there are. */
const COLUMNS = 10;
/** Clear pixels around an image, so that a neighbor's edge is never sampled with it. */
const MARGIN = 2;

/** Where an image stands in a sprite's sheet, in its own pixels, as the style specification's "Sprite" has it. */
interface SpriteEntry {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly pixelRatio: 1 | 2;
}

/** A sprite as its two files: the index and the sheet. */
export interface Sprite {
  readonly index: string;
  readonly sheet: Uint8Array;
}

/**
 * Every image that the layers name, for maps that fetch a sprite instead of running code: `mark-lift-now-confirmed`, `zone-draft` and
 * so on, in the theme's colors. Names lack the plugin's prefix, since a style gives a sprite an id of its own.
 */
export function sprite(theme: ThemeName, pixelRatio: 1 | 2): Sprite {
  const images = mapImages(theme).map((image): MapImage => (pixelRatio === 2 ? image : { ...image, ...halved(image) }));
  const side = Math.max(...images.map(({ width, height }) => Math.max(width, height))) + MARGIN;
  const width = side * COLUMNS;
  const height = side * Math.ceil(images.length / COLUMNS);
  const sheet: Canvas = { width, height, data: new Uint8ClampedArray(width * height * 4) };
  const index: Record<string, SpriteEntry> = {};
  for (const [place, image] of images.entries()) {
    const x = (place % COLUMNS) * side;
    const y = Math.floor(place / COLUMNS) * side;
    for (let row = 0; row < image.height; row += 1)
      sheet.data.set(
        image.data.subarray(row * image.width * 4, (row + 1) * image.width * 4),
        ((y + row) * width + x) * 4,
      );
    index[image.id.slice(IMAGE_PREFIX.length)] = { x, y, width: image.width, height: image.height, pixelRatio };
  }
  return { index: `${JSON.stringify(index, null, 2)}\n`, sheet: png(sheet) };
}
