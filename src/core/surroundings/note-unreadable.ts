import { type ColumnUnit, columnSource, columnUnit, columnValue, type Field } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import type { Layer } from "../model/terms.ts";
import { isMissing } from "../units/is-missing.ts";
import { parseDecimal, parseLengthM } from "../units/parse-length.ts";
import type { Gathering } from "./gathering.ts";
import { parseVoltageV } from "./parse-voltage.ts";

/** What a field's values must be, and whether a value is so. */
interface Expected {
  readonly words: string;
  readonly isRead: (value: unknown, unit: ColumnUnit) => boolean;
}

const LENGTH: Expected = {
  words: "a length of 0 or more",
  isRead: (value, unit) => (parseLengthM(value, unit) ?? -1) >= 0,
};
const ELEVATION: Expected = { words: "an elevation", isRead: (value, unit) => parseLengthM(value, unit) !== null };
const VOLTAGE: Expected = { words: "a voltage", isRead: (value, unit) => parseVoltageV(value, unit) !== null };

type Numbers = { readonly [L in Layer]?: { readonly [F in Field<L>]?: Expected } };

/** The fields of signs, signals and conductors that are read as numbers; the readers of buildings and ways name theirs themselves. */
const NUMBERS: Numbers = {
  signs: { height: LENGTH },
  signals: { height: LENGTH },
  conductors: {
    voltage: VOLTAGE,
    attachment_height_1: LENGTH,
    attachment_height_2: LENGTH,
    sag: LENGTH,
    insulator_length: LENGTH,
    ground_z_1: ELEVATION,
    ground_z_2: ELEVATION,
  },
};

/**
 * Notes every value of a layer that is there and cannot be read as the number its field wants, such as a height of `tall`; it counts as
 * missing. Markers of missing values and zeros are no faults.
 */
export function noteUnreadable(gathering: Gathering, layer: Layer, features: readonly SourceFeature[]): void {
  const fields = Object.entries((NUMBERS[layer] ?? {}) as Readonly<Record<string, Expected>>);
  for (const feature of features) {
    for (const [name, { words, isRead }] of fields) {
      const field = name as Field<Layer>;
      const value = columnValue(gathering.columns, layer, field, feature.properties);
      if (isMissing(value) || numberOf(value) === 0 || isRead(value, columnUnit(gathering.columns, layer, field)))
        continue;
      gathering.find(feature, "unreadable-value", "warning", {
        field: name,
        value: typeof value === "object" ? "(no plain value)" : value,
        reason: `The value cannot be read as ${words}; it is treated as unknown.`,
        whatToDo: `Correct it, or translate it in the column map (column ${columnSource(gathering.columns, layer, field).column.slice(0, 60)}).`,
      });
    }
  }
}

/** A finite number, or that of a text; of a list such as `2;3` the first. */
function numberOf(value: unknown): number | null {
  if (typeof value === "number") return Number.isFinite(value) ? value : null;
  return typeof value === "string" && value.length <= 256 ? parseDecimal(value.split(";")[0]!) : null;
}
