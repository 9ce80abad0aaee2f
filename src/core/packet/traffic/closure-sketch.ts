import type { Drawing, Shape } from "../../crown/drawing.ts";
import type { Closure, TrafficControl } from "../../model/zone.ts";
import { type DisplayUnits, formatLength } from "../../units/format-length.ts";
import { dimensionRow } from "./dimensions.ts";
import { barrierMark, coneMarks, flaggerMark, signMark, trafficArrow } from "./marks.ts";
import { sketchParts } from "./sketch-parts.ts";

/** Millimeters of paper around the drawing, and below the road for dimensions, and for words with them. */
const MARGIN_MM = 3;
const DIMENSIONS_MM = 17;
const BELOW_MM = 30;
const NOT_A_PLAN = "Sketch for planning, not a traffic control plan: confirm with the road authority.";
/** Width scale: a 12 ft lane comes to 11 mm. */
const ACROSS_MM_PER_M = 3;

/**
 * A sketch of one set-up of a closure, traffic of the near lanes from left to right where one drives on the right: road, work space, buffer, tapers with their devices, signs,
 * flaggers, and a walk that is closed. Lengths along the road are to one scale, widths to a larger one; both are written on it. In ink and hatches only, so that it reads in
 * black and white. Null where there is no closure of a road or its speed is not known.
 *
 * `labels` as `"names"` leaves lengths and words to a list beside a narrow sketch: the parts bear their names only.
 */
export function closureSketch(
  closure: Closure,
  widthMm: number,
  units: DisplayUnits,
  drive: "right" | "left",
  labels: "lengths" | "names" = "lengths",
): Drawing | null {
  const { control, bufferM, signSpacingM } = closure;
  if (control == null || bufferM === null || control.tapers.length === 0) return null;
  const parts = sketchParts(control, bufferM, signSpacingM);
  const mmPerM = (widthMm - 2 * MARGIN_MM) / parts.totalM;
  const isRight = drive === "right";
  // Traffic of the near lanes keeps the roadside, at the bottom, on its own hand.
  const x = (alongM: number): number => {
    const along = MARGIN_MM + (alongM - parts.fromM) * mmPerM;
    return isRight ? along : widthMm - along;
  };
  const road = roadRows(control);
  const shapes: Shape[] = [];

  for (const lineMm of [road.farMm, road.nearMm])
    shapes.push(line(MARGIN_MM, lineMm, widthMm - MARGIN_MM, lineMm, 0.4));
  if (road.sideMm > road.nearMm) shapes.push(line(MARGIN_MM, road.sideMm, widthMm - MARGIN_MM, road.sideMm, 0.25));
  for (const { atMm, isCenter } of road.lines) {
    shapes.push(line(MARGIN_MM, atMm, widthMm - MARGIN_MM, atMm, isCenter ? 0.35 : 0.2, isCenter ? [] : [2, 2]));
  }

  const [workFrom, workTo] = parts.work;
  if (control.isWalkClosed) {
    for (const edgeMm of [road.walkMm, road.bottomMm]) {
      shapes.push(line(MARGIN_MM, edgeMm, widthMm - MARGIN_MM, edgeMm, 0.18, [1.2, 0.8]));
    }
  }
  const closedFromMm = road.closedFromMm;
  shapes.push({
    type: "path",
    d: box(x(workFrom), closedFromMm, x(workTo), road.bottomMm),
    fill: "none",
    hatched: true,
    stroke: { tone: "ink", widthMm: 0.4 },
  });
  for (const row of parts.rows) {
    const at = (share: number): readonly [number, number] => [
      x(row.fromM + share * (row.toM - row.fromM)),
      road.bottomMm + (row.fromShare + share * (row.toShare - row.fromShare)) * (closedFromMm - road.bottomMm),
    ];
    shapes.push(...coneMarks(at, row.devices));
  }
  if (control.isWalkClosed) {
    for (const end of parts.work) shapes.push(barrierMark(x(end), road.walkMm - 0.6, road.bottomMm + 0.6));
  }
  for (const flagger of parts.flaggersM) {
    shapes.push(...flaggerMark(x(flagger.atM), flagger.isNear ? road.bottomMm + 2.2 : road.farMm - 2.2));
  }
  for (const sign of parts.signs) {
    shapes.push(...signMark(x(sign.atM), sign.isNear ? road.bottomMm + 2.6 : road.farMm - 2.6, sign.letter));
  }
  for (const lane of road.lanes) {
    shapes.push(...trafficArrow(widthMm - MARGIN_MM - 8, lane.atMm, (control.isOneway || lane.isNear) === isRight));
  }
  shapes.push(
    ...dimensionRow(parts.dimensions, x, road.bottomMm + 7, { units: labels === "lengths" ? units : null, widthMm }),
  );
  if (labels === "lengths") {
    const side = isRight ? "right" : "left";
    const words = [
      `${scaleWords(mmPerM, units)} Work on the ${side} of traffic; the other side is its mirror image.`,
      parts.key,
    ];
    words.forEach((sentence, at) => {
      shapes.push(text(MARGIN_MM, road.bottomMm + 20 + at * 3.6, sentence));
    });
    shapes.push(text(MARGIN_MM, road.bottomMm + 27.2, NOT_A_PLAN, true));
  }
  return {
    widthMm,
    heightMm: road.bottomMm + (labels === "lengths" ? BELOW_MM : DIMENSIONS_MM),
    shapes,
    description: `${parts.key} ${closure.note}`,
  };
}

interface RoadRows {
  readonly farMm: number;
  readonly nearMm: number;
  /** Edge of the parking lane or shoulder; the same as the near edge where there is none. */
  readonly sideMm: number;
  /** Edge of the walk toward the road, drawn where it is closed. */
  readonly walkMm: number;
  /** Where the work space ends beyond the road. */
  readonly bottomMm: number;
  /** How far out from the roadside the closure reaches. */
  readonly closedFromMm: number;
  readonly lines: readonly { readonly atMm: number; readonly isCenter: boolean }[];
  readonly lanes: readonly { readonly atMm: number; readonly isNear: boolean }[];
}

/** Rows of the road from the far edge at the top to the roadside at the bottom. */
function roadRows({ lanes, isOneway, laneM, sideRoomM, caseId, isWalkClosed }: TrafficControl): RoadRows {
  const laneMm = laneM * ACROSS_MM_PER_M;
  const farMm = 9;
  const nearMm = farMm + lanes * laneMm;
  const sideMm = nearMm + sideRoomM * ACROSS_MM_PER_M;
  const nearLanes = isOneway ? lanes : Math.ceil(lanes / 2);
  const takesLane = caseId === "flaggers" || caseId === "merge" || caseId === "one-way-closed";
  const bottomMm = sideMm + (isWalkClosed ? 6 : 4);
  return {
    farMm,
    nearMm,
    sideMm,
    walkMm: sideMm + 2,
    bottomMm,
    closedFromMm: takesLane ? nearMm - laneMm : caseId === "beside-road" ? sideMm : nearMm,
    lines: Array.from({ length: lanes - 1 }, (_, at) => ({
      atMm: farMm + (at + 1) * laneMm,
      isCenter: !isOneway && at + 1 === lanes - nearLanes,
    })),
    lanes: Array.from({ length: lanes }, (_, at) => ({
      atMm: farMm + (at + 0.5) * laneMm,
      isNear: at >= lanes - nearLanes,
    })),
  };
}

function scaleWords(mmPerM: number, units: DisplayUnits): string {
  const barM = units === "us" ? 30.48 : 30;
  return `Along the road 1:${Math.round(1000 / mmPerM / 10) * 10} (${formatLength(barM, units)} = ${(barM * mmPerM).toFixed(0)} mm), across it 1:${Math.round(1000 / ACROSS_MM_PER_M)}.`;
}

const box = (x1: number, y1: number, x2: number, y2: number): string =>
  `M ${mm(x1)} ${mm(y1)} L ${mm(x2)} ${mm(y1)} L ${mm(x2)} ${mm(y2)} L ${mm(x1)} ${mm(y2)} Z`;
const line = (
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  widthMm: number,
  dashMm: readonly number[] = [],
): Shape => ({
  type: "path",
  d: `M ${mm(x1)} ${mm(y1)} L ${mm(x2)} ${mm(y2)}`,
  fill: "none",
  stroke: { tone: "ink", widthMm, ...(dashMm.length === 0 ? {} : { dashMm }) },
});
const text = (xMm: number, yMm: number, words: string, bold = false): Shape => ({
  type: "text",
  xMm,
  yMm,
  text: words,
  sizeMm: 2.5,
  anchor: "start",
  tone: "ink",
  bold,
});
const mm = (value: number): number => Math.round(value * 100) / 100;
