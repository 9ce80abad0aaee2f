import type { ConflictRecord } from "../../model/conflict.ts";
import type { Shape } from "../drawing.ts";
import { conductorHeightM, type SectionLayout } from "./layout.ts";
import { area, circle, EDGE, line, type Point, QUIET, rectangle, THIN } from "./path.ts";
import { type SectionSubject, targetHeightM, thingOf } from "./subject.ts";

/** Largest legal box vehicle drawn in a lane: 8 ft 6 in wide and 13 ft 6 in high (state statutes; 23 CFR 658.15 for the width). */
const VEHICLE_WIDTH_M = 2.59;
const VEHICLE_HEIGHT_M = 4.11;

/** The block of space the rule wants free, painted under the crown's edge. */
export function clearanceBlock(subject: SectionSubject, layout: SectionLayout): Shape[] {
  const { conflict } = subject;
  if (conflict === null) return [];
  const { toX, toY, nearM, farM, mmPerM } = layout;
  const left = toX(nearM);
  const right = toX(farM);
  const topM = conflict.datumM + conflict.minimumM;
  switch (thingOf(conflict.kind)) {
    case "way":
    case "walk":
      return [area(rectangle(left, toY(topM), right, toY(0)), "clearance", QUIET)];
    case "roof":
      return [area(rectangle(left, toY(topM), right, toY(conflict.datumM)), "clearance", QUIET)];
    case "sight":
      return [area(rectangle(left, toY(topM), right, toY(subject.windowLowM ?? 0)), "clearance", QUIET)];
    case "wall": {
      const wallM = Math.min(subject.heightOfThingM ?? subject.tree.height.valueM, layout.highestM);
      return [area(rectangle(toX(nearM - conflict.minimumM), toY(wallM), left, toY(0)), "clearance", QUIET)];
    }
    case "conductor": {
      const heightM = conductorHeightM(subject);
      if (heightM === null) return [];
      return [area(circle(left, toY(heightM), conflict.clearToM * mmPerM), "clearance", QUIET)];
    }
  }
}

/** The way, wall, roof or conductor itself. */
export function thingShapes(subject: SectionSubject, layout: SectionLayout): Shape[] {
  const { conflict } = subject;
  if (conflict === null) return [];
  switch (thingOf(conflict.kind)) {
    case "way":
      return [...pavement(layout, true), ...vehicle(layout)];
    case "walk":
      return pavement(layout, false);
    case "sight":
      return [];
    case "wall":
    case "roof":
      return building(subject, conflict, layout);
    case "conductor":
      return conductor(subject, conflict, layout);
  }
}

/** Lines that show how far the work goes: the target over a way or roof, the plane before a wall. */
export function clearToLine(subject: SectionSubject, layout: SectionLayout): Shape[] {
  const { conflict } = subject;
  if (conflict === null) return [];
  const { toX, toY, nearM, farM } = layout;
  const dashed = { ...THIN, widthMm: 0.25, dashMm: [2.2, 0.6, 0.4, 0.6] };
  const thing = thingOf(conflict.kind);
  if (thing === "conductor") return [];
  if (thing === "wall") {
    const x = toX(Math.max(0, nearM - conflict.clearToM));
    const topM = Math.min(subject.heightOfThingM ?? subject.tree.height.valueM, layout.highestM);
    return [
      line(
        [
          [x, toY(0)],
          [x, toY(topM)],
        ],
        dashed,
      ),
    ];
  }
  const y = toY(targetHeightM(subject, conflict));
  return [
    line(
      [
        [toX(nearM) - (nearM > 0 ? 1 : 0), y],
        [toX(farM) + 1.2, y],
      ],
      dashed,
    ),
  ];
}

function pavement(layout: SectionLayout, hasCurb: boolean): Shape[] {
  const { toX, groundMm, nearM, farM, mmPerM, isCut } = layout;
  const left = toX(nearM);
  const right = toX(farM);
  const shapes: Shape[] = [area(rectangle(left, groundMm, right, groundMm + 0.9), "ground", THIN)];
  if (hasCurb && nearM > 0) {
    const curbMm = Math.max(0.5, 0.15 * mmPerM);
    shapes.push(area(rectangle(left - curbMm, groundMm, left, groundMm + 1.3), "paper", THIN));
  }
  if (isCut) shapes.push(breakLine(right, groundMm - 1.2, groundMm + 2));
  return shapes;
}

/** A box vehicle from behind, standing in the lane nearest to the tree; left out where the lane is too narrow for it. */
function vehicle(layout: SectionLayout): Shape[] {
  const { toX, toY, nearM, farM, mmPerM } = layout;
  if (nearM < 0 || farM - nearM < VEHICLE_WIDTH_M + 0.2) return [];
  const middleM = nearM + Math.min((farM - nearM) / 2, 0.3 + VEHICLE_WIDTH_M / 2 + 0.3);
  const half = (VEHICLE_WIDTH_M / 2) * mmPerM;
  const x = toX(middleM);
  const top = toY(VEHICLE_HEIGHT_M);
  const floor = toY(0.55);
  const wheel = (atMm: number) => area(rectangle(atMm, toY(0.95), atMm + 0.28 * mmPerM, toY(0)), "quiet");
  const box: Point[] = [
    [x - half, floor],
    [x - half, top],
    [x + half, top],
    [x + half, floor],
    [x - half, floor],
  ];
  return [
    wheel(x - half + 0.1 * mmPerM),
    wheel(x + half - 0.38 * mmPerM),
    line(box, QUIET),
    line(
      [
        [x, top + 0.4 * mmPerM],
        [x, floor - 0.25 * mmPerM],
      ],
      QUIET,
    ),
  ];
}

function building(subject: SectionSubject, conflict: ConflictRecord, layout: SectionLayout): Shape[] {
  const { toX, toY, nearM, farM, groundMm } = layout;
  const left = toX(nearM);
  const right = toX(farM);
  const knownM = thingOf(conflict.kind) === "roof" ? conflict.datumM : (subject.heightOfThingM ?? null);
  const roofM = knownM !== null && knownM <= layout.highestM ? knownM : null;
  const topMm = toY(roofM ?? Math.min(knownM ?? subject.tree.height.valueM, layout.highestM));
  const shapes: Shape[] = [area(rectangle(left, topMm, right, groundMm + 1.6), "ground")];
  const wall: Point[] = [
    [left, groundMm + 1.6],
    [left, topMm],
  ];
  shapes.push(line(roofM === null ? wall : [...wall, [right, topMm]], EDGE));
  shapes.push(breakLine(right, topMm, groundMm + 1.6));
  if (roofM !== null) {
    const slab = topMm + Math.min(0.9, (groundMm - topMm) / 4);
    shapes.push(
      line(
        [
          [left, slab],
          [right, slab],
        ],
        THIN,
      ),
    );
  }
  return shapes;
}

function conductor(subject: SectionSubject, conflict: ConflictRecord, layout: SectionLayout): Shape[] {
  const { toX, toY, nearM, mmPerM, groundMm } = layout;
  const heightM = conductorHeightM(subject);
  const x = toX(nearM);
  if (heightM === null) {
    const plumb: Point[] = [
      [x, layout.drawnTopMm],
      [x, groundMm],
    ];
    return [line(plumb, { ...THIN, dashMm: [2.2, 0.6, 0.4, 0.6] })];
  }
  const y = toY(heightM);
  const shapes: Shape[] = [
    line(
      [
        [x, y + 0.6],
        [x, groundMm],
      ],
      { ...QUIET, dashMm: [0.5, 0.7] },
    ),
  ];
  const minimumMm = conflict.minimumM * mmPerM;
  if (minimumMm > 0.5) shapes.push(area(circle(x, y, minimumMm), "none", THIN));
  const approachM = subject.setting?.conductor?.withId === conflict.withId ? subject.setting.conductor.approachM : null;
  if (approachM !== null && Math.abs(approachM - conflict.clearToM) > 0.05) {
    shapes.push(area(circle(x, y, approachM * mmPerM), "none", { ...THIN, dashMm: [0.6, 0.6] }));
  }
  shapes.push(area(circle(x, y, 0.55), "ink"));
  return shapes;
}

/** The drafting sign for "goes on": a vertical line with one kink. */
function breakLine(xMm: number, topMm: number, bottomMm: number): Shape {
  const middle = (topMm + bottomMm) / 2;
  return line(
    [
      [xMm, topMm],
      [xMm, middle - 0.8],
      [xMm - 0.7, middle - 0.3],
      [xMm + 0.7, middle + 0.3],
      [xMm, middle + 0.8],
      [xMm, bottomMm],
    ],
    THIN,
  );
}
