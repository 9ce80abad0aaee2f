import type { Building } from "./buildings.ts";
import { bearingOf } from "./geojson.ts";
import { GROUNDS, RIVER_PATH } from "./grounds.ts";
import { type Care, type Grown, grow } from "./grow.ts";
import { along, lengthOf, type Point, rightOf, stationOn } from "./line.ts";
import type { Block } from "./network.ts";
import { type Random, randomStream } from "./random.ts";
import type { Control } from "./signs.ts";
import type { Site, SiteGuard } from "./site-guard.ts";
import { type Place, type Species, speciesFor } from "./species.ts";

const AGES_YEARS = [0, 1, 2, 4, 7, 17, 26, 32, 36, 40, 44, 48, 54, 60, 66, 74] as const;

/** Trees in verges and tree pits: one species and one planting year a block side, with gaps and young replacements. */
export function streetTrees(blocks: readonly Block[], guard: SiteGuard): Site[] {
  const sites: Site[] = [];
  blocks.forEach((block, index) => {
    if (block.street.treeShare === 0) return;
    for (const side of ["left", "right"] as const) {
      plantSide(block, side, randomStream(`verge ${index} ${side}`), guard, sites);
    }
  });
  return sites;
}

function plantSide(
  { street, line }: Block,
  side: "left" | "right",
  random: Random,
  guard: SiteGuard,
  sites: Site[],
): void {
  const sign = side === "right" ? 1 : -1;
  const offsetM = street.widthM / 2 + (street.vergeM === 0 ? 1 : street.vergeM * 0.5);
  const isRural = street.class === "rural-two-lane" || street.name === "Pond Road";
  const middle = stationOn(line, lengthOf(line) / 2);
  const underWires = guard.isUnderWires(along(middle.at, rightOf(middle.heading), sign * offsetM));
  const place: Place = street.vergeM === 0 ? "pit" : isRural ? "rural" : underWires ? "under-wires" : "street";
  // Here and there a tall species stands under the wires, planted before them.
  const rowSpecies = random.pick(speciesFor(place === "under-wires" && random.chance(0.25) ? "street" : place));
  const rowAge = random.pick(AGES_YEARS);
  const stepM = rowSpecies.matureRadiusM > 4.5 ? random.between(10.5, 14) : random.between(8, 10.5);
  for (let lengthM = random.between(2, 6); lengthM < lengthOf(line); lengthM += stepM * random.between(0.9, 1.12)) {
    const { at, heading } = stationOn(line, lengthM);
    const point = along(at, rightOf(heading), sign * (offsetM + random.between(-0.2, 0.2)));
    const isReplaced = random.chance(0.13);
    const species = isReplaced ? random.pick(speciesFor(place)) : rowSpecies;
    const ageYears = isReplaced ? Math.floor(random.between(0, 9)) : rowAge;
    const tree = grow(species, ageYears, street.care, random);
    if (!random.chance(street.treeShare) || !guard.isFree(point, street, random.chance(0.12))) continue;
    const facing = bearingOf([sign * rightOf(heading)[0], sign * rightOf(heading)[1]]);
    sites.push(
      guard.take({
        point,
        tree,
        care: street.care,
        owner: "city",
        street: street.name,
        houseNumber: 100 + 2 * Math.round(lengthM / 6) + (side === "right" ? 1 : 0),
        side: compassSide(facing),
      }),
    );
  }
}

/** Trees and shrubs in yards: some in front, more behind, a few far too near to the house. */
export function yardTrees(built: readonly Building[], guard: SiteGuard): Site[] {
  const random = randomStream("yards");
  return built.flatMap((building) => {
    if (building.kind !== "house") return [];
    const { center, back, depthM } = building;
    const across = rightOf(back);
    const tries = [
      { share: 0.15, outM: -(depthM / 2 + random.between(2.4, 5)), sideM: random.between(-7, 7), place: "yard" },
      { share: 0.36, outM: depthM / 2 + random.between(3, 16), sideM: random.between(-8, 8), place: "yard" },
      { share: 0.08, outM: depthM / 2 + random.between(4, 18), sideM: random.between(-8, 8), place: "yard" },
      { share: 0.07, outM: -(depthM / 2 + 1.6), sideM: random.between(-4, 4), place: "hedge" },
    ] as const;
    return tries.flatMap(({ share, outM, sideM, place }) => {
      const point = along(along(center, back, outM), across, sideM);
      const species = random.pick(speciesFor(place));
      const tree = grow(species, Math.floor(random.between(1, place === "hedge" ? 20 : 55)), "wild", random);
      const care: Care = random.chance(0.5) && species.form === "tree" ? "partly" : "wild";
      const kept = care === "partly" ? grow(species, tree.ageYears, care, random) : tree;
      if (!random.chance(share) || !guard.isFree(point, null, true)) return [];
      return [guard.take({ ...owned(point, kept, care, "private"), ...addressOf(building) })];
    });
  });
}

/** Hedges and low young trees that stand in the sight triangle of a stop-controlled leg. */
export function cornerPlants(controlled: readonly Control[], guard: SiteGuard): Site[] {
  const random = randomStream("corners");
  return controlled.flatMap(({ node, minor, majorHalfM }) =>
    minor.flatMap((leg) => {
      if (!random.chance(0.22)) return [];
      const across = rightOf(leg.heading);
      const sign = random.chance(0.5) ? 1 : -1;
      const point = along(
        along(node.at, leg.heading, majorHalfM + random.between(1, 1.8)),
        across,
        sign * (leg.street.widthM / 2 + random.between(5, 11)),
      );
      const isHedge = random.chance(0.55);
      const species = random.pick(speciesFor(isHedge ? "hedge" : "under-wires"));
      const tree = grow(species, Math.floor(random.between(6, 16)), "never", random);
      if (!guard.isFree(point, null, true)) return [];
      const facing = bearingOf(leg.heading);
      return [
        guard.take({
          ...owned(point, tree, "never", isHedge ? "private" : "city"),
          street: leg.street.name,
          side: compassSide(facing),
        }),
      ];
    }),
  );
}

/** Trees of the green, the school, the chapel yard, the river bank and the orchard. */
export function groundTrees(guard: SiteGuard): Site[] {
  return [
    ...grove("green", GROUNDS.green.ring, 62, "park", guard, "Station Green"),
    ...grove("school", GROUNDS.school.ring, 30, "park", guard, "Sedgeholt School"),
    ...grove("chapel", GROUNDS.church.ring, 10, "park", guard, "Chapel yard"),
    ...riverTrees(guard),
    ...orchardTrees(guard),
  ];
}

function grove(
  name: string,
  ring: readonly Point[],
  count: number,
  place: Place,
  guard: SiteGuard,
  address: string,
): Site[] {
  const random = randomStream(`grove ${name}`);
  const [low, high] = [ring[0]!, ring[2]!];
  const groups = Array.from({ length: 7 }, () => random.pick(speciesFor(place)));
  const sites: Site[] = [];
  for (let attempt = 0; attempt < 900 && sites.length < count; attempt += 1) {
    const point: Point = [random.between(low[0], high[0]), random.between(low[1], high[1])];
    const group = Math.floor(
      ((point[0] - low[0]) / (high[0] - low[0])) * 3.99 + (point[1] > (low[1] + high[1]) / 2 ? 3 : 0),
    );
    const species = random.chance(0.7) ? groups[group % 7]! : random.pick(speciesFor(place));
    const tree = grow(species, Math.floor(random.between(2, 85)), "partly", random);
    if (guard.isFree(point, null, true, 5.5)) {
      sites.push(guard.take({ ...owned(point, tree, "partly", "city"), address }));
    }
  }
  return sites;
}

function riverTrees(guard: SiteGuard): Site[] {
  const random = randomStream("river");
  const sites: Site[] = [];
  for (let lengthM = 4; lengthM < lengthOf(RIVER_PATH); lengthM += random.between(4, 9)) {
    const { at, heading } = stationOn(RIVER_PATH, lengthM);
    const point = along(at, rightOf(heading), random.chance(0.3) ? -random.between(3, 7) : random.between(2.6, 17));
    const tree = grow(
      random.pick(speciesFor("river")),
      Math.floor(random.between(3, 60)),
      random.pick(RIVER_CARE),
      random,
    );
    if (!guard.isFree(point, null, true, 3.5)) continue;
    sites.push(guard.take({ ...owned(point, tree, "never", "city"), address: "River Path" }));
  }
  return sites;
}

const RIVER_CARE = ["kept", "partly", "wild"] as const;

function orchardTrees(guard: SiteGuard): Site[] {
  const random = randomStream("orchard");
  const [low, , high] = GROUNDS.orchard.ring as readonly [Point, Point, Point];
  const species: Species = speciesFor("orchard")[0]!;
  const sites: Site[] = [];
  for (let x = low[0] + 6; x < high[0] - 4; x += 9.5) {
    const ageYears = random.pick([4, 14, 22, 30]);
    for (let y = low[1] + 5; y < high[1] - 4; y += 8.5) {
      const tree = grow(species, ageYears, "wild", random);
      if (random.chance(0.12)) continue;
      sites.push(guard.take({ ...owned([x, y], tree, "wild", "private"), address: "Orchard" }));
    }
  }
  return sites;
}

const owned = (point: Point, tree: Grown, care: Care, owner: Site["owner"]): Site => ({
  point,
  tree,
  care,
  owner,
  street: null,
  houseNumber: null,
  side: null,
});

const addressOf = (building: Building): Pick<Site, "street" | "houseNumber"> => ({
  street: building.street.name,
  houseNumber: building.houseNumber,
});

const compassSide = (bearingDeg: number): string => (["N", "E", "S", "W"] as const)[Math.round(bearingDeg / 90) % 4]!;
