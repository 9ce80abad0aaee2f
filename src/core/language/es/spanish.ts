import type { Catalog } from "../catalog.ts";
import { CAUTIONS } from "./cautions.ts";
import { CONFLICTS } from "./conflicts.ts";
import { CUT_GUIDE } from "./cut-guide.ts";
import { DRAWINGS } from "./drawings.ts";
import { INSPECTION } from "./inspection.ts";
import { NOTICES } from "./notices.ts";
import { PAGES } from "./pages.ts";
import { REFERRALS } from "./referrals.ts";
import { SPANISH_SLOTS } from "./slots.ts";
import { SEASON_REASONS, TASKS } from "./tasks.ts";
import { THINGS } from "./things.ts";
import { TRAFFIC } from "./traffic.ts";
import { WORDS } from "./words.ts";

/** Spanish as crews in the Americas speak it. Ours, from the trade's words in common use; no published source. */
export const SPANISH: Catalog = {
  language: "es",
  slots: SPANISH_SLOTS,
  notice: "Traducido del inglés por el programa; donde los textos difieran, vale el paquete en inglés.",
  phrases: [
    ...CONFLICTS,
    ...TASKS,
    ...SEASON_REASONS,
    ...CAUTIONS,
    ...PAGES,
    ...NOTICES,
    ...TRAFFIC,
    ...CUT_GUIDE,
    ...THINGS,
    ...DRAWINGS,
    ...REFERRALS,
    ...WORDS,
    ...INSPECTION,
    ["{kinds}", "{kinds}"],
  ],
  short: (text) =>
    text
      .replace(/ pies? (\d+(?:\.\d+)?) pulg/g, "′ $1″")
      .replace(/ pies?(?![\p{L}])/gu, "′")
      .replace(/ pulg/g, "″"),
  joined: (text) => text.replace(/(?<= |^)(de|De|a|A) el (?=\p{Ll})/gu, (_, word: string) => `${word}l `),
};
