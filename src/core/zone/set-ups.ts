import { dropReachM, type Stop, stopPositions } from "./stops.ts";

/** Trees in a row nearer than this are worked behind one set-up. Our policy: a closure is kept as short as the work allows. */
const SAME_SET_UP_M = 30;

/** One place where a closure stands while trees are worked. */
export interface SetUp {
  readonly stops: readonly Stop[];
  readonly hours: number;
  /** Length in meters of the work space: from the first drop zone to the last, in whole meters up. */
  readonly lengthM: number;
}

/** Set-ups of stops in their order of work: stops that follow each other on the same side of a street within 30 m share one. */
export function setUpsOf(stops: readonly Stop[], sides: readonly (string | null)[]): SetUp[] {
  const xy = stopPositions(stops);
  const runs: number[][] = [];
  stops.forEach((_, at) => {
    const apartM = at === 0 ? Infinity : Math.hypot(xy[2 * at]! - xy[2 * at - 2]!, xy[2 * at + 1]! - xy[2 * at - 1]!);
    const isSame = at > 0 && apartM <= SAME_SET_UP_M && sides[at] !== null && sides[at] === sides[at - 1];
    if (isSame) runs[runs.length - 1]!.push(at);
    else runs.push([at]);
  });
  return runs.map((run) => {
    const members = run.map((at) => stops[at]!);
    let spanM = 0;
    for (const a of run) {
      for (const b of run)
        spanM = Math.max(spanM, Math.hypot(xy[2 * a]! - xy[2 * b]!, xy[2 * a + 1]! - xy[2 * b + 1]!));
    }
    return {
      stops: members,
      hours: members.reduce((sum, { hours }) => sum + hours, 0),
      lengthM: Math.ceil(spanM + 2 * Math.max(...members.map(dropReachM))),
    };
  });
}
