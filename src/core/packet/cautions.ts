import type { ZoneStop } from "./zone-stops.ts";

/** A caution that several trees of a zone share; it stands in full once, under its number, on the last page. */
interface SharedCaution {
  readonly number: number;
  readonly text: string;
  readonly stops: ReadonlySet<number>;
}

/** The cautions of a zone's trees: what is shared stands once, what is one tree's own stands on its card. */
export interface ZoneCautions {
  /** The last page's list: the shared cautions with the numbers of their trees. */
  readonly shared: readonly string[];
  /** What a card says: the tree's own cautions in full, and how those begin that some trees share, with their number. */
  readonly onCard: (stop: ZoneStop) => string[];
  /** Whether some cautions hold for all trees and stand on the last page only. */
  readonly hasForAll: boolean;
}

/** Cautions that name who may come near a line are never shortened: they stand where the danger is. */
const ALWAYS_WHOLE = /line-clearance/;

/** Gathers the cautions of the stops, each tree's in its order. */
export function zoneCautions(stops: readonly ZoneStop[]): ZoneCautions {
  const holders = new Map<string, Set<number>>();
  for (const { prescription, number } of stops) {
    for (const text of prescription.cautions) {
      const own = holders.get(text);
      if (own === undefined) holders.set(text, new Set([number]));
      else own.add(number);
    }
  }
  const shared = new Map<string, SharedCaution>();
  for (const [text, numbers] of holders) {
    if (numbers.size > 1) shared.set(text, { number: shared.size + 1, text, stops: numbers });
  }
  const isForAll = (one: SharedCaution | undefined) => one !== undefined && one.stops.size === stops.length;
  return {
    shared: [...shared.values()].map((one) => {
      const which = isForAll(one) ? "All trees" : `Trees ${rangesOf([...one.stops])}`;
      return `${one.number}. ${which}: ${one.text}`;
    }),
    onCard: ({ prescription }) =>
      [...new Set(prescription.cautions)].flatMap((text) => {
        const one = shared.get(text);
        if (isForAll(one)) return [];
        const head = headOf(text);
        return one === undefined || head === null ? [text] : [`${head} (caution ${one.number}).`];
      }),
    hasForAll: [...shared.values()].some(isForAll),
  };
}

/** What a caution says before its first colon or semicolon; null where it is to stand whole. */
function headOf(text: string): string | null {
  if (ALWAYS_WHOLE.test(text)) return null;
  const end = text.search(/[:;]/);
  return end < 10 ? null : text.slice(0, end);
}

/** Ascending numbers with their runs drawn together: `1–4, 7`. */
export function rangesOf(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const number of [...numbers].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last !== undefined && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs
    .map(([from, to]) => (from === to ? String(from) : to === from + 1 ? `${from}, ${to}` : `${from}–${to}`))
    .join(", ");
}
