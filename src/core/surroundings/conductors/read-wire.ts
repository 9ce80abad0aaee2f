import type { SourceFeature } from "../../model/feature.ts";
import type { Basis } from "../../model/terms.ts";
import type { Gathering } from "../gathering.ts";
import { readTag, readValue, textOf, wordOf } from "../read-value.ts";
import type { Conductor } from "./acsr-table.ts";
import { conductorByWeight, parseConductor } from "./parse-conductor.ts";
import { readAmount } from "./read-amount.ts";
import { ASSUMED_CONDUCTOR } from "./swept-span.ts";

/** What a feature says of its wire; null is unknown. */
export interface WireGiven {
  readonly use: "supply" | "communication";
  /** Of the longest span. */
  readonly sagM: number | null;
  /** With the weight it outranks no sag. */
  readonly tensionN: number | null;
  readonly weightNPerM: number | null;
  readonly sagTemperatureC: number | null;
  readonly conductor: Conductor | null;
  readonly conductorBasis: Basis;
  readonly conductorSource: string;
  readonly stringM: number | null;
  /** `tree wire`, `aerial cable` or as recorded; null when bare or not recorded. */
  readonly insulation: string | null;
  readonly cables: number | null;
}

const BARE = ["", "bare", "no", "none", "uninsulated"];
const TREE_WIRE = [
  "tree-wire",
  "treewire",
  "covered",
  "covered-conductor",
  "spacer-cable",
  "hendrix",
  "yes",
  "insulated",
];
const AERIAL_CABLE = ["aerial-cable", "aerialcable", "self-supporting-aerial-cable", "abc", "aerial-bundled-cable"];

export function readWire(gathering: Gathering, feature: SourceFeature): WireGiven {
  const { columns } = gathering;
  const typeText = textOf(readValue(columns, "conductors", "conductor", feature));
  const type = parseConductor(typeText);
  const weightNPerM = readAmount(gathering, feature, "weight") ?? type?.weightNPerM ?? null;
  const byWeight = type === null && weightNPerM !== null ? conductorByWeight(weightNPerM) : null;
  const isBundle = ["double", "triple", "quad"].includes(wordOf(readTag(feature, "wires")));
  const bundled = isBundle ? "; bundled wires are taken as single ones" : "";
  return {
    use: isCommunication(feature) ? "communication" : "supply",
    sagM: readAmount(gathering, feature, "sag"),
    tensionN: readAmount(gathering, feature, "tension"),
    weightNPerM,
    sagTemperatureC: readAmount(gathering, feature, "sag_temperature"),
    conductor: type ?? byWeight,
    conductorBasis:
      isBundle || (type === null && byWeight === null) ? "assumed" : type === null ? "estimated" : "measured",
    conductorSource:
      type !== null
        ? `${type.name} ACSR as recorded: ${type.source}${bundled}`
        : byWeight !== null
          ? `nearest in weight of ${byWeight.source}: ${byWeight.name}${bundled}`
          : `${ASSUMED_CONDUCTOR} ACSR assumed, common practice, no source${typeText === null ? "" : `; "${typeText}" is not in the table`}${bundled}`,
    stringM: readAmount(gathering, feature, "insulator_length"),
    insulation: insulationOf(wordOf(readValue(columns, "conductors", "insulation", feature))),
    cables: countOf(readValue(columns, "conductors", "cables", feature)),
  };
}

function insulationOf(word: string): string | null {
  if (BARE.includes(word)) return null;
  if (TREE_WIRE.includes(word)) return "tree wire";
  return AERIAL_CABLE.includes(word) ? "aerial cable" : word.split("-").join(" ");
}

/** A line that is recorded as carrying messages, not power (OpenStreetMap tags). */
const isCommunication = (feature: SourceFeature): boolean =>
  ["line", "cable", "yes"].includes(wordOf(readTag(feature, "communication"))) ||
  ["line", "cable"].includes(wordOf(readTag(feature, "telecom")));

function countOf(value: unknown): number | null {
  const count = Number(textOf(value) ?? Number.NaN);
  return Number.isInteger(count) && count > 0 ? count : null;
}
