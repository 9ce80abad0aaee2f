/** A place in degrees. */
export interface Placed {
  readonly lonDeg: number;
  readonly latDeg: number;
}

/** What part of the ground a map shows: its middle and its zoom. */
export interface MapFrame {
  readonly lonDeg: number;
  readonly latDeg: number;
  readonly zoom: number;
}

/** The sheet that places are fitted into, in CSS pixels. */
export interface Sheet {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Free along all four edges. */
  readonly marginPx: number;
  /** The block in the upper left corner that no place may lie under; null for none. */
  readonly corner: { readonly widthPx: number; readonly heightPx: number } | null;
}

/** Side in pixels of the whole web map at zoom 0. */
const WORLD_PX = 512;
/** Least of what stays free beside the corner block. */
const BESIDE_CORNER_PX = 12;

/**
 * The closest look at all places on a sheet with north up: the largest zoom, at most `maxZoom`, at which none lies under the corner
 * block. The places may use the whole sheet, be pushed to its right or lower edge, or leave the block's column or rows free; of equal
 * zooms the first of these. Null without places.
 */
export function fitPlaces(places: readonly Placed[], sheet: Sheet, maxZoom: number): MapFrame | null {
  if (places.length === 0) return null;
  const points = places.map(({ lonDeg, latDeg }) => [worldX(lonDeg), worldY(latDeg)] as const);
  const box = { left: Infinity, top: Infinity, right: -Infinity, bottom: -Infinity };
  for (const [x, y] of points) {
    box.left = Math.min(box.left, x);
    box.right = Math.max(box.right, x);
    box.top = Math.min(box.top, y);
    box.bottom = Math.max(box.bottom, y);
  }
  const { widthPx, heightPx, marginPx, corner } = sheet;
  const besideX = corner === null ? marginPx : Math.max(marginPx, corner.widthPx + BESIDE_CORNER_PX);
  const besideY = corner === null ? marginPx : Math.max(marginPx, corner.heightPx + BESIDE_CORNER_PX);
  // Left and top edges of the room, and which way its slack is pushed: 0.5 centers, 1 is right or down.
  const rooms = [
    { left: marginPx, top: marginPx, pushX: 0.5, pushY: 0.5 },
    { left: marginPx, top: marginPx, pushX: 0.5, pushY: 1 },
    { left: marginPx, top: marginPx, pushX: 1, pushY: 0.5 },
    { left: marginPx, top: besideY, pushX: 0.5, pushY: 0.5 },
    { left: besideX, top: marginPx, pushX: 0.5, pushY: 0.5 },
  ];
  let best: MapFrame | null = null;
  for (const { left, top, pushX, pushY } of rooms) {
    const roomX = Math.max(1, widthPx - marginPx - left);
    const roomY = Math.max(1, heightPx - marginPx - top);
    const zoom = Math.min(
      maxZoom,
      Math.log2(roomX / (box.right - box.left)),
      Math.log2(roomY / (box.bottom - box.top)),
    );
    if (best !== null && zoom <= best.zoom) continue;
    const scale = 2 ** zoom;
    const x0 = left + (roomX - (box.right - box.left) * scale) * pushX - box.left * scale;
    const y0 = top + (roomY - (box.bottom - box.top) * scale) * pushY - box.top * scale;
    const isUnder = ([x, y]: readonly [number, number]) =>
      corner !== null &&
      x0 + x * scale < corner.widthPx + BESIDE_CORNER_PX &&
      y0 + y * scale < corner.heightPx + BESIDE_CORNER_PX;
    const isLast = best === null && left === besideX && corner !== null;
    if (!isLast && points.some(isUnder)) continue;
    best = {
      lonDeg: ((((widthPx / 2 - x0) / scale / WORLD_PX) * 360) % 360) - 180,
      latDeg: latitudeOf((heightPx / 2 - y0) / scale),
      zoom,
    };
  }
  return best;
}

/** Web Mercator (EPSG:3857) in pixels at zoom 0, from the upper left corner. */
const worldX = (lonDeg: number): number => ((lonDeg + 180) / 360) * WORLD_PX;
const worldY = (latDeg: number): number => {
  const sine = Math.sin((latDeg * Math.PI) / 180);
  return (0.5 - Math.log((1 + sine) / (1 - sine)) / (4 * Math.PI)) * WORLD_PX;
};
const latitudeOf = (y: number): number => (Math.atan(Math.sinh(Math.PI * (1 - (2 * y) / WORLD_PX))) * 180) / Math.PI;
