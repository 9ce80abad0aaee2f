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

  it("takes the months of the zone's band, from its first zone to its last", () => {
    // 12 months an inch in zones to 6, 6 in 7 and 8, 3 from 9 on; an unreadable zone as an unknown one.
    const months = [2, 6, 7, 8, 9, 13, null, Number.NaN, Number.POSITIVE_INFINITY].map((zone) =>
      establishmentMonths(2, zone, standard),
    );
    expect(months).toEqual([24, 24, 12, 12, 6, 6, 24, 24, 24]);
  });

  it("counts whole months, begun ones too", () => {
    const planted = isoDate("2026-01-15");
    // 2.1 in in zone 10 are 6.3 months.
    expect(dateOf({ planted, caliperAtPlantingM: 2.1 * 0.0254 }, 10)).toBe("2026-08-15");
  });

  it("takes what is just as large as the largest stock for new, and measures alone for proof that it is larger", () => {
    const { establishedDbhM } = standard.pruning;
    expect(dateOf({ ...stock, dbhM: establishedDbhM })).not.toBeNull();
    expect(dateOf({ ...stock, heightM: 22 * 0.3048, radiusM: 5 * 0.3048 })).not.toBeNull();
    const large = tree({ ...stock, heightM: 9, radiusM: 3 });
    const guessed = (basis: "estimated" | "assumed") => ({
      ...large,
      height: { ...large.height, basis },
      radius: { ...large.radius, basis },
    });
    expect(establishedOn(guessed("estimated"), place, standard, AS_OF)).not.toBeNull();
    expect(establishedOn(guessed("assumed"), place, standard, AS_OF)).not.toBeNull();
    expect(establishedOn(large, place, standard, AS_OF)).toBeNull();
  });

  it("takes the thin end of a class of diameters", () => {
    expect(dateOf({ ...stock, dbhM: 0.12, dbhLowM: 0.05 })).not.toBeNull();
    expect(dateOf({ ...stock, dbhM: 0.05, dbhLowM: 0.12 })).toBeNull();
  });

  it("counts from the earliest day that the tree is known of, whatever told of it", () => {
    const since = (lastPruned: string | null, knownSince: string | null) =>
      establishedOn(
        tree({ ...stock, lastPruned: lastPruned === null ? null : isoDate(lastPruned) }),
        place,
        standard,
        AS_OF,
        knownSince === null ? null : isoDate(knownSince),
      );
    // 24 months from the earlier of the two.
    expect(since("2025-01-01", "2025-06-01")).toBe("2027-01-01");
    expect(since("2025-06-01", "2025-01-01")).toBe("2027-01-01");
    expect(since(null, "2027-01-01")).toBe("2028-07-01");
  });
});
