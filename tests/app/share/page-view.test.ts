import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type PageView, readViewHash, viewHash } from "../../../src/app/share/page-view.ts";
import { NO_FILTER } from "../../../src/app/tree-filter.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";

const PLAIN: PageView = {
  planId: "3f2a",
  view: { name: "trees" },
  filter: NO_FILTER,
  units: null,
  date: null,
  place: null,
};

const FULL: PageView = {
  planId: "3f2a",
  view: { name: "tree", treeId: "T-1 & <b>#?=%" },
  filter: {
    ...NO_FILTER,
    urgencies: new Set(["now", "watch"]),
    kinds: new Set(["roadway"]),
    crews: new Set(["line-clearance"]),
    text: "oak, «Straße» +1",
    months: { from: "2026-11", to: "2027-02" },
    street: "Chapel Street",
    species: "English oak",
    zoneId: "Z-1",
    due: 90,
  },
  units: "metric",
  date: isoDate("2028-02-29"),
  place: { lonDeg: -139.50012, latDeg: 44.25, zoom: 17.5 },
};

describe("a view in an address", () => {
  test("comes back as it was", () => {
    expect(readViewHash(viewHash(FULL))).toEqual(FULL);
    expect(readViewHash(`#${viewHash(FULL)}`)).toEqual(FULL);
    expect(readViewHash(viewHash({ ...FULL, view: { name: "zone", zoneId: "Z/1" } }))!.view).toEqual({
      name: "zone",
      zoneId: "Z/1",
    });
  });

  test("says only what differs from the plain list", () => {
    expect(viewHash(PLAIN)).toBe("plan=3f2a");
    expect(viewHash({ ...PLAIN, view: { name: "zones" } })).toBe("plan=3f2a&list=zones");
  });

  test("is the same whatever the order of choosing", () => {
    const chosen = (urgencies: PageView["filter"]["urgencies"]) =>
      viewHash({ ...PLAIN, filter: { ...NO_FILTER, urgencies } });
    expect(chosen(new Set(["watch", "now"]))).toBe(chosen(new Set(["now", "watch"])));
  });
});

describe("an address from anyone", () => {
  test("without a plan holds no view", () => {
    for (const hash of ["", "#", "tree=T-1", "plan=", `plan=${"x".repeat(201)}`, "%%%", "plan"])
      expect(readViewHash(hash)).toBeNull();
  });

  test.each([
    ["units=furlongs", PLAIN],
    ["date=2027-02-30", PLAIN],
    ["months=2027-02..2026-11", PLAIN],
    ["months=2027-13..2028-01", PLAIN],
    ["urgency=never,__proto__,constructor", PLAIN],
    ["due=31", PLAIN],
    ["list=__proto__", PLAIN],
    ["at=181,0,3", PLAIN],
    ["at=0,0,NaN", PLAIN],
    ["at=1e2,0,3", PLAIN],
    ["at=0,0", PLAIN],
    [`find=${"x".repeat(300)}`, PLAIN],
    ["__proto__=1&polluted=1", PLAIN],
  ])("what it cannot mean is passed over: %s", (part, view) => {
    expect(readViewHash(`plan=3f2a&${part}`)).toEqual(view);
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  });

  test("any text is read without a fault, and what was read can be written again", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 400 }), (text) => {
        const view = readViewHash(`plan=a&${text}`);
        if (view !== null) expect(readViewHash(viewHash(view))).toEqual(view);
      }),
      { seed: 20261103, numRuns: 2000 },
    );
  });
});
