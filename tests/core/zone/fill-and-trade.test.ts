import fc from "fast-check";
import { expect, test } from "vitest";
import type { Zone } from "../../../src/core/model/zone.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { buildZones } from "../../../src/core/zone/build-zones.ts";
import { mayShareDay } from "../../../src/core/zone/day.ts";
import { NearStops } from "../../../src/core/zone/near-stops.ts";
import { plannedStops, type Stop } from "../../../src/core/zone/stops.ts";
import { streetLines } from "../../../src/core/zone/streets/street-lines.ts";
import { Streets } from "../../../src/core/zone/streets/streets.ts";
import { tradeStops } from "../../../src/core/zone/trade-stops.ts";
import { WaysBetween } from "../../../src/core/zone/ways-between.ts";
import { planOfWork, type Work } from "./plan-of-work.ts";

const standard = usCommon();
const zonesOf = (works: readonly Work[], zones: readonly Zone[] = []): Zone[] =>
  buildZones(planOfWork(works, { zones }), standard);

/** Straight distance in meters by the places of the works themselves. */
const apartM = (a: Work, b: Work): number => Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]);

const anyWorks = fc
  .array(
    fc.record({
      x: fc.integer({ min: 0, max: 1800 }),
      y: fc.integer({ min: 0, max: 700 }),
      hours: fc.integer({ min: 2, max: 14 }).map((tenths) => tenths / 10),
      urgency: fc.constantFrom("now" as const, "next-window" as const),
      crew: fc.constantFrom("ground" as const, "aerial" as const),
    }),
    { minLength: 1, maxLength: 90 },
  )
  .map((rows) => rows.map(({ x, y, ...visit }, at): Work => ({ id: `t${at}`, at: [x, y], visit })));

test("every zone is in one piece: steps of 300 m at most lead from each tree to each other", () => {
  fc.assert(
    fc.property(anyWorks, (works) => {
      for (const { treeIds } of zonesOf(works)) {
        const members = treeIds.map((id) => works[Number(id.slice(1))]!);
        const reached = members.slice(0, 1);
        for (let at = 0; at < reached.length; at += 1) {
          // Two parts in a million: the plane's scale.
          for (const one of members)
            if (!reached.includes(one) && apartM(reached[at]!, one) <= 300.01) reached.push(one);
        }
        expect(reached.length).toBe(members.length);
      }
    }),
    { seed: 21, numRuns: 40 },
  );
});

test("a tree of another urgency than most of its zone stands within 100 m of one of these", () => {
  fc.assert(
    fc.property(anyWorks, (works) => {
      for (const { treeIds } of zonesOf(works)) {
        const members = treeIds.map((id) => works[Number(id.slice(1))]!);
        const now = members.filter(({ visit }) => visit?.urgency === "now");
        const others = members.filter(({ visit }) => visit?.urgency !== "now");
        if (now.length === 0 || others.length === 0) continue;
        const [main, few] = now.length >= others.length ? [now, others] : [others, now];
        // Work taken along one by one can turn which is most; so one of either is near, and all are where few are fewer than half.
        const near = few.filter((one) => main.some((other) => apartM(one, other) <= 100.01));
        expect(near.length).toBeGreaterThan(0);
      }
    }),
    { seed: 22, numRuns: 40 },
  );
});

test("a leftover too far from any day with room stays its own small zone and says so", () => {
  // Twelve trees of half an hour are a day of 6 h; one more stands 310 m past the last of them.
  const works = Array.from({ length: 12 }, (_, at): Work => ({ id: `t${at}`, at: [at * 12, 0] }));
  const far: Work = { id: "t12", at: [132 + 310, 0] };
  const zones = zonesOf([...works, far]);
  expect(zones.map(({ treeIds }) => treeIds.length).sort((a, b) => a - b)).toEqual([1, 12]);
  expect(zones.find(({ treeIds }) => treeIds.includes("t12"))!.hazards.join(" ")).toContain("An island of work");
  // 290 m past it, the day takes it in: 6.5 h.
  expect(zonesOf([...works, { ...far, at: [132 + 290, 0] }]).map(({ hours }) => hours)).toEqual([6.5]);
});

test("urgent work is taken along by other work within 100 m, not streets away", () => {
  const works = Array.from({ length: 12 }, (_, at): Work => ({ id: `t${at}`, at: [at * 12, 0] }));
  const urgent = (x: number): Work => ({ id: "t12", at: [x, 0], visit: { urgency: "now" } });
  expect(zonesOf([...works, urgent(132 + 90)])).toHaveLength(1);
  expect(zonesOf([...works, urgent(132 + 110)])).toHaveLength(2);
});

test("one tree added takes trees from three of the plan's zones at most", () => {
  // Ten full days around a square with nothing in its middle, then one tree in it.
  const works = Array.from({ length: 140 }, (_, at): Work => {
    const angle = (2 * Math.PI * at) / 140;
    return { id: `t${at}`, at: [250 * Math.cos(angle), 250 * Math.sin(angle)], visit: { hours: 0.6 } };
  });
  const before = zonesOf(works);
  const after = zonesOf([...works, { id: "t140", at: [0, 0], visit: { hours: 0.6 } }], before);
  const kept = new Set(before.map(({ treeIds }) => [...treeIds].sort().join()));
  const changed = after.filter(({ treeIds }) => !kept.has([...treeIds].sort().join()));
  expect(changed.length).toBeLessThanOrEqual(4);
  expect(after.flatMap(({ treeIds }) => treeIds)).toHaveLength(141);
});

test("trades only ever shorten the walk, and keep hours, dates and crews as they may be", () => {
  fc.assert(
    fc.property(anyWorks, fc.integer({ min: 2, max: 6 }), (works, count) => {
      const stops = plannedStops(planOfWork(works));
      const streets = new Streets(
        streetLines([]),
        stops.map(({ tree }) => tree),
      );
      const ways = new WaysBetween(stops, streets);
      // Days dealt out like cards: as bad as days can be.
      const days = Array.from({ length: count }, (_, day) => stops.filter((_stop, at) => at % count === day));
      const isOpen = days.map((_, day) => day !== 0);
      const limits = { hoursPerDay: 8, longestStepM: 300, ways, near: new NearStops(stops, ways) };
      const traded = tradeStops(days, isOpen, limits);
      const walkM = (all: readonly (readonly Stop[])[]): number =>
        all.reduce((sum, day) => sum + day.slice(1).reduce((own, stop, at) => own + ways.stepM(day[at]!, stop), 0), 0);
      expect(walkM(traded)).toBeLessThanOrEqual(walkM(days) + 1e-6);
      expect(traded[0]).toEqual(days[0]);
      expect(
        traded
          .flat()
          .map(({ tree }) => tree.row)
          .sort((a, b) => a - b),
      ).toEqual(stops.map(({ tree }) => tree.row));
      traded.forEach((day, at) => {
        if (String(day.map(({ tree }) => tree.row)) === String(days[at]!.map(({ tree }) => tree.row))) return;
        const hours = day.reduce((sum, stop) => sum + stop.hours, 0);
        expect(hours >= 6 - 1e-6 && hours <= 8.8 + 1e-6).toBe(true);
        expect(mayShareDay(day)).toBe(true);
      });
    }),
    { seed: 23, numRuns: 40 },
  );
});
