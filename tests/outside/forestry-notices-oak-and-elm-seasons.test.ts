// Sources, all second-hand (press notices quoting the authority, not the rules themselves): Wisconsin DNR and Minnesota, oaks 1 April to
// 31 July; Michigan DNR, highest risk 15 April to 15 July; Texas, oaks 1 February to 30 June; Saskatchewan, elms 1 April to 31 August
// by law; Alberta, elms 1 April to 30 September by law (one notice says 1 October); Iowa DNR, oaks safe 15 October to 1 March. Read: Univ. of
// California, pines October to January only. From memory: Manitoba, elms 1 April to 31 July by law.
import { expect, test } from "vitest";
import { rulesAgainst, rulesFor } from "../../src/core/schedule/season-windows.ts";
import { usCommon } from "../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../src/core/units/calendar.ts";
import { traits, tree } from "../core/prescription/scene.ts";

test.each([
  ["Quercus", "US-WI", "2026-03-31", "2026-04-01", "2026-07-31", "2026-08-01"],
  ["Quercus", "US-MN", "2026-03-31", "2026-04-01", "2026-07-31", "2026-08-01"],
  ["Quercus", "US-MI", "2026-04-14", "2026-04-15", "2026-07-15", "2026-07-16"],
  ["Quercus", "US-TX", "2026-01-31", "2026-02-01", "2026-06-30", "2026-07-01"],
  ["Quercus", "US-IA", "2026-03-01", "2026-03-02", "2026-10-14", "2026-10-15"],
  ["Ulmus", "CA-MB", "2026-03-31", "2026-04-01", "2026-07-31", "2026-08-01"],
  ["Ulmus", "CA-SK", "2026-03-31", "2026-04-01", "2026-08-31", "2026-09-01"],
  ["Ulmus", "CA-AB", "2026-03-31", "2026-04-01", "2026-09-30", "2026-10-01"],
  ["Pinus", "US-CA", "2026-01-31", "2026-02-01", "2026-09-30", "2026-10-01"],
])("%s in %s", (genus, region, before, first, last, after) => {
  const standard = usCommon();
  // Evergreen here, so that no rule of deciduous trees is counted in.
  const rules = rulesFor(tree({ traits: traits({ genus, isEvergreen: true }) }), standard.seasons, region);
  const isClosed = (date: string) => rulesAgainst(rules, false, isoDate(date)).length > 0;
  expect([before, first, last, after].map(isClosed)).toEqual([false, true, true, false]);
});
