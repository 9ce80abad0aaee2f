/** What a map window shows: the point in its middle, meters from the map's origin, and pixels a meter. */
export interface Camera {
  readonly xM: number;
  readonly yM: number;
  readonly pxPerM: number;
}

export interface WindowPx {
  readonly widthPx: number;
  readonly heightPx: number;
}

const LEAST_PX_PER_M = 0.4;
const MOST_PX_PER_M = 60;

/** Room in pixels that scale, buttons and badges need at the edges: top, sides, bottom. */
const EDGES_PX = { top: 48, side: 24, bottom: 72 };

/** Shows a rectangle (left, top, right, bottom in meters) as large as the window allows, clear of what lies over its edges. */
export function fitted(boundsM: readonly [number, number, number, number], { widthPx, heightPx }: WindowPx): Camera {
  const [left, top, right, bottom] = boundsM;
  const pxPerM = limited(
    Math.min(
      Math.max(1, widthPx - 2 * EDGES_PX.side) / Math.max(1, right - left),
      Math.max(1, heightPx - EDGES_PX.top - EDGES_PX.bottom) / Math.max(1, bottom - top),
    ),
  );
  const downM = (EDGES_PX.bottom - EDGES_PX.top) / 2 / pxPerM;
  return { xM: (left + right) / 2, yM: (top + bottom) / 2 + downM, pxPerM };
}

/** Zooms by a factor, keeping what is under a pixel of the window where it is. */
export function zoomedAt(camera: Camera, window: WindowPx, factor: number, xPx: number, yPx: number): Camera {
  const pxPerM = limited(camera.pxPerM * factor);
  const [xM, yM] = onGround(camera, window, xPx, yPx);
  return {
    xM: xM - (xPx - window.widthPx / 2) / pxPerM,
    yM: yM - (yPx - window.heightPx / 2) / pxPerM,
    pxPerM,
  };
}

export const moved = (camera: Camera, dxPx: number, dyPx: number): Camera => ({
  ...camera,
  xM: camera.xM - dxPx / camera.pxPerM,
  yM: camera.yM - dyPx / camera.pxPerM,
});

export const onGround = ({ xM, yM, pxPerM }: Camera, { widthPx, heightPx }: WindowPx, xPx: number, yPx: number) =>
  [xM + (xPx - widthPx / 2) / pxPerM, yM + (yPx - heightPx / 2) / pxPerM] as const;

export const inWindow = ({ xM, yM, pxPerM }: Camera, { widthPx, heightPx }: WindowPx, atXM: number, atYM: number) =>
  [widthPx / 2 + (atXM - xM) * pxPerM, heightPx / 2 + (atYM - yM) * pxPerM] as const;

/** A camera whose middle stays within the bounds, so that the zone cannot be lost. */
export function keptNear(camera: Camera, boundsM: readonly [number, number, number, number], marginM: number): Camera {
  const [left, top, right, bottom] = boundsM;
  return {
    ...camera,
    xM: Math.min(right + marginM, Math.max(left - marginM, camera.xM)),
    yM: Math.min(bottom + marginM, Math.max(top - marginM, camera.yM)),
  };
}

const limited = (pxPerM: number): number => Math.min(MOST_PX_PER_M, Math.max(LEAST_PX_PER_M, pxPerM));
