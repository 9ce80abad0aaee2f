import type { SightMovement } from "../core/model/surroundings.ts";

/** What a card says of a driver's view. */
export interface SightWords {
  /** Before the driver whose view it is. */
  readonly viewOf: string;
  readonly driver: Readonly<Record<SightMovement, string>>;
  readonly looking: Readonly<Record<"left" | "right", string>>;
  /** Between the length that must be seen and the speed it goes with. */
  readonly mustBeSeen: string;
  /** Before the distance from which a sign or signal must be seen, and between it and the speed. */
  readonly seenFrom: string;
  readonly at: string;
  readonly nothingHidden: string;
}

export const SIGHT_WORDS: SightWords = {
  viewOf: "view of",
  driver: {
    "left-turn": "a stopped driver who turns left",
    "right-turn": "a stopped driver who turns right",
    crossing: "a stopped driver who crosses",
    yield: "a driver who yields",
    "no-control": "a driver who comes to an intersection without control",
    "all-way-stop": "a driver at an all-way stop",
    "left-from-major": "a driver who turns across oncoming traffic",
    "right-on-red": "a driver who turns on red",
    "first-cars": "the first driver at a signal",
    corner: "drivers at the corner",
    driveway: "a driver who leaves a driveway",
    curve: "a driver in the curve",
    "sign-face": "a driver who comes toward the sign",
    "signal-face": "a driver who comes toward the signal",
  },
  looking: { left: "looking left", right: "looking right" },
  mustBeSeen: "must be seen at",
  seenFrom: "it must be seen from",
  at: "at",
  nothingHidden:
    "By this estimate trees hide none of it now, where buildings leave it open; the standard asks for the whole window.",
};
