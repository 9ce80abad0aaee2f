import { catenaryDropShare, parabolaDropShare } from "./drop-share.ts";

/**
 * A wire between two attachments with all its places in one load case: it swings about its attachments, either way, from rest to `swingRad`,
 * and its sag goes from `stillSagM` to `swungSagM` evenly with the angle. Plain numbers in meters of one plane that a loop may fill anew.
 */
export interface SweptWire {
  ax: number;
  ay: number;
  /** Height of the wire's first end at rest: where an insulator string hangs, its lower end. */
  az: number;
  bx: number;
  by: number;
  bz: number;
  stillSagM: number;
  swungSagM: number;
  swingRad: number;
  /** Length of the free insulator string at both ends; 0 for pins, posts and dead ends. */
  stringM: number;
  /** H / w of the catenary that gives the shape; 0 takes the parabola. */
  parameterM: number;
}

/** A wire at rest, as the still-air model has it. */
export const stillWire = (
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  sagM: number,
): SweptWire => ({ ax, ay, az, bx, by, bz, stillSagM: sagM, swungSagM: sagM, swingRad: 0, stringM: 0, parameterM: 0 });

/** A point, in meters of a plane and of height. */
export interface WirePoint {
  xM: number;
  yM: number;
  zM: number;
}

export const spanOf = (wire: SweptWire): number => Math.hypot(wire.bx - wire.ax, wire.by - wire.ay);

/**
 * Writes where a wire is at a share of its span in plan, 0 to 1, swung by an angle in radians; positive to the left of the way from its first
 * end to its second. Exact for a level span; on a slope each point swings in the plane square to the span. A span of no length does not swing.
 */
export function wirePointInto(into: WirePoint, wire: SweptWire, share: number, angleRad: number): void {
  const dx = wire.bx - wire.ax;
  const dy = wire.by - wire.ay;
  const dz = wire.bz - wire.az;
  const spanM = Math.sqrt(dx * dx + dy * dy);
  const swung = wire.swingRad > 0 ? Math.abs(angleRad) / wire.swingRad : 0;
  const sagM = wire.stillSagM + (wire.swungSagM - wire.stillSagM) * swung;
  const shape = wire.parameterM > 0 ? catenaryDropShare(spanM, wire.parameterM, dz, share) : parabolaDropShare(share);
  const armM = wire.stringM + sagM * shape;
  const acrossM = spanM > 0 ? armM * Math.sin(angleRad) : 0;
  const turn = spanM > 0 ? acrossM / spanM : 0;
  into.xM = wire.ax + share * dx - turn * dy;
  into.yM = wire.ay + share * dy + turn * dx;
  into.zM = wire.az + share * dz + wire.stringM - armM * Math.cos(angleRad);
}

/** Farthest in meters that a wire gets from its chord in plan. */
export const blowOutOf = (wire: SweptWire): number =>
  (wire.stringM + Math.max(wire.stillSagM, wire.swungSagM)) * Math.sin(Math.min(wire.swingRad, Math.PI / 2));
