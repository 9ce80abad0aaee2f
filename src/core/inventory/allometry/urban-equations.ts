import { EQUATION_FORMS, type Equation } from "./equation.ts";
import table from "./urban-equations.json" with { type: "json" };

export interface FittedEquation {
  readonly region: string;
  readonly equation: Equation;
}

/** A species of the database with its equations by component (tree height, crown height, crown diameter), in the source's order. */
export interface FittedSpecies {
  readonly name: string;
  readonly genus: string;
  /** Life form (BD, BE, CE, PE) and mature size: S under 8 m, M 8 to 15 m, L above. */
  readonly type: string;
  readonly commonNames: readonly string[];
  readonly fitted: readonly (readonly FittedEquation[])[];
}

/**
 * All species of the Urban Tree Database (McPherson, van Doorn and Peper 2016). Palms and whatever failed against its own trees come
 * without equations: docs/data-sources/urban-tree-database tells which and why.
 */
export const FITTED_SPECIES: readonly FittedSpecies[] = fittedSpecies();

/** Medians of the database's trees of a type: height in meters, crown base and crown radius as shares of the height. */
export interface TypeMedians {
  readonly heightM: number;
  readonly baseShare: number;
  readonly radiusShare: number;
}

const MEDIANS: ReadonlyMap<string, TypeMedians> = new Map(
  (table.medians as [string, number, number, number, number][]).map(([type, , heightM, baseShare, radiusShare]) => [
    type,
    { heightM, baseShare, radiusShare },
  ]),
);

/** Medians of a type, of the longest beginning of it that is known; of all trees for an unknown type. */
export function typeMedians(type: string): TypeMedians {
  for (let length = type.length; length > 0; length -= 1) {
    const found = MEDIANS.get(type.slice(0, length));
    if (found !== undefined) return found;
  }
  return MEDIANS.get("")!;
}

function fittedSpecies(): FittedSpecies[] {
  const equations = new Map<string, FittedEquation[][]>();
  for (const row of table.equations as (string | number)[][]) {
    const [region, name, component, form, spread, variancePower, trees, fromCm, toCm, measuredToCm, ...coefficients] =
      row;
    const lists = equations.get(name as string) ?? [[], [], []];
    equations.set(name as string, lists);
    lists[component as number]!.push({
      region: region as string,
      equation: {
        form: EQUATION_FORMS[form as number]!,
        coefficients: coefficients as number[],
        spread: spread as number,
        variancePower: variancePower as number,
        trees: trees as number,
        fromCm: fromCm as number,
        toCm: toCm as number,
        measuredToCm: measuredToCm as number,
      },
    });
  }
  return (table.species as [string, string, number, string[]][]).map(([name, type, , commonNames]) => ({
    name,
    genus: name.split(" ")[0]!,
    type,
    commonNames,
    fitted: equations.get(name) ?? [[], [], []],
  }));
}
