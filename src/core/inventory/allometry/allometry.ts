import { type Equation, type Prediction, predict, Z_90 } from "./equation.ts";
import { FITTED_SPECIES, type FittedEquation, type FittedSpecies } from "./urban-equations.ts";

/** What a tree is known as, best first; `type` is a database type such as `BDL` or its beginning (`BD`, `C`), empty when unknown. */
export interface AllometryName {
  readonly species: string | null;
  readonly genus: string | null;
  readonly type: string;
}

/** Sizes in meters that a stem diameter lets expect, with what they rest on in words. */
export interface ExpectedSizes {
  readonly height: Prediction;
  /** Length of the live crown; at most the height. */
  readonly crownDepth: Prediction;
  readonly radius: Prediction;
  readonly source: string;
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
 * interval covers the scatter within and between the species (our pooling), and every interval how cities differ ({@link CITY_SPREAD}). Palms have no equations: their stems say little of
 * their size. Answers are remembered, so one `Allometry` serves a run.
 */
export function createAllometry(region: string | null): Allometry {
  const groups = new Map<string, Group | null>();
  const answers = new Map<string, ExpectedSizes>();
  const groupOf = (key: string, label: string, pick: (one: FittedSpecies) => boolean): Group | null => {
    const known = groups.get(key);
    if (known !== undefined) return known;
    const members = FITTED_SPECIES.filter(pick);
    const group = members.length === 0 ? null : makeGroup(key, label, members, region);
    groups.set(key, group);
    return group;
  };
  return {
    expect(name, dbhM) {
      const { species, genus, type } = name;
      const group =
        (species === null ? null : groupOf(`s:${species}`, species, (one) => one.name === species)) ??
        (genus === null ? null : groupOf(`g:${genus}`, `genus ${genus}`, (one) => one.genus === genus)) ??
        groupOf(`t:${type}`, typeLabel(type), (one) => one.type.startsWith(type));
      if (group === null) return null;
      const key = `${group.key}|${dbhM}`;
      const answer = answers.get(key) ?? expectFrom(group, dbhM);
      answers.set(key, answer);
      return answer;
    },
  };
}

interface Group {
  readonly key: string;
  readonly label: string;
  /** Equations to average, by component. */
  readonly equations: readonly (readonly Equation[])[];
}

/** A group with at least one equation for every component, or null. */
function makeGroup(key: string, label: string, members: readonly FittedSpecies[], region: string | null): Group | null {
  const equations = [HEIGHT, CROWN_DEPTH, CROWN_WIDTH].map((component) =>
    members.flatMap((one) => bestEquation(one.fitted[component]!, region)),
  );
  return equations.some((list) => list.length === 0) ? null : { key, label, equations };
}

function bestEquation(fitted: readonly FittedEquation[], region: string | null): Equation[] {
  const here = fitted.find((one) => one.region === region);
  if (here !== undefined) return [here.equation];
  const most = fitted.reduce<Equation | null>(
    (best, one) => (best === null || one.equation.trees > best.trees ? one.equation : best),
    null,
  );
  return most === null ? [] : [most];
}

/**
 * How much trees of one species and diameter differ from city to city, as a standard deviation of the logarithm: of height, crown depth
 * and crown width. Found from the database itself: with these, the equation of one city holds 90 % of the raw trees of another
 * (about 1,000 pairs of cities and species; without them it holds 74, 73 and 79 %).
 */
export const CITY_SPREAD: readonly [number, number, number] = [0.19, 0.26, 0.15];

/** A prediction for another city than those measured: the interval widened by how cities differ. */
export function elsewhere(prediction: Prediction, citySpread: number): Prediction {
  const { valueM, lowM, highM } = prediction;
  const city = Z_90 * citySpread;
  return {
    valueM,
    lowM: valueM * Math.exp(-Math.hypot(Math.log(valueM / lowM), city)),
    highM: valueM * Math.exp(Math.hypot(Math.log(highM / valueM), city)),
  };
}

function expectFrom(group: Group, dbhM: number): ExpectedSizes {
  const [height, depth, width] = group.equations.map((list, component) =>
    elsewhere(pool(list.map((one) => predict(one, dbhM * 100))), CITY_SPREAD[component]!),
  );
  return {
    height: height!,
    crownDepth: scaled(depth!, Math.min(1, height!.valueM / depth!.valueM)),
    radius: scaled(width!, 0.5),
    source: `urban allometry, ${group.label}, from dbh`,
  };
}

const scaled = (prediction: Prediction, factor: number): Prediction => ({
  valueM: prediction.valueM * factor,
  lowM: prediction.lowM * factor,
  highM: prediction.highM * factor,
});

function pool(predictions: readonly Prediction[]): Prediction {
  const count = predictions.length;
  if (count === 1) return predictions[0]!;
  let sum = 0;
  let squares = 0;
  let within = 0;
  for (const { valueM, lowM, highM } of predictions) {
    sum += valueM;
    squares += valueM * valueM;
    within += ((highM - lowM) / (2 * Z_90)) ** 2;
  }
  const valueM = sum / count;
  const between = Math.max(0, squares / count - valueM * valueM);
  const deviation = Z_90 * Math.sqrt(within / count + between);
  return { valueM, lowM: Math.max(valueM - deviation, valueM / 10), highM: valueM + deviation };
}

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
