import type { RoadClass, RoadControl } from "../../model/surroundings.ts";
import { turnDeg } from "../../plane/bearing.ts";
import type { SightRules } from "../../standard/sight-rules.ts";
import type { Intersection, Leg } from "./find-intersections.ts";
import type { ControlSign } from "./read-signs.ts";
import type { SignedLegs } from "./signed-legs.ts";

/** How traffic on a leg is controlled where it comes to an intersection. */
export interface LegControl {
  readonly control: RoadControl;
  /** Where that is taken from, in words. */
  readonly source: string;
  /** Whether no sign or signal says so. */
  readonly isAssumed: boolean;
  /** Why it is in doubt, one sentence; null when a sign whose leg is recorded says so. */
  readonly doubt: string | null;
}

/** A leg goes straight on into another within this, degrees. Our choice. */
const MAX_BEND_DEG = 45;

/** Rank of classes for the question who gives way: roads of one rank are equals. Ramps of freeways give way to the street they end in. */
const RANK: Readonly<Record<RoadClass, number>> = {
  "service-alley": 0,
  freeway: 1,
  "local-access": 2,
  "local-residential": 2,
  collector: 3,
  "rural-two-lane": 3,
  "minor-arterial": 4,
  "major-arterial": 5,
};
const ARTERIAL_RANK = RANK["minor-arterial"];

/**
 * The control of each leg of an intersection on which traffic arrives, by its direction. Signals on record hold for all legs; signs for the
 * legs they face, and, assumed, for the leg straight across from one where the road crossed ranks at least as high. Where nothing is on record, the
 * standard's policy by road class is taken, and said to be. Where every leg has a stop sign all ways stop. Legs of service ways without a sign
 * of their own are left out: they are driveways. Nothing is answered where ramps alone meet, or a driveway and a street.
 */
export function legControls(
  intersection: Intersection,
  signed: SignedLegs,
  policy: SightRules["assume"],
): ReadonlyMap<number, LegControl> {
  const controls = new Map<number, LegControl>();
  const arriving = intersection.legs.filter(
    (leg) => leg.arrives && leg.opening === null && (!leg.isService || signed.signs.has(leg.direction)),
  );
  const signal = signed.signals.get(intersection.node);
  if (signal !== undefined) {
    for (const leg of arriving) controls.set(leg.direction, known("signal", `signal ${signal.id}`, null));
    return controls;
  }
  const atNode = signed.atNodes.get(intersection.node);
  const signs = arriving.map((leg) => signed.signs.get(leg.direction) ?? null);
  if (atNode !== undefined) return controlsAtNode(arriving, atNode, policy);
  const isAllWay =
    signs.some((sign) => sign?.scope === "all-way") ||
    (arriving.length >= 2 && signs.every((sign) => sign?.kind === "stop"));
  if (isAllWay) {
    const sign = signs.find((one) => one?.scope === "all-way") ?? signs[0]!;
    for (const leg of arriving) controls.set(leg.direction, known("all-way-stop", wordsOf(sign!), facingDoubt(sign!)));
    return controls;
  }
  if (signs.every((sign) => sign === null)) {
    const isStreet = arriving.some(({ road }) => road.roadClass !== "freeway");
    const streets = intersection.legs.filter(({ isService }) => !isService).length;
    return isStreet && streets >= 3 ? assumedControls(arriving, policy) : controls;
  }
  arriving.forEach((leg, at) => {
    const sign = signs[at]!;
    if (sign !== null) {
      controls.set(leg.direction, known(sign.kind, wordsOf(sign), facingDoubt(sign)));
      return;
    }
    const across = arriving.findIndex(
      (other, there) =>
        signs[there] !== null && 180 - Math.abs(turnDeg(leg.bearingDeg, other.bearingDeg)) <= MAX_BEND_DEG,
    );
    const opposite = across < 0 ? null : signs[across]!;
    const crossing = arriving.filter((_, there) => there !== at && there !== across);
    const isLesser =
      crossing.length >= 2 && crossing.every(({ road }) => RANK[road.roadClass] >= RANK[leg.road.roadClass]);
    controls.set(
      leg.direction,
      opposite !== null && isLesser
        ? assumed(opposite.kind, `as the leg straight across, which has ${opposite.kind} sign ${opposite.id}`)
        : known("none", "the other road has the sign", null),
    );
  });
  return controls;
}

function controlsAtNode(
  arriving: readonly Leg[],
  sign: ControlSign,
  policy: SightRules["assume"],
): ReadonlyMap<number, LegControl> {
  const controls = new Map<number, LegControl>();
  if (sign.scope === "all-way") {
    for (const leg of arriving) controls.set(leg.direction, known("all-way-stop", wordsOf(sign), null));
    return controls;
  }
  const lesser = lesserLegs(arriving);
  if (lesser.size === 0) return assumedControls(arriving, policy);
  for (const leg of arriving) {
    controls.set(
      leg.direction,
      lesser.has(leg)
        ? known(sign.kind, `${wordsOf(sign)}, for the lesser road`, "Which legs the sign controls is not recorded.")
        : known("none", "the other road has the sign", null),
    );
  }
  return controls;
}

function assumedControls(arriving: readonly Leg[], policy: SightRules["assume"]): ReadonlyMap<number, LegControl> {
  const controls = new Map<number, LegControl>();
  const lesser = lesserLegs(arriving);
  const classes = [...new Set(arriving.map(({ road }) => road.roadClass))].sort(
    (one, other) => RANK[one] - RANK[other],
  );
  const top = RANK[classes[classes.length - 1] ?? "service-alley"];
  const equal = top >= ARTERIAL_RANK ? policy.equalArterial : policy.equalLocal;
  for (const leg of arriving) {
    const control = lesser.size === 0 ? equal : lesser.has(leg) ? policy.minor : "none";
    const why = lesser.size === 0 ? `roads of one rank, ${classes.join(" and ")}` : classes.join(" meets ");
    controls.set(leg.direction, assumed(control, why));
  }
  return controls;
}

/** Legs of a lower rank than the highest; none where all rank alike. */
function lesserLegs(arriving: readonly Leg[]): ReadonlySet<Leg> {
  const top = arriving.reduce((most, { road }) => Math.max(most, RANK[road.roadClass]), 0);
  return new Set(arriving.filter(({ road }) => RANK[road.roadClass] < top));
}

const known = (control: RoadControl, source: string, doubt: string | null): LegControl => ({
  control,
  source,
  isAssumed: false,
  doubt,
});

/** A control nobody recorded. */
function assumed(control: RoadControl, why: string): LegControl {
  return {
    control,
    source: `assumed: ${why}`,
    isAssumed: true,
    doubt: `How traffic is controlled here is not recorded; ${WORDS[control]} is assumed (${why}).`,
  };
}

const WORDS: Readonly<Record<RoadControl, string>> = {
  stop: "a stop sign",
  "all-way-stop": "an all-way stop",
  yield: "a yield sign",
  signal: "a signal",
  none: "no control",
};

const wordsOf = (sign: ControlSign): string =>
  `${sign.kind} sign ${sign.id}${sign.facing === null ? ", facing not recorded: the nearest leg on its side" : ", by its facing"}`;

const facingDoubt = (sign: ControlSign): string | null =>
  sign.facing === null ? `Which leg the ${sign.kind} sign controls is not recorded.` : null;
