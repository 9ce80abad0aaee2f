import { planeOf, toPlane } from "../plane/plane.ts";
import { compassPoint } from "../units/compass.ts";
import { type DisplayUnits, formatLength } from "../units/format-length.ts";
import { radiusTowardM } from "./crown.ts";
import type { Drawing, Shape } from "./drawing.ts";
import { area, circle, DASHES, EDGE, line, type Point, polyline, QUIET, THIN } from "./section/path.ts";
import { footAlongM, kindName, type SectionSubject } from "./section/subject.ts";

export interface PlanInsetOptions {
  readonly units: DisplayUnits;
  /** Width and height of the square drawing. */
  readonly sizeMm: number;
}

const TEXT_MM = 2.1;
/** Half the angle of the bearing wedge. */
const WEDGE_DEG = 12;

/**
 * A small plan of the tree, north up: the crown's outline from its four radii, the encroaching part hatched, the bearing of the
 * conflict as a wedge and the nearest edge of the thing as a line across it with its distance. True scale; knows nothing else around.
 */
export function drawPlanInset(subject: SectionSubject, options: PlanInsetOptions): Drawing {
  const { tree, conflict } = subject;
  const { sizeMm, units } = options;
  const widestM = Math.max(tree.radii.northM, tree.radii.eastM, tree.radii.southM, tree.radii.westM, 0.5);
  const asideM = Math.hypot(tree.crownEastM ?? 0, tree.crownNorthM ?? 0);
  const reachM = Math.max(widestM, asideM, conflict === null ? 0 : Math.min(conflict.distanceM, widestM * 2)) * 1.12;
  const { crownEastM = 0, crownNorthM = 0 } = tree;
  const footM = footAlongM(subject);
  const middleMm = sizeMm / 2;
  const mmPerM = (middleMm - TEXT_MM) / reachM;
  const point = (bearingDeg: number, distanceM: number): Point => {
    const angle = (bearingDeg * Math.PI) / 180;
    return [middleMm + Math.sin(angle) * distanceM * mmPerM, middleMm - Math.cos(angle) * distanceM * mmPerM];
  };
  const crown: Point[] = [];
  for (let bearing = 0; bearing < 360; bearing += 5) crown.push(point(bearing, radiusTowardM(tree.radii, bearing)));
  const isMeasured = tree.radius.basis === "measured";
  const shapes: Shape[] = [area(polyline(crown, true), "crown")];
  if (conflict !== null) shapes.push(...encroachment(subject, middleMm, mmPerM));
  shapes.push(area(polyline(crown, true), "none", isMeasured ? EDGE : { ...EDGE, dashMm: DASHES }));
  if (conflict !== null) {
    const bearing = conflict.bearingDeg;
    const wedge = [point(0, 0), point(bearing - WEDGE_DEG, reachM), point(bearing + WEDGE_DEG, reachM)];
    shapes.push(area(polyline(wedge, true), "none", { ...QUIET, dashMm: [0.6, 0.6] }));
    if (conflict.distanceM > 0 && conflict.distanceM <= reachM) {
      const [x, y] = point(bearing, conflict.distanceM);
      const angle = (bearing * Math.PI) / 180;
      const half = Math.min(middleMm * 0.55, sizeMm);
      const edge: Point[] = [
        [x - Math.cos(angle) * half, y - Math.sin(angle) * half],
        [x + Math.cos(angle) * half, y + Math.sin(angle) * half],
      ];
      // The distance is the trunk's, along the bearing.
      const foot: Point = [middleMm - crownEastM * mmPerM, middleMm + crownNorthM * mmPerM];
      const alongMm = (conflict.distanceM - footM) * mmPerM;
      const facing: Point = [foot[0] + Math.sin(angle) * alongMm, foot[1] - Math.cos(angle) * alongMm];
      shapes.push(line(edge, EDGE), line([foot, facing], THIN));
    }
    if (conflict.distanceM > 0) shapes.push(distanceLabel(formatLength(conflict.distanceM - footM, units), sizeMm));
  }
  const trunkMm = Math.max(0.5, ((tree.dbhM ?? 0.2) / 2) * mmPerM);
  shapes.push(
    area(circle(middleMm - crownEastM * mmPerM, middleMm + crownNorthM * mmPerM, trunkMm), "ink"),
    ...northArrow(sizeMm),
  );
  return { widthMm: sizeMm, heightMm: sizeMm, shapes, description: describe(subject, units) };
}

/** The encroaching part of the crown, brought back from longitude and latitude into meters about the crown's axis. */
function encroachment(subject: SectionSubject, middleMm: number, mmPerM: number): Shape[] {
  const { tree, conflict } = subject;
  if (conflict === null || conflict.encroachment === null) return [];
  const plane = planeOf(tree.lonDeg);
  const [trunkX, trunkY] = toPlane(plane, tree.lonDeg, tree.latDeg);
  const axisX = trunkX + (tree.crownEastM ?? 0);
  const axisY = trunkY + (tree.crownNorthM ?? 0);
  const rings = conflict.encroachment.coordinates.map((ring) =>
    ring.map(([lonDeg, latDeg]): Point => {
      const [x, y] = toPlane(plane, lonDeg!, latDeg!);
      return [middleMm + (x - axisX) * mmPerM, middleMm - (y - axisY) * mmPerM];
    }),
  );
  const d = rings.map((ring) => polyline(ring, true)).join("");
  return d === "" ? [] : [{ type: "path", d, fill: "removed", hatched: true }];
}

/** A slim north arrow with its letter in the upper left corner, clear of the crown. */
function northArrow(sizeMm: number): Shape[] {
  const x = TEXT_MM * 0.7;
  const top = TEXT_MM * 1.2;
  const length = Math.min(4.2, sizeMm / 5);
  return [
    { type: "text", xMm: x, yMm: TEXT_MM * 0.9, text: "N", sizeMm: TEXT_MM, anchor: "middle", tone: "ink", bold: true },
    line(
      [
        [x, top + length],
        [x, top],
      ],
      THIN,
    ),
    area(
      polyline(
        [
          [x, top],
          [x - 0.6, top + 1.7],
          [x + 0.6, top + 1.7],
        ],
        true,
      ),
      "ink",
    ),
  ];
}

const distanceLabel = (text: string, sizeMm: number): Shape => ({
  type: "text",
  xMm: sizeMm - 0.3,
  yMm: sizeMm - 0.4,
  text,
  sizeMm: TEXT_MM,
  anchor: "end",
  tone: "ink",
});

function describe(subject: SectionSubject, units: DisplayUnits): string {
  const { tree, conflict } = subject;
  if (conflict === null) return `Plan of the crown of ${tree.id}, north up.`;
  return (
    `Plan of the crown of ${tree.id}, north up: the ${kindName(conflict.kind)} lies to the ` +
    `${compassPoint(conflict.bearingDeg)}, ${formatLength(conflict.distanceM - footAlongM(subject), units)} from the trunk.`
  );
}
