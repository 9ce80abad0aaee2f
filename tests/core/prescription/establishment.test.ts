import { describe, expect, it } from "vitest";
import { establishedOn, establishmentMonths } from "../../../src/core/prescription/establishment.ts";
import { isoDate } from "../../../src/core/units/calendar.ts";
import { AS_OF, standard, tree } from "./scene.ts";

const place = { hardinessZone: 5, region: null };
const dateOf = (over: Parameters<typeof tree>[0], zone: number | null = 5) =>
  establishedOn(tree(over), { ...place, hardinessZone: zone }, standard, AS_OF);

describe("establishment", () => {
  it("takes months by caliper and zone, 36 at most", () => {
    expect(establishmentMonths(2, 5, standard)).toBe(24);
    expect(establishmentMonths(4, 5, standard)).toBe(36);
    expect(establishmentMonths(2, null, standard)).toBe(24);
  });

  it("counts from planting, with a two-inch stem where the caliper is not known", () => {
    // 2 in = 0.0508 m: 24 months in zone 5, 12 in zone 8, 6 in zone 10.
    const planted = isoDate("2026-01-15");
    expect(dateOf({ planted, caliperAtPlantingM: 0.0508 })).toBe("2028-01-15");
    expect(dateOf({ planted, caliperAtPlantingM: 0.0508 }, 8)).toBe("2027-01-15");
    expect(dateOf({ planted }, 10)).toBe("2026-07-15");
    expect(dateOf({ planted: isoDate("2023-07-01") })).toBeNull();
  });

  /** Of a size that nurseries sell: 5 m high, 2.4 m wide. */
  const stock = { dbhM: 0.05, heightM: 5, baseM: 1.5, radiusM: 1.2 };

  it("takes an undated stem over 10 cm for established, a thinner one for new", () => {
    expect(dateOf({ ...stock, dbhM: 0.11 })).toBeNull();
    // 0.05 m = 1.97 in, 23.6 months, 24 whole ones.
    expect(dateOf(stock)).toBe("2028-07-01");
  });

  it("takes no undated tree for new that is larger than nursery stock, nor a shrub for its thin stems", () => {
    // 22 ft = 6.7 m of height, 5 ft = 1.52 m of radius.
    expect(dateOf({ ...stock, heightM: 6.8 })).toBeNull();
    expect(dateOf({ ...stock, radiusM: 1.6 })).toBeNull();
    expect(dateOf({ ...stock, heightM: 6.6, radiusM: 1.5 })).not.toBeNull();
    expect(dateOf({ ...stock, form: "hedge" })).toBeNull();
    // A date outranks the size.
    expect(dateOf({ ...stock, form: "hedge", planted: isoDate("2026-01-15") })).toBe("2028-01-15");
  });

  it("counts an undated tree from when it is first known of, not anew in every plan", () => {
    const known = isoDate("2025-03-01");
    expect(establishedOn(tree(stock), place, standard, AS_OF, known)).toBe("2027-03-01");
    expect(establishedOn(tree(stock), place, standard, isoDate("2027-03-01"), known)).toBeNull();
    // A tree that was pruned stood there then.
    expect(dateOf({ ...stock, lastPruned: isoDate("2024-01-01") })).toBeNull();
    expect(dateOf({ ...stock, lastPruned: isoDate("2025-01-01") })).toBe("2027-01-01");
  });
});
