import { type AllometryLevel, citySpreadOf, elsewhere } from "./elsewhere.ts";
import { type Prediction, predict } from "./equation.ts";
import { equationLabel } from "./equation-label.ts";
import { pool } from "./pool.ts";
import { FITTED_SPECIES, type FittedEquation, type FittedSpecies } from "./urban-equations.ts";

/** What a tree is known as, best first; `type` is a database type such as `BDL` or its beginning (`BD`, `C`), empty when unknown. */
export interface AllometryName {
  readonly species: string | null;
  readonly genus: string | null;
  readonly type: string;
}

/** A size that a stem diameter lets expect, with what it rests on in words: whose equation, of which city, of how many trees. */
export interface ExpectedSize extends Prediction {
  readonly source: string;
}

export interface ExpectedSizes {
  readonly height: ExpectedSize;
  /** Length of the live crown; at most the height. */
  readonly crownDepth: ExpectedSize;
  readonly radius: ExpectedSize;
}

export interface Allometry {
  /** Sizes expected at a stem diameter in meters; null only where no tree of the type was ever fitted. */
  readonly expect: (name: AllometryName, dbhM: number) => ExpectedSizes | null;
}

const HEIGHT = 0;
const CROWN_DEPTH = 1;
const CROWN_WIDTH = 2;

/**
 * Published urban allometry for a run: species first, then the mean of the genus's species, then the mean of the type's.
 *
 * A species' equation is the one of `region` (a database region) where it has one, else the one fitted to most trees. A pooled 90 %
 * interval covers the scatter within and between the species ({@link pool}), and every interval how cities differ ({@link elsewhere}).
 * Palms have no equations: their stems say little of their size. Answers are remembered, so one `Allometry` serves a run.
 */
export function createAllometry(region: string | null): Allometry {
  const groups = new Map<string, Group | null>();
  const answers = new Map<string, ExpectedSizes>();
  const groupOf = (level: AllometryLevel, label: string, pick: (one: FittedSpecies) => boolean): Group | null => {
    const key = `${level}:${label}`;
    const known = groups.get(key);
    if (known !== undefined) return known;
    const group = makeGroup(level, label, FITTED_SPECIES.filter(pick), region);
    groups.set(key, group);
    return group;
  };
  return {
    expect(name, dbhM) {
      const { species, genus, type } = name;
      const group =
        (species === null ? null : groupOf("species", species, (one) => one.name === species)) ??
        (genus === null ? null : groupOf("genus", `genus ${genus}`, (one) => one.genus === genus)) ??
        groupOf("type", typeLabel(type), (one) => one.type.startsWith(type));
      if (group === null) return null;
      const key = `${group.label}|${dbhM}`;
      const answer = answers.get(key) ?? expectFrom(group, dbhM);
      answers.set(key, answer);
      return answer;
    },
  };
}

interface Group {
  readonly level: AllometryLevel;
  readonly label: string;
  /** Equations to average, by component. */
  readonly fitted: readonly (readonly FittedEquation[])[];
}

/** A group with at least one equation for every component, or null. */
function makeGroup(
  level: AllometryLevel,
  label: string,
  members: readonly FittedSpecies[],
  region: string | null,
): Group | null {
  const fitted = [HEIGHT, CROWN_DEPTH, CROWN_WIDTH].map((component) =>
    members.flatMap((one) => bestEquation(one.fitted[component]!, region)),
  );
  return fitted.some((list) => list.length === 0) ? null : { level, label, fitted };
}

function bestEquation(fitted: readonly FittedEquation[], region: string | null): FittedEquation[] {
  const here = fitted.find((one) => one.region === region);
  if (here !== undefined) return [here];
  const most = fitted.reduce<FittedEquation | null>(
    (best, one) => (best === null || one.equation.trees > best.equation.trees ? one : best),
    null,
  );
  return most === null ? [] : [most];
}

function expectFrom({ level, label, fitted }: Group, dbhM: number): ExpectedSizes {
  const dbhCm = dbhM * 100;
  const [height, depth, width] = fitted.map((list, component): ExpectedSize => {
    const predictions = list.map(({ equation }) => predict(equation, dbhCm));
    const here = pool(predictions);
    return {
      ...elsewhere(here, citySpreadOf(level, component), dbhCm),
      source: `urban allometry, ${label}, from dbh: ${equationLabel(list, here, dbhCm)}`,
    };
  });
  return {
    height: height!,
    crownDepth: scaled(depth!, Math.min(1, height!.valueM / depth!.valueM)),
    radius: scaled(width!, 0.5),
  };
}

const scaled = (size: ExpectedSize, factor: number): ExpectedSize => ({
  ...size,
  valueM: size.valueM * factor,
  lowM: size.lowM * factor,
  highM: size.highM * factor,
});

const LIFE_FORMS = new Map([
  ["BD", "deciduous broadleaves"],
  ["BE", "evergreen broadleaves"],
  ["B", "broadleaves"],
  ["C", "conifers"],
  ["CE", "conifers"],
]);
const TYPE_SIZES = new Map([
  ["S", "small "],
  ["M", "medium "],
  ["L", "large "],
]);
const typeLabel = (type: string): string =>
  `${TYPE_SIZES.get(type[2] ?? "") ?? ""}${LIFE_FORMS.get(type.slice(0, 2)) ?? "trees"} in general`;
