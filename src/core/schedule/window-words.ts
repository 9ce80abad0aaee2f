import type { SeasonRule } from "../standard/standard.ts";
import { ruleSpan, type SeasonWindows } from "./season-windows.ts";

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"] as const;

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
  const disease = against.some((rule) => rule.rank === "disease" || rule.rank === "law");
  const care = disease
    ? "Take the least, disinfect tools, paint wounds at once where the disease rule asks for it, and ask the authority about debris."
    : "Take the least that removes the hazard.";
  return `${any} It may fall outside the season (${rules}). ${care}`;
}

function spanWords(rule: SeasonRule, isSouth: boolean): string {
  const [from, to] = ruleSpan(rule, isSouth);
  return `${dayWords(from)} to ${dayWords(to)}, ${rule.reason}`;
}

const dayWords = (monthDay: string): string =>
  `${Number(monthDay.slice(3))} ${MONTHS[Number(monthDay.slice(0, 2)) - 1] ?? ""}`;
