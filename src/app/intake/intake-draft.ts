import type { ColumnMap } from "../../core/model/column-map.ts";
import { LAYERS, type Layer } from "../../core/model/terms.ts";
import type {
  FieldChoice,
  IntakeQuestion,
  IntakeReport,
  StandardChoice,
  TableGuess,
} from "../../worker/intake/intake-messages.ts";
import type { PlanJobRequest } from "../../worker/plan-messages.ts";
import type { Intake, IntakeFile } from "./intake.ts";
import { type FormTexts, planOptions } from "./plan-options.ts";

/** All that a person has said of the files so far; plain data, changed by making a new one. */
export interface IntakeDraft {
  readonly files: readonly IntakeFile[];
  readonly given: ColumnMap;
  readonly givenName: string | null;
  readonly choices: readonly FieldChoice[];
  readonly standard: StandardChoice;
  readonly standardName: string | null;
  readonly form: FormTexts;
  /** What could not be taken, one sentence each. */
  readonly refused: readonly string[];
  /** How many files were taken in so far, for their keys. */
  readonly taken: number;
}

/** Id of the standard taken where nothing else is chosen. */
const USUAL_STANDARD = "us-common";

/** A draft with nothing in it; `today` is the as-of date it starts with. */
export const emptyDraft = (today: string): IntakeDraft => ({
  files: [],
  given: {},
  givenName: null,
  choices: [],
  standard: { base: USUAL_STANDARD, own: null },
  standardName: null,
  form: { asOf: today, units: "us", drive: "right", hardinessZone: "", region: "" },
  refused: [],
  taken: 0,
});

/** The draft with what was dropped; a file of the same name takes the place of the one before. */
export function withIntake(draft: IntakeDraft, intake: Intake): IntakeDraft {
  const names = new Set(intake.files.map(({ name }) => name));
  const added = intake.files.map((file, at) => ({ ...file, key: `${draft.taken + at}` }));
  const files = [...draft.files.filter(({ name }) => !names.has(name)), ...added];
  const given = intake.columnsName === null ? draft : withColumnMap(draft, intake.columns, intake.columnsName);
  return withStandard(
    { ...given, files: inLayerOrder(files), refused: intake.refused, taken: draft.taken + added.length },
    intake.standardJson,
    intake.standardName,
  );
}

/** The draft with a column map from a file; what was chosen before by hand gives way to it. */
export const withColumnMap = (draft: IntakeDraft, given: ColumnMap, givenName: string): IntakeDraft => ({
  ...draft,
  given,
  givenName,
  choices: draft.choices.filter(({ layer }) => given[layer] === undefined),
});

/** The draft with the city's own standard, on the shipped one that it names. */
export function withStandard(draft: IntakeDraft, own: unknown, name: string | null): IntakeDraft {
  if (name === null) return draft;
  const named = typeof own === "object" && own !== null && "extends" in own ? own.extends : null;
  const base = typeof named === "string" ? named : draft.standard.base;
  return { ...draft, standard: { base, own }, standardName: name };
}

/** The draft without the city's own standard. */
export const withoutStandard = (draft: IntakeDraft): IntakeDraft => ({
  ...draft,
  standard: { base: USUAL_STANDARD, own: null },
  standardName: null,
});

/** The draft with a file taken apart into its tables; a layer that the person chose meanwhile stays. */
export function withTables(draft: IntakeDraft, key: string, tables: readonly TableGuess[]): IntakeDraft {
  const files = draft.files.flatMap((file): IntakeFile[] => {
    if (file.key !== key) return [file];
    if (tables.length < 2) {
      const [guess] = tables;
      return [
        file.layer === null && guess !== undefined
          ? { ...file, ...guess, table: null, isOpened: true }
          : { ...file, isOpened: true },
      ];
    }
    return tables.map((guess, at) => ({ ...file, ...guess, key: `${key}.${at}`, isOpened: true }));
  });
  return { ...draft, files: inLayerOrder(files) };
}

/** The draft with one file changed. */
export const withFile = (draft: IntakeDraft, key: string, part: Partial<IntakeFile>): IntakeDraft => {
  const files = draft.files.map((file) => (file.key === key ? { ...file, ...part } : file));
  return { ...draft, files: inLayerOrder(files) };
};

/** The draft with a file put away, its tables with it. */
export const withoutFile = (draft: IntakeDraft, key: string): IntakeDraft => ({
  ...draft,
  files: draft.files.filter((file) => file.key !== key),
});

/** The draft with a field's column chosen; a column feeds one field, so a choice of it for another one is undone. */
export function withChoice(draft: IntakeDraft, choice: FieldChoice): IntakeDraft {
  const others = draft.choices.filter(
    ({ layer, field, column }) =>
      layer !== choice.layer || (field !== choice.field && (choice.column === null || column !== choice.column)),
  );
  return { ...draft, choices: [...others, choice] };
}

/** The draft with a layer's columns as they were guessed, or as the given map says. */
export const withoutChoices = (draft: IntakeDraft, layer: Layer): IntakeDraft => ({
  ...draft,
  choices: draft.choices.filter((choice) => choice.layer !== layer),
});

/** What to ask of the draft; null where its form cannot be read yet. Files without a layer are left out. */
export function questionOf(draft: IntakeDraft): IntakeQuestion | null {
  const options = planOptions(draft.form);
  if (typeof options === "string") return null;
  const sources = draft.files.flatMap(({ key, name, blob, layer, filter, table, crs }) =>
    layer === null ? [] : [{ key, name, blob, layer, filter: orNull(filter), table, crs: orNull(crs) }],
  );
  return { sources, given: draft.given, choices: draft.choices, standard: draft.standard, options };
}

/** What a run is to be given, or the sentence that says what is missing; `report` must answer the draft's own question. */
export function planRequestOf(draft: IntakeDraft, report: IntakeReport): PlanJobRequest | string {
  const options = planOptions(draft.form);
  if (typeof options === "string") return options;
  const files = draft.files.filter(({ layer }) => layer !== null);
  if (!files.some(({ layer }) => layer === "trees")) return "One file must be the trees: choose Trees as its layer.";
  for (const { key, name } of files) {
    const fault = report.sources.find((source) => source.key === key)?.fault ?? null;
    if (fault !== null) return `${name} cannot be used. ${fault.reason} Mend it, or leave the file out.`;
  }
  const trees = report.sources.filter(({ key }) => files.some((file) => file.key === key && file.layer === "trees"));
  if (trees.every(({ used }) => used === 0)) return "No tree can be used: see what would be set aside under Trees.";
  const [fault] = report.standard.faults;
  if (fault !== undefined) return `The clearances cannot be used. ${fault}`;
  return {
    revision: 1,
    files: files.map(({ name, blob, layer, filter, table, crs }) => ({
      name,
      blob,
      layer: layer!,
      filter: orNull(filter),
      table,
      ...(orNull(crs) === null ? {} : { crs: crs.trim() }),
    })),
    columns: report.columns,
    standardJson: report.standard.json,
    options,
    crs: null,
    withZones: true,
  };
}

const orNull = (text: string): string | null => (text.trim() === "" ? null : text.trim());

/** Files in the order of their layers, those without one last; else as they were. */
export function inLayerOrder(files: readonly IntakeFile[]): IntakeFile[] {
  const order = ({ layer }: IntakeFile) => (layer === null ? LAYERS.length : LAYERS.indexOf(layer));
  return [...files].sort((one, other) => order(one) - order(other));
}
