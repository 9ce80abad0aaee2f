import type { TrafficControl } from "../../model/zone.ts";
import { metersFromFeet } from "../../units/length.ts";

/** Flaggers stand about this far ahead of the taper (a second-hand copy of TA-10 says 50 to 100 ft). */
const FLAGGER_AHEAD_M = metersFromFeet(100);
/** Road drawn past the outermost thing. */
const ROOM_M = 6;

/** A row of devices: from the roadside (share 0) to the far edge of the closure (share 1). */
export interface DeviceRow {
  readonly fromM: number;
  readonly toM: number;
  readonly fromShare: number;
  readonly toShare: number;
  readonly devices: number;
}

/** What is drawn where along the road; meters downstream from the start of the upstream taper. */
export interface SketchParts {
  readonly fromM: number;
  readonly totalM: number;
  readonly work: readonly [fromM: number, toM: number];
  readonly rows: readonly DeviceRow[];
  readonly flaggersM: readonly { readonly atM: number; readonly isNear: boolean }[];
  readonly signs: readonly { readonly atM: number; readonly isNear: boolean; readonly letter: string }[];
  readonly dimensions: readonly { readonly fromM: number; readonly toM: number; readonly name: string }[];
  /** What letters and marks mean, in words. */
  readonly key: string;
}

/**
 * Traffic of the near lanes meets: signs, flagger, taper, buffer, work space, and where a lane is closed the downstream taper. With flaggers
 * the far traffic meets the same from the other side, with the taper on its own end of the closure.
 */
export function sketchParts(control: TrafficControl, bufferM: number, signSpacingM: readonly number[]): SketchParts {
  const [upstream, downstream] = control.tapers;
  const taperM = upstream!.lengthM;
  const workFrom = taperM + bufferM;
  const workTo = workFrom + control.workM;
  const endM = workTo + (downstream?.lengthM ?? 0);
  const isTwoWay = control.approaches === 2;
  const aheadM = control.flaggers > 0 ? FLAGGER_AHEAD_M : 0;
  const spacings = signSpacingM.slice(0, control.signs.length);
  const distances = spacings.map((_, at) => spacings.slice(0, at + 1).reduce((sum, one) => sum + one, 0));
  const signs = distances.flatMap((awayM, at) => {
    const letter = "ABC"[at]!;
    const near = { atM: -aheadM - awayM, isNear: true, letter };
    return isTwoWay ? [near, { atM: endM + aheadM + awayM, isNear: false, letter }] : [near];
  });
  const flaggersM =
    control.flaggers === 0
      ? []
      : [
          { atM: -aheadM, isNear: true },
          { atM: endM + aheadM, isNear: false },
        ];
  const places = [0, endM, ...signs.map(({ atM }) => atM), ...flaggersM.map(({ atM }) => atM)];
  const fromM = Math.min(...places) - ROOM_M;
  const rows: DeviceRow[] = [
    { fromM: 0, toM: taperM, fromShare: 0, toShare: 1, devices: upstream!.devices },
    { fromM: taperM, toM: workTo, fromShare: 1, toShare: 1, devices: control.tangentDevices },
  ];
  if (downstream !== undefined)
    rows.push({ fromM: workTo, toM: endM, fromShare: 1, toShare: 0, devices: downstream.devices });
  const lastA = Math.min(0, ...signs.filter(({ isNear }) => isNear).map(({ atM }) => atM));
  const dimensions = [
    ...distances.map((awayM, at) => ({
      fromM: -aheadM - awayM,
      toM: -aheadM - awayM + spacings[at]!,
      name: "ABC"[at]!,
    })),
    ...(aheadM > 0 ? [{ fromM: -aheadM, toM: 0, name: "" }] : []),
    { fromM: 0, toM: taperM, name: "taper" },
    { fromM: taperM, toM: workFrom, name: "buffer" },
    { fromM: workFrom, toM: workTo, name: "work" },
    ...(downstream === undefined ? [] : [{ fromM: workTo, toM: endM, name: "end" }]),
  ].filter(({ fromM: start }) => start >= lastA - 1e-9);
  const devices = rows.reduce((sum, row) => sum + row.devices, 0);
  const named = control.signs.map((words, at) => `${"ABC"[at]!} ${words}`).join(", ");
  const flagged = control.flaggers > 0 ? ` Circles F: ${control.flaggers} flaggers.` : "";
  const walked = control.isWalkClosed ? " Bars: walk closed." : "";
  return {
    fromM,
    totalM: Math.max(...places) + ROOM_M - fromM,
    work: [workFrom, workTo],
    rows,
    flaggersM,
    signs,
    dimensions,
    key: `Signs: ${named}. Dots: ${devices} cones or drums.${flagged}${walked} Hatched: work space.`,
  };
}
