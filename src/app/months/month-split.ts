import { CREWS, type Crew, URGENCIES, type Urgency } from "../../core/model/terms.ts";
import { WORDS } from "../words.ts";
import type { ForecastMonth } from "./forecast-months.ts";
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

/** A lighter layer over the plan's own: work that is forecast. */
export interface ForecastPart {
  /** Its style class. */
  readonly key: string;
  readonly word: string;
  readonly hoursOf: (forecast: ForecastMonth) => number;
}

const CAUSE_PARTS: readonly ForecastPart[] = [
  { key: "return", word: "returns", hoursOf: ({ hoursByCause }) => hoursByCause.return },
  { key: "training", word: "young trees", hoursOf: ({ hoursByCause }) => hoursByCause.training },
  { key: "growth", word: "growth", hoursOf: ({ hoursByCause }) => hoursByCause.growth },
];
const CREW_FORECAST_PARTS = CREWS.map(
  (crew): ForecastPart => ({
    key: `${crew} pale`,
    word: WORDS.crew[crew],
    hoursOf: ({ hoursByCrew }) => hoursByCrew[crew],
  }),
);

/** The forecast layers of a split, from the plan's own work up: by why the visit is expected, or by crew. */
export const forecastParts = (split: Split): readonly ForecastPart[] =>
  split === "crew" ? CREW_FORECAST_PARTS : CAUSE_PARTS;

/** Hours of a bar in one layer. */
export const partHours = (bar: MonthBar, key: Urgency | Crew): number =>
  key in bar.hoursBy ? bar.hoursBy[key as Urgency] : bar.hoursByCrew[key as Crew];
