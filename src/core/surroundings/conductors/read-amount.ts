import { columnUnit, type Field } from "../../model/column-map.ts";
import type { SourceFeature } from "../../model/feature.ts";
import { parseLengthM } from "../../units/parse-length.ts";
import type { Gathering } from "../gathering.ts";
import { readTag, readValue, textOf } from "../read-value.ts";
import { parseTemperatureC, parseTensionN, parseWeightNPerM } from "./parse-amount.ts";

type Amount =
  | "attachment_height_1"
  | "attachment_height_2"
  | "sag"
  | "sag_temperature"
  | "tension"
  | "weight"
  | "insulator_length"
  | "ground_z_1"
  | "ground_z_2";

/** Between what each can be, in meters, newtons, newtons a meter and degrees Celsius: wider than any line is built. Our policy. */
const LIMITS: Readonly<Record<Amount, readonly [least: number, most: number]>> = {
  attachment_height_1: [1, 400],
  attachment_height_2: [1, 400],
  sag: [0, 1000],
  sag_temperature: [-60, 120],
  tension: [10, 1e6],
  weight: [0.05, 500],
  insulator_length: [0, 20],
  ground_z_1: [-500, 9000],
  ground_z_2: [-500, 9000],
};

/**
 * An amount of a conductor in SI units, from its field or else a tag (bare numbers of tags are meters); null when absent. One that cannot be read, or
 * cannot be true, is null with a finding; a height of 0 stands for unknown and is not told.
 */
export function readAmount(gathering: Gathering, feature: SourceFeature, field: Amount, tag?: string): number | null {
  const { columns } = gathering;
  const mapped = readValue(columns, "conductors", field as Field<"conductors">, feature);
  const value = mapped ?? (tag === undefined ? undefined : readTag(feature, tag));
  if (value === undefined) return null;
  const unit = mapped === undefined ? "m" : columnUnit(columns, "conductors", field as Field<"conductors">);
  const parse = PARSE[field] ?? parseLengthM;
  const amount = parse(value, unit);
  if (amount === 0 && field.startsWith("attachment")) return null;
  const [least, most] = LIMITS[field];
  if (amount !== null && amount >= least && amount <= most) return amount;
  gathering.find(feature, "conductor-value-unusable", "warning", {
    field: mapped === undefined ? (tag ?? field) : field,
    value: textOf(value) ?? typeof value,
    reason: `"${textOf(value) ?? typeof value}" cannot be used as ${WORDS[field]}; it is taken as not known.`,
    whatToDo: "Check the figure and its unit.",
  });
  return null;
}

const PARSE: Partial<Record<Amount, typeof parseTensionN>> = {
  tension: parseTensionN,
  weight: parseWeightNPerM,
  sag_temperature: parseTemperatureC,
};

const WORDS: Readonly<Record<Amount, string>> = {
  attachment_height_1: "an attachment height",
  attachment_height_2: "an attachment height",
  sag: "a sag",
  sag_temperature: "the temperature of a sag",
  tension: "a tension",
  weight: "the weight of a wire",
  insulator_length: "the length of an insulator string",
  ground_z_1: "an elevation of the ground",
  ground_z_2: "an elevation of the ground",
};
