import { pascalsFromPsf } from "../units/force.ts";
import { metersFromInches } from "../units/length.ts";
import { celsiusFromFahrenheit } from "../units/temperature.ts";

export const LOAD_CASE_IDS = [
  "still",
  "maximum-temperature",
  "hot-air",
  "wind-6-psf",
  "wind-8-psf",
  "light-loading",
  "heavy-loading",
] as const;
export type LoadCaseId = (typeof LOAD_CASE_IDS)[number];

/** A state of weather in which a wire is looked at. The wire is taken to have the temperature of the case; heating by current is not modeled. */
export interface LoadCase {
  readonly id: LoadCaseId;
  readonly temperatureC: number;
  readonly windPa: number;
  /** Radial thickness of ice. */
  readonly iceM: number;
  readonly source: string;
}

const loadCase = (id: LoadCaseId, temperatureF: number, windPsf: number, iceIn: number, source: string): LoadCase => ({
  id,
  temperatureC: celsiusFromFahrenheit(temperatureF),
  windPa: pascalsFromPsf(windPsf),
  iceM: metersFromInches(iceIn),
  source,
});

const RULE_43 = "CPUC General Order 95, Rule 43";

/** Every case, none of which combines the greatest temperature with wind. */
export const LOAD_CASES: Readonly<Record<LoadCaseId, LoadCase>> = {
  still: loadCase("still", 60, 0, 0, `${RULE_43}, normal temperature`),
  "maximum-temperature": loadCase("maximum-temperature", 130, 0, 0, `${RULE_43}, maximum for sag`),
  "hot-air": loadCase("hot-air", 120, 0, 0, "California Public Resources Code 4293"),
  "wind-6-psf": loadCase("wind-6-psf", 60, 6, 0, `pressure of ${RULE_43}, heavy; 60 F by policy`),
  "wind-8-psf": loadCase("wind-8-psf", 60, 8, 0, `pressure of ${RULE_43}, light; 60 F by policy`),
  "light-loading": loadCase(
    "light-loading",
    25,
    8,
    0,
    `${RULE_43}, light loading, as in its forerunner General Order 64-A`,
  ),
  "heavy-loading": loadCase("heavy-loading", 0, 6, 0.5, `${RULE_43}, heavy loading`),
};

/** The case in which a sag is stated where nothing else is said. */
export const STRINGING_CASE: LoadCase = LOAD_CASES.still;

/** Names that a rule can give its cases. */
export const RULE_CASE_NAMES = ["still", "go-95-rule-35", "prc-4293", "blow-out"] as const;
export type RuleCases = (typeof RULE_CASE_NAMES)[number];

/**
 * Cases in which each rule's distance must hold; the wire at rest at 60 F is always the first. GO 95 Rule 35 asks it under normal conditions,
 * read here as the wire at rest at any temperature of Rule 43; PRC 4293 at any position of the wire up to 120 F of air, read here as heat or wind,
 * not storm wind in the heat, which it does not name. `blow-out` is what a planner adds, `still` the wire as it hangs on a mild day: our policy.
 */
export const RULE_CASES = {
  still: ["still"],
  "go-95-rule-35": ["still", "maximum-temperature"],
  "prc-4293": ["still", "hot-air", "wind-6-psf"],
  "blow-out": ["still", "maximum-temperature", "wind-6-psf"],
} as const satisfies Readonly<Record<RuleCases, readonly LoadCaseId[]>>;

/** Cases of a rule that names none: wind counts as well, and nothing that a wire does in ordinary weather is left out. Our policy. */
export const DEFAULT_RULE_CASES: RuleCases = "blow-out";
