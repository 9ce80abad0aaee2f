/**
 * Writes `src/core/inventory/allometry/urban-equations.json` from the two tables in `urban-tree-database/`.
 * Run from the repository's root: `node --import tsx docs/data-sources/make-allometry.ts`, then `npx biome check --write` on the result.
 * What is kept, and why, is in the README beside the tables.
 */
import { readFileSync, writeFileSync } from "node:fs";
import {
  EQUATION_FORMS,
  type EquationForm,
  evaluate,
  isLogarithmic,
  VARIANCE_POWER,
} from "../../src/core/inventory/allometry/equation.ts";

const FOLDER = "docs/data-sources/urban-tree-database/";
const TARGET = "src/core/inventory/allometry/urban-equations.json";
const COMPONENTS = ["tree ht", "crown ht", "crown dia"] as const;
type Component = (typeof COMPONENTS)[number];
const OBSERVED: Record<Component, string> = {
  "tree ht": "TreeHt (m)",
  "crown ht": "CrnHt (m)",
  "crown dia": "AvgCdia (m)",
};
const POWERS: Record<string, number> = { "1": 0, "1/sqrt(dbh)": 0.5, "1/dbh": 1, "1/dbh^2": 2, "1/(dbh)^2": 2 };

type Row = Record<string, string>;

/** Rows of a CSV file by the names in its first line; a cell may be quoted. */
function readCsv(path: string): Row[] {
  const [header, ...lines] = readFileSync(path, "utf8").trim().split("\n").map(splitLine);
  return lines.map((cells) => Object.fromEntries(header!.map((name, at) => [name, cells[at] ?? ""])));
}

function splitLine(line: string): string[] {
  const cells = [""];
  let isQuoted = false;
  for (const letter of line) {
    if (letter === '"') isQuoted = !isQuoted;
    else if (letter === "," && !isQuoted) cells.push("");
    else cells[cells.length - 1] += letter;
  }
  return cells;
}

const numberOr = (text: string | undefined, fallback: number): number =>
  text === undefined || text.trim() === "" ? fallback : Number(text);
const round = (value: number, digits = 5): number => Number(value.toPrecision(digits));
const sum = (values: number[]): number => values.reduce((total, value) => total + value, 0);

function median(values: number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return (sorted[Math.floor(middle)]! + sorted[Math.ceil(middle)]!) / 2;
}

/** A name without cultivar, doubled blanks and rank words: `Pyrus calleryana 'Bradford'` and `Pyrus calleryana cvs.` are one species. */
const speciesName = (name: string): string =>
  name
    .replace(/'[^']*'/, "")
    .replace(/ (cvs|sp|spp)\./, "")
    .replace(/ (subsp|var)\. .*/, "")
    .trim();

const raw = readCsv(`${FOLDER}TS3_tree_sizes.csv`);
const rawBySpecies = new Map<string, Row[]>();
for (const row of raw) {
  const key = `${row.Region}|${row.SpCode}`;
  rawBySpecies.set(key, [...(rawBySpecies.get(key) ?? []), row]);
}

const counts = { kept: 0, keptUnchecked: 0, spreadPublished: 0, spreadFromRaw: 0 };
const dropped: string[] = [];
const rows: (string | number)[][] = [];

for (const row of readCsv(`${FOLDER}TS6_dbh_equations.csv`)) {
  const component = row["Predicts component "] as Component;
  const form = row.EqName as EquationForm;
  const label = `${row.Region} ${row["Scientific Name"]} ${component} (${form}, weight ${row["Model weight"]})`;
  const power = POWERS[row["Model weight"]!];
  if (power === undefined || !EQUATION_FORMS.includes(form)) {
    dropped.push(`${label}: not fitted to dbh`);
    continue;
  }
  if (rawBySpecies.get(`${row.Region}|${row.SpCode}`)?.[0]?.TreeType?.startsWith("P")) {
    dropped.push(`${label}: a palm, whose stem says little of its size`);
    continue;
  }
  const coefficients = ["a", "b", "c", "d", "e"].map((name) => numberOr(row[name], 0));
  while (coefficients.length > 2 && coefficients.at(-1) === 0) coefficients.pop();
  const variancePower = isLogarithmic(form) ? VARIANCE_POWER[form] : power;
  const trees = (rawBySpecies.get(`${row.Region}|${row.SpCode}`) ?? [])
    .map((tree) => ({ dbh: Number(tree["DBH (cm)"]), size: Number(tree[OBSERVED[component]]) }))
    .filter((tree) => tree.dbh > 0 && tree.size > 0);
  const at = (dbh: number): number => evaluate(form, coefficients, dbh);

  const published = isLogarithmic(form) ? Math.sqrt(coefficients[2] ?? 0) : Math.sqrt(numberOr(row.Sigma, Number.NaN));
  let spread = published;
  let measuredTo = 60;
  if (trees.length >= 10) {
    const ratio = sum(trees.map((tree) => at(tree.dbh))) / sum(trees.map((tree) => tree.size));
    if (!(ratio >= 0.8 && ratio <= 1.25)) {
      dropped.push(`${label}: predicts ${ratio.toPrecision(3)} times its own trees`);
      continue;
    }
    const squares = trees.map(({ dbh, size }) => {
      if (!isLogarithmic(form)) return (size - at(dbh)) ** 2 / dbh ** power;
      const logMedian = Math.log(at(dbh)) - ((coefficients[2] ?? 0) * dbh ** variancePower) / 2;
      return (Math.log(size) - logMedian) ** 2 / dbh ** variancePower;
    });
    const fromRaw = Math.sqrt(sum(squares) / (trees.length - (isLogarithmic(form) ? 2 : coefficients.length)));
    const agrees = fromRaw / published > 0.8 && fromRaw / published < 1.25;
    counts[agrees ? "spreadPublished" : "spreadFromRaw"] += 1;
    if (!agrees) spread = fromRaw;
    measuredTo = Math.max(...trees.map((tree) => tree.dbh));
  } else if (Number.isFinite(published)) {
    counts.keptUnchecked += 1;
  } else {
    dropped.push(`${label}: no residual spread and no raw trees`);
    continue;
  }

  const least = Math.max(numberOr(row["Apps min"], 0), 0.3);
  const most = numberOr(row["Apps max"], Number.POSITIVE_INFINITY);
  let from = 1;
  while (from < measuredTo && at(from) < least) from += 0.5;
  let to = from;
  const mayGrowTo = (dbh: number): boolean =>
    at(dbh) >= at(dbh - 0.5) && (dbh <= measuredTo || (at(dbh) <= most && dbh <= measuredTo * 2.5));
  while (mayGrowTo(to + 0.5)) to += 0.5;
  if (to <= from) {
    dropped.push(`${label}: falls with dbh from the start`);
    continue;
  }
  counts.kept += 1;
  rows.push([
    row.Region!,
    speciesName(row["Scientific Name"]!),
    COMPONENTS.indexOf(component),
    EQUATION_FORMS.indexOf(form),
    round(spread),
    variancePower,
    trees.length >= 10 ? trees.length : numberOr(row.n, 30),
    from,
    to,
    round(measuredTo),
    ...coefficients,
  ]);
}

const species = new Map<string, { type: string; common: Set<string>; trees: number }>();
for (const row of raw) {
  const name = speciesName(row.ScientificName!);
  const entry = species.get(name) ?? { type: row.TreeType!, common: new Set<string>(), trees: 0 };
  entry.trees += 1;
  for (const common of row.CommonName!.split(";")) {
    const plain = common.replace(/ '.*/, "").trim().toLowerCase();
    if (plain !== "") entry.common.add(plain);
  }
  species.set(name, entry);
}

/** Medians of the raw trees by type, for inventories that measured nothing. */
const medians = [...new Set(raw.map((row) => row.TreeType!)), "BD", "BE", "CE", "PE", "B", "C", ""]
  .sort()
  .map((type) => {
    const trees = raw
      .filter((row) => row.TreeType!.startsWith(type))
      .map((row) => ({
        dbh: Number(row["DBH (cm)"]),
        height: Number(row["TreeHt (m)"]),
        base: Number(row.CrnBase),
        crown: Number(row["CrnHt (m)"]),
        width: Number(row["AvgCdia (m)"]),
      }))
      .filter((tree) => tree.dbh > 0 && tree.height > 0 && tree.base >= 0 && tree.crown > 0 && tree.width > 0);
    return [
      type,
      trees.length,
      round(median(trees.map((tree) => tree.height)), 4),
      round(median(trees.map((tree) => tree.base / tree.height)), 4),
      round(median(trees.map((tree) => tree.width / 2 / tree.height)), 4),
    ];
  });

const lines = (list: unknown[]): string => list.map((one) => `    ${JSON.stringify(one)}`).join(",\n");
const names = [...species.keys()].sort();
const text = `{
  "source": "McPherson, van Doorn, Peper 2016, Urban Tree Database, USDA Forest Service, doi 10.2737/RDS-2016-0005, tables TS3 and TS6; made by docs/data-sources/make-allometry.ts",
  "components": ${JSON.stringify(COMPONENTS)},
  "species": [
${lines(names.map((name) => [name, species.get(name)!.type, species.get(name)!.trees, [...species.get(name)!.common].sort()]))}
  ],
  "equations": [
${lines(rows)}
  ],
  "medians": [
${lines(medians)}
  ]
}
`;
writeFileSync(TARGET, text);
console.log(JSON.stringify(counts), `${dropped.length} dropped`);
for (const line of dropped) console.log(`dropped: ${line}`);
