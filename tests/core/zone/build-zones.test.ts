import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CREWS } from "../../../src/core/model/terms.ts";
import { usCommon } from "../../../src/core/standard/parse-standard.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { buildZones } from "../../../src/core/zone/build-zones.ts";
import { planOfWork, type Work } from "./plan-of-work.ts";

const standard = usCommon();

const anyWork = (maxLength: number) =>
  fc
    .array(
      fc.record({
        x: fc.integer({ min: 0, max: 1500 }),
        y: fc.integer({ min: 0, max: 900 }),
        hours: fc.integer({ min: 2, max: 12 }).map((tenths) => tenths / 10),
        crew: fc.constantFrom(...CREWS),
        urgency: fc.constantFrom("now" as const, "next-window" as const, "this-cycle" as const, "watch" as const),
        windowEnd: fc.constantFrom(isoDate("2026-11-20"), isoDate("2027-02-14"), isoDate("2027-03-31")),
        isDiseased: fc.boolean(),
      }),
      { minLength: 1, maxLength },
    )
    .map((rows) =>
      rows.map(
        (row, at): Work => ({
          id: `t${at}`,
          at: [row.x, row.y],
          street: `Street ${Math.floor(row.x / 300)}`,
          visit: { hours: row.hours, crew: row.crew, urgency: row.urgency, windowEnd: row.windowEnd },
          tree: row.isDiseased ? { defects: ["diseased-limb"] } : {},
        }),
      ),
    );

describe("whatever the work", () => {
  test("every visit due by the end of its next window is in exactly one zone, whose crew may do it and whose urgency is its most urgent", () => {
    fc.assert(
      fc.property(anyWork(120), (works) => {
        const plan = planOfWork(works);
        const zones = buildZones(plan, standard);
        const planned = works
          .filter(({ visit }) => visit?.urgency === "now" || visit?.urgency === "next-window")
          .map(({ id }) => `${id}/1`);
        expect(zones.flatMap((zone) => zone.visitIds).sort()).toEqual(planned.sort());
        const visits = new Map(plan.prescriptions.flatMap(({ visits }) => visits.map((one) => [one.visitId, one])));
        for (const zone of zones) {
          const members = zone.visitIds.map((id) => visits.get(id)!);
          for (const visit of members) {
            expect(CREWS.indexOf(visit.crew)).toBeLessThanOrEqual(CREWS.indexOf(zone.crew));
            if (zone.crew === "utility") expect(visit.crew).toBe("utility");
            expect(zone.windowStart <= zone.windowEnd && zone.windowEnd <= visit.windowEnd).toBe(true);
          }
          expect(members.some(({ crew }) => crew === zone.crew)).toBe(true);
          expect(members.some(({ urgency }) => urgency === "now")).toBe(zone.urgency === "now");
          expect(zone.treeIds).toEqual(members.map((visit) => visit.treeId));
          expect(zone.hours).toBeCloseTo(
            members.reduce((sum, visit) => sum + visit.hours, 0),
            9,
          );
          if (members.length > 1) expect(zone.hours).toBeLessThanOrEqual(1.1 * 8);
        }
        expect(new Set(zones.map((zone) => zone.zoneId)).size).toBe(zones.length);
        expect(new Set(zones.map((zone) => zone.name)).size).toBe(zones.length);
      }),
      { seed: 4, numRuns: 40 },
    );
  });

  test("the same plan gives the same zones", () => {
    fc.assert(
      fc.property(anyWork(80), (works) => {
        expect(buildZones(planOfWork(works), standard)).toEqual(buildZones(planOfWork(works), standard));
      }),
      { seed: 5, numRuns: 15 },
    );
  });

  test("a tree added 2 km away changes no other zone's work", () => {
    fc.assert(
      fc.property(anyWork(80), (works) => {
        const before = buildZones(planOfWork(works), standard);
        const far: Work = { id: "far", at: [4000, 0], street: "Far Street" };
        const after = buildZones(planOfWork([...works, far]), standard);
        expect(after.filter((zone) => !zone.treeIds.includes("far"))).toEqual(before);
        expect(after.length).toBe(before.length + 1);
      }),
      { seed: 6, numRuns: 25 },
    );
  });

  test("diseased trees are last in their zone", () => {
    fc.assert(
      fc.property(anyWork(60), (works) => {
        const diseased = new Set(works.filter(({ tree }) => tree?.defects !== undefined).map(({ id }) => id));
        for (const zone of buildZones(planOfWork(works), standard)) {
          const isDiseased = zone.treeIds.map((id) => diseased.has(id));
          expect(isDiseased).toEqual([...isDiseased].sort((a, b) => Number(a) - Number(b)));
          expect(zone.hazards.some((one) => one.includes("disinfect"))).toBe(isDiseased.includes(true));
        }
      }),
      { seed: 7, numRuns: 25 },
    );
  });
});

test("a tree added at the other end of the same street leaves the zones at this end alone", () => {
  const street = (count: number): Work[] =>
    Array.from({ length: count }, (_, at) => ({ id: `t${at}`, at: [at * 12, 0] }));
  // 150 trees of half an hour, 12 m apart: 75 h in days of at most 8.8 h, 17 trees, are 9 zones, eight of them full.
  const before = buildZones(planOfWork(street(150)), standard);
  const after = buildZones(planOfWork([...street(150), { id: "new", at: [1805, 5] }]), standard);
  expect(before.length).toBe(9);
  const kept = before.filter((zone) => after.some((other) => String(other.treeIds) === String(zone.treeIds)));
  // The zone that takes the new tree in may push one more.
  expect(kept.length).toBeGreaterThanOrEqual(7);
});

test("a tree added to a plan with zones goes where there is room near it; every other zone keeps its work, id and name", () => {
  fc.assert(
    fc.property(anyWork(80), fc.integer({ min: 0, max: 1500 }), fc.integer({ min: 0, max: 900 }), (works, x, y) => {
      const before = buildZones(planOfWork(works), standard);
      const added: Work = { id: "new", at: [x, y], street: "New Street", visit: { hours: 0.5 } };
      const after = buildZones(planOfWork([...works, added], { zones: before }), standard);
      const trees = (zone: (typeof before)[number]): string => [...zone.treeIds].sort().join();
      const kept = new Set(before.map(trees));
      const changed = after.filter((zone) => !kept.has(trees(zone)));
      expect(changed.some((zone) => zone.treeIds.includes("new"))).toBe(true);
      // Its own zone, and those that gave stops to fill a new one up.
      expect(changed.length).toBeLessThanOrEqual(6);
      const names = new Map(after.map((zone) => [zone.zoneId, zone.name]));
      for (const zone of before) if (names.has(zone.zoneId)) expect(names.get(zone.zoneId)).toBe(zone.name);
      for (const zone of before)
        if (!changed.some((one) => one.zoneId === zone.zoneId)) expect(after).toContainEqual(zone);
      expect(new Set(after.map((zone) => zone.name)).size).toBe(after.length);
    }),
    { seed: 8, numRuns: 40 },
  );
});

test("zoning a plan that has zones and nothing new changes nothing", () => {
  fc.assert(
    fc.property(anyWork(60), (works) => {
      const before = buildZones(planOfWork(works), standard);
      expect(buildZones(planOfWork(works, { zones: before }), standard)).toEqual(before);
    }),
    { seed: 9, numRuns: 25 },
  );
});

test("a zone that was issued stays as it is, and its visits are in no other", () => {
  const works = Array.from({ length: 30 }, (_, at): Work => ({ id: `t${at}`, at: [at * 12, 0] }));
  const before = buildZones(planOfWork(works), standard);
  const issued = { ...before[0]!, state: "issued" as const };
  const more: Work[] = [...works, { id: "new", at: [5, 5] }];
  const after = buildZones(planOfWork(more, { zones: [issued, ...before.slice(1)] }), standard);
  expect(after[0]).toEqual(issued);
  expect(after.flatMap((zone) => zone.visitIds).sort()).toEqual(more.map(({ id }) => `${id}/1`).sort());
});

test("a crew of half the people takes twice as long, and a shorter day holds less", () => {
  const works = Array.from({ length: 12 }, (_, at): Work => ({ id: `t${at}`, at: [at * 12, 0] }));
  const hours = (options: Parameters<typeof buildZones>[2]): number[] =>
    buildZones(planOfWork(works), standard, options).map((zone) => zone.hours);
  // The standard's aerial crew has three people: 12 visits of 0.5 h are 6 h, and 9 h for two people, 4.5 h in each of two 6-hour days.
  expect(hours({})).toEqual([6]);
  expect(hours({ people: { aerial: 2 }, crewHours: 6 })).toEqual([4.5, 4.5]);
  expect(() => hours({ crewHours: 0 })).toThrow("Expected a crew-day of 1 to 24 hours, got 0");
  expect(() => hours({ people: { ground: 0 } })).toThrow("Expected 1 to 20 people in a ground crew, got 0");
});

test("twelve trees of half an hour along a street are one day, walked from end to end", () => {
  // 12 x 0.5 h = 6 h = 0.75 of a day; 11 steps of 12 m = 132 m.
  const works = [7, 2, 11, 0, 5, 9, 3, 1, 10, 4, 8, 6].map((place): Work => ({ id: `t${place}`, at: [place * 12, 0] }));
  const [zone, ...others] = buildZones(planOfWork(works), standard);
  expect(others).toEqual([]);
  expect(zone!.hours).toBe(6);
  expect(zone!.walkM).toBeCloseTo(132, 1);
  expect(zone!.name).toBe("Alder Street 1");
  expect(zone!.streets).toEqual(["Alder Street"]);
  const places = zone!.treeIds.map((id) => Number(id.slice(1)));
  expect([places, [...places].reverse()]).toContainEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
  expect(zone!.hazards.some((one) => one.includes("island"))).toBe(false);
});

test("lonely work says that it is an island, and a tree of two days that it is one", () => {
  const zones = buildZones(
    planOfWork([
      { id: "lonely", at: [0, 0] },
      { id: "giant", at: [3000, 0], visit: { hours: 14 } },
    ]),
    standard,
  );
  expect(zones.length).toBe(2);
  const of = (id: string) => zones.find((zone) => zone.treeIds.includes(id))!;
  expect(of("lonely").hazards.join(" ")).toContain("An island of work, 0.5 of 8 h");
  expect(of("giant").hazards.join(" ")).toContain("More than a crew-day (14.0 h)");
});

test("zones without a street are named by the compass", () => {
  const zones = buildZones(
    planOfWork([
      { id: "a", at: [0, 0], street: null },
      { id: "b", at: [4000, 4000], street: null },
    ]),
    standard,
  );
  expect(zones.map((zone) => zone.name)).toEqual(["Southwest 1", "Northeast 1"]);
});

test("a window that began before the as-of date begins on it; summer and winter work are apart", () => {
  const zones = buildZones(
    planOfWork([
      { id: "winter", at: [0, 0], visit: { windowStart: isoDate("2026-10-15"), windowEnd: isoDate("2027-02-28") } },
      { id: "summer", at: [5, 0], visit: { windowStart: isoDate("2027-06-16"), windowEnd: isoDate("2027-09-14") } },
    ]),
    standard,
  );
  expect(zones.map((zone) => [zone.windowStart, zone.windowEnd])).toEqual([
    ["2026-11-02", "2027-02-28"],
    ["2027-06-16", "2027-09-14"],
  ]);
  // Nesting season 15 April to 31 July overlaps only the second.
  expect(zones.map((zone) => zone.hazards.some((one) => one.startsWith("Birds")))).toEqual([false, true]);
});

test("no work, no zones", () => {
  expect(buildZones(planOfWork([]), standard)).toEqual([]);
});

test("three thousand visits come into days of about a crew-day", () => {
  let seed = 1;
  const random = (): number => {
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) >>> 0;
    return seed / 4_294_967_296;
  };
  const works = Array.from(
    { length: 3000 },
    (_, at): Work => ({
      id: `t${at}`,
      at: [random() * 6000, Math.round(random() * 48) * 100],
    }),
  );
  const plan = planOfWork(works);
  const zones = buildZones(plan, standard);
  expect(zones.reduce((sum, zone) => sum + zone.visitIds.length, 0)).toBe(3000);
  const full = zones.filter((zone) => zone.hours >= 6 && zone.hours <= 8.8).length;
  expect(full / zones.length).toBeGreaterThan(0.95);
});
