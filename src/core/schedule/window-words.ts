import type { SeasonRule } from "../standard/standard.ts";
import { formatMonthDay } from "../units/month-day.ts";
import { ruleSpan, type SeasonWindows } from "./season-windows.ts";

/** Why the window is what it is, in words. */
export function windowWords(seasons: SeasonWindows, isSouth: boolean): string {
  if (seasons.isAnyTime) return "Any time of year: no seasonal rule binds this tree here.";
  const kept = `Avoids ${seasons.rules.map((rule) => spanWords(rule, isSouth)).join("; ")}.`;
  if (seasons.setAside.length === 0) return kept;
  return `${kept} Set aside, as too few days would be left: ${seasons.setAside.map((rule) => spanWords(rule, isSouth)).join("; ")}.`;
}

/** Why safety work is allowed on any day, with the precautions that the rules it passes over ask for. */
export function hazardWords(against: readonly SeasonRule[], isSouth: boolean): string {
  const any = "Safety work: allowed at any time.";
  if (against.length === 0) return any;
  const rules = against.map((rule) => spanWords(rule, isSouth)).join("; ");
  const precautions = [...new Set(against.flatMap(({ precaution }) => precaution ?? []))].join(" ");
  const isDisease = against.some((rule) => rule.rank === "disease" || rule.rank === "law");
  const care = `Take the least that removes the hazard${isDisease ? ", and disinfect tools" : ""}.`;
  return `${any} It may fall outside the season (${rules}). ${care}${precautions === "" ? "" : ` ${precautions}`}`;
}

/** Whether a rule has the force of law or is advice, where that matters. */
const RANK_MARKS: Readonly<Record<SeasonRule["rank"], string>> = {
  law: " (law)",
  disease: " (advice)",
  species: "",
  preference: "",
};

/** The days that a season rule closes, with its reason. */
export function spanWords(rule: SeasonRule, isSouth: boolean): string {
  const [from, to] = ruleSpan(rule, isSouth);
  return `${formatMonthDay(from)} to ${formatMonthDay(to)}, ${rule.reason}${RANK_MARKS[rule.rank]}`;
}
