import type { ZoneStop } from "./zone-stops.ts";

/** Cautions that every tree of a zone has, in order; none for a zone of one tree, whose card holds them all. */
export function cautionsOfAll(stops: readonly ZoneStop[]): string[] {
  const [first, ...others] = stops;
  if (first === undefined || others.length === 0) return [];
  return first.prescription.cautions.filter(
    (caution, at, all) =>
      all.indexOf(caution) === at && others.every(({ prescription }) => prescription.cautions.includes(caution)),
  );
}

/** Each caution of the trees once, with the numbers of the trees it is about. */
export function groupedCautions(stops: readonly ZoneStop[]): string[] {
  const numbers = new Map<string, Set<number>>();
  for (const { prescription, number } of stops) {
    for (const caution of prescription.cautions) {
      const set = numbers.get(caution);
      if (set === undefined) numbers.set(caution, new Set([number]));
      else set.add(number);
    }
  }
  return [...numbers].map(([caution, set]) => {
    const isAll = set.size === stops.length && set.size > 1;
    const which = isAll ? "All trees" : `${set.size === 1 ? "Tree" : "Trees"} ${[...set].join(", ")}`;
    return `${which}: ${caution}`;
  });
}
