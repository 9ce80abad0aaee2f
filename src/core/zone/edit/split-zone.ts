import type { Zone } from "../../model/zone.ts";
import { islandsOf } from "../islands.ts";
import { LONGEST_STEP_M } from "../longest-step.ts";
import { splitRoute } from "../split-route.ts";
import { type Stop, stopPositions } from "../stops.ts";
import { walkingAmong } from "../walking.ts";
import { beyondLine } from "./beyond-line.ts";
import { freshZone } from "./fresh-zone.ts";
import { guardFinding } from "./guard-finding.ts";
import { unknownZone } from "./unknown-zone.ts";
import { stopsOf, type ZoneDesk } from "./zone-desk.ts";
import type { EditOf, SplitAt } from "./zone-edit.ts";
import type { Outcome, ZoneEditFinding } from "./zone-edit-result.ts";
import { zoneFinding } from "./zone-finding.ts";
import { zoneRemarks } from "./zone-remarks.ts";
import { zoneWith } from "./zone-with.ts";

/**
 * A zone parted in two or more. With chosen trees the rest stays, of work far apart the largest part, else the part with the first tree of the order of
 * work: it keeps id, name and planned day, and all parts the dates asked for and an order set by hand. Refused where all trees fall on one side.
 */
export function splitZone(desk: ZoneDesk, zones: readonly Zone[], edit: EditOf<"split">): Outcome {
  const zone = zones.find(({ zoneId }) => zoneId === edit.zoneId);
  if (zone === undefined) return unknownZone(edit.zoneId);
  const guard = guardFinding([zone], edit);
  if (guard !== null) return { refused: [guard] };
  const [staying, ...leaving] = partsOf(desk, stopsOf(desk, zone), edit.at).filter((part) => part.length > 0);
  if (staying === undefined || leaving.length === 0) return { refused: [nothingToPart(zone, edit.at)] };
  const kept = zoneWith(desk, zone, staying);
  let next = zones.map((one) => (one === zone ? kept : one));
  const made: Zone[] = [];
  for (const part of leaving) {
    const identity = {
      ...freshZone(desk, part, next),
      isHandOrdered: zone.isHandOrdered === true,
      askedWindow: zone.askedWindow ?? null,
    };
    const fresh = zoneWith(desk, identity, part);
    made.push(fresh);
    next = [...next, fresh];
  }
  return { zones: next, findings: [kept, ...made].flatMap((one) => zoneRemarks(desk, one, zone)) };
}

/** The parts, the one that stays first, each in the order of work. */
function partsOf(desk: ZoneDesk, stops: readonly Stop[], at: SplitAt): Stop[][] {
  switch (at.by) {
    case "trees": {
      const chosen = new Set(at.treeIds);
      return parted(stops, ({ tree }) => chosen.has(tree.id));
    }
    case "line": {
      const beyond = beyondLine(
        stops.map(({ tree }) => tree),
        at.line,
      );
      return parted(stops, (_, index) => beyond[index]!);
    }
    case "days":
      return daysOf(desk, stops);
    case "islands":
      // The sort is stable: of equally large ones that with the first tree stays.
      return islandsOf(stops, LONGEST_STEP_M).sort((a, b) => b.length - a.length);
  }
}

const parted = (stops: readonly Stop[], leaves: (stop: Stop, index: number) => boolean): Stop[][] => [
  stops.filter((stop, index) => !leaves(stop, index)),
  stops.filter(leaves),
];

function daysOf({ frame }: ZoneDesk, stops: readonly Stop[]): Stop[][] {
  const walking = walkingAmong(stops, stopPositions(stops), frame.streets);
  const starts = splitRoute(
    stops.map(({ hours, firstDay, lastDay, dueDay }, at) => ({
      hours,
      stepM: at === 0 ? 0 : walking.stepM(at - 1, at),
      firstDay,
      lastDay,
      dueDay,
    })),
    { hoursPerDay: frame.settings.hoursPerDay, longestStepM: LONGEST_STEP_M },
  );
  return starts.map((start, at) => stops.slice(start, starts[at + 1] ?? stops.length));
}

const nothingToPart = ({ zoneId, name }: Zone, at: SplitAt): ZoneEditFinding =>
  zoneFinding({
    code: "nothing-to-part",
    severity: "error",
    zoneId,
    reason: `${SIDES[at.by]} of zone ${name}.`,
    whatToDo: "Choose some of its trees but not all, or draw a line between them.",
  });

const SIDES: Readonly<Record<SplitAt["by"], string>> = {
  trees: "None of the chosen trees, or all of them, are trees",
  line: "The line leaves all trees on one side",
  days: "A crew-day holds all the work",
  islands: "No step over the longest parts the work",
};
