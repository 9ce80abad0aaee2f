import { CREWS, type Crew, URGENCIES, type Urgency } from "../../core/model/terms.ts";
import { WORDS } from "../words.ts";
import type { MonthBar } from "./month-bars.ts";

/** What the bars are split by. */
export type Split = "urgency" | "crew";

/** A layer of the bars: its style class and its word. */
export interface SplitPart {
  readonly key: Urgency | Crew;
  readonly word: string;
}

const URGENCY_PARTS = URGENCIES.filter((urgency) => urgency !== "clear").map(
  (key): SplitPart => ({ key, word: WORDS.urgency[key] }),
);
const CREW_PARTS = CREWS.map((key): SplitPart => ({ key, word: WORDS.crew[key] }));

/** The layers of a split from the bottom of a bar up: what is wanted first stands on the ground. `clear` has no work. */
export const splitParts = (split: Split): readonly SplitPart[] => (split === "crew" ? CREW_PARTS : URGENCY_PARTS);

/** The layers that any of the bars has work in. */
export const usedParts = (split: Split, bars: readonly MonthBar[]): readonly SplitPart[] =>
  splitParts(split).filter(({ key }) => bars.some((bar) => partHours(bar, key) > 0));

/** Hours of a bar in one layer. */
export const partHours = (bar: MonthBar, key: Urgency | Crew): number =>
  key in bar.hoursBy ? bar.hoursBy[key as Urgency] : bar.hoursByCrew[key as Crew];
