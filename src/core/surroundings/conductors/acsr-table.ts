import { newtonsFromPounds, newtonsPerMeter } from "../../units/force.ts";
import { METERS_PER_INCH, metersFromInches } from "../../units/length.ts";
import type { WireStretch } from "./change-of-state.ts";
import { compositeStretch, METALS } from "./conductor-metals.ts";

/** A bare conductor in SI units. */
export interface Conductor extends WireStretch {
  /** Size and stranding, for example `4/0 6/1`. */
  readonly name: string;
  readonly diameterM: number;
  readonly areaM2: number;
  readonly weightNPerM: number;
  readonly strengthN: number;
  readonly source: string;
}

/** One row as published: AWG or kcmil, strands of aluminum and steel, in, in2, lb, lb/ft. */
export interface AcsrRow {
  readonly size: string;
  readonly aluminum: number;
  readonly steel: number;
  readonly diameterIn: number;
  readonly areaIn2: number;
  readonly strengthLb: number;
  readonly weightLbFt: number;
}

export const ACSR_SOURCE = "CPUC General Order 95, Appendix B, Table 23";

const row = (
  size: string,
  aluminum: number,
  steel: number,
  diameterIn: number,
  areaIn2: number,
  strengthLb: number,
  weightLbFt: number,
): AcsrRow => ({ size, aluminum, steel, diameterIn, areaIn2, strengthLb, weightLbFt });

/** Aluminum conductor, steel reinforced, bare: every row of the source, heaviest first. */
export const ACSR_TABLE: readonly AcsrRow[] = [
  row("795", 30, 19, 1.14, 0.7668, 38400, 1.234),
  row("795", 26, 7, 1.108, 0.7261, 31200, 1.093),
  row("795", 54, 7, 1.093, 0.7053, 28500, 1.023),
  row("397.5", 30, 7, 0.806, 0.385, 19980, 0.6206),
  row("397.5", 26, 7, 0.783, 0.363, 16190, 0.5464),
  row("266.8", 26, 7, 0.642, 0.2436, 11250, 0.3668),
  row("4/0", 6, 1, 0.563, 0.1939, 8420, 0.2921),
  row("3/0", 6, 1, 0.502, 0.1538, 6675, 0.2316),
  row("2/0", 6, 1, 0.447, 0.1219, 5345, 0.1837),
  row("1/0", 6, 1, 0.398, 0.0967, 4280, 0.1456),
  row("2", 7, 1, 0.325, 0.0653, 3525, 0.1072),
  row("2", 6, 1, 0.316, 0.0608, 2790, 0.0916),
  row("4", 7, 1, 0.257, 0.0411, 2288, 0.0674),
  row("4", 6, 1, 0.25, 0.0383, 1830, 0.0576),
  row("6", 6, 1, 0.198, 0.024, 1170, 0.0362),
];

/**
 * The conductor of a size (`4/0`, `#2 AWG`, `795 kcmil`) and stranding (`6/1`, or null where not known); null when the table has none, or
 * several and the stranding is not known.
 */
export function acsrConductor(size: string, stranding: string | null = null): Conductor | null {
  const wanted = plainSize(size);
  const strands = stranding === null ? null : plain(stranding);
  const found = ACSR_TABLE.filter(
    (one) => one.size === wanted && (strands === null || strands === `${one.aluminum}/${one.steel}`),
  );
  return found.length === 1 ? acsrOf(found[0]!) : null;
}

/**
 * A row in SI units. The aluminum has the area of its size, the steel the rest; modulus and expansion follow from the two by area, one strand of
 * steel as solid, more as stranded.
 */
export function acsrOf(one: AcsrRow): Conductor {
  const totalM2 = one.areaIn2 * METERS_PER_INCH ** 2;
  const aluminumM2 = circularMils(one.size) * CIRCULAR_MIL_M2;
  const stretch = compositeStretch([
    { metal: METALS.aluminum, areaM2: aluminumM2 },
    { metal: one.steel === 1 ? METALS.steelSolid : METALS.steelStranded, areaM2: totalM2 - aluminumM2 },
  ]);
  return {
    ...stretch,
    name: `${one.size} ${one.aluminum}/${one.steel}`,
    diameterM: metersFromInches(one.diameterIn),
    areaM2: totalM2,
    weightNPerM: newtonsPerMeter(one.weightLbFt),
    strengthN: newtonsFromPounds(one.strengthLb),
    source: ACSR_SOURCE,
  };
}

/** Area of a circle of a thousandth of an inch; exact by definition. */
const CIRCULAR_MIL_M2 = (Math.PI / 4) * (METERS_PER_INCH / 1000) ** 2;

/** Circular mils of a size: thousands as written, AWG by its definition, diameter 5 mil times 92^((36 - n) / 39), `4/0` being -3. */
export function circularMils(size: string): number {
  const gauge = size.endsWith("/0") ? 1 - Number(size.slice(0, -2)) : Number(size);
  return gauge > 36 ? gauge * 1000 : (5 * 92 ** ((36 - gauge) / 39)) ** 2;
}

const plain = (text: string): string => text.slice(0, 256).toLowerCase().split(/\s/).join("");

function plainSize(text: string): string {
  let size = plain(text);
  if (size.startsWith("#")) size = size.slice(1);
  for (const unit of ["awg", "kcmil", "mcm", "k"]) if (size.endsWith(unit)) return size.slice(0, -unit.length);
  return size;
}
