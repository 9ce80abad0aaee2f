import type { SourceFeature } from "../../core/model/feature.ts";
import { nameInFile } from "../../core/model/feature-name.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { SetAside } from "../../core/model/plan.ts";
import type { Layer } from "../../core/model/terms.ts";
import { withThousands } from "../../core/units/with-thousands.ts";
import { findBuiltInSystem } from "../crs/built-in-system.ts";
import { crsMemberName } from "../crs/crs-member.ts";
import { type CoordinateSystem, type FindSystem, WGS84 } from "../crs/system.ts";
import { systemFaults } from "../crs/system-faults.ts";
import type { Filter } from "../filter.ts";
import { isObject } from "../json/own-member.ts";
import { byteOrderMarkLength, utf8Text } from "../json/utf8-text.ts";
import { bboxDoubt } from "./check-bbox.ts";
import { plainFrame, withoutMembers } from "./collection-frame.ts";
import { type FeatureFault, featureFault } from "./feature-fault.ts";
import type { GeoJsonRead, Verdict } from "./geojson-read.ts";
import { type OpenDocument, openDocument, UnreadableError, unreadable } from "./open-document.ts";
import { type FeatureOutcome, readFeature } from "./read-feature.ts";
import { ReadingTime } from "./reading-time.ts";
import { emptyRanges } from "./split-features.ts";

/** How a file is to be read. */
export interface ReadGeoJsonOptions {
  readonly layer: Layer;
  /** File name as shown to people, without its folder. */
  readonly file: string;
  /** Which features are wanted; all when left out. */
  readonly filter?: Filter | null;
  /** Ordinal of the file's first feature: the number of features in the files of the layer before it. Default 0. */
  readonly firstOrdinal?: number;
  /** The coordinate system (`coordinateSystem`), which outranks the file's own `crs` member. */
  readonly crs?: string | null;
  /** Finds systems by name; those that need no table when left out. `readGeoJsonFile` gives one that knows them all. */
  readonly findSystem?: FindSystem;
  /** How long reading may take; no limit when left out. */
  readonly time?: ReadingTime;
  /** Most features of the file, what memory there is for; no limit when left out. */
  readonly maxFeatures?: number;
}

/**
 * A GeoJSON file read for one layer: the features that can be used, the others set aside with their reasons, and where each stands in
 * the bytes. A file that cannot be read at all has `fault` and no features; one bad feature never touches another.
 *
 * Strict UTF-8 and JSON; what `JSON.parse` refuses is refused with line and column. Throws RangeError only for an unknown `crs` option.
 * The result names the system whose coordinates were read (`system`).
 */
export function readGeoJson(bytes: Uint8Array, how: ReadGeoJsonOptions): GeoJsonRead {
  const givenSystem = how.crs === undefined || how.crs === null ? null : systemFinder(how)(how.crs);
  try {
    const document = openDocument(bytes);
    refuseTooMany(document, how.maxFeatures ?? Number.POSITIVE_INFINITY);
    const time = how.time ?? new ReadingTime();
    time.look();
    const values = parseValues(bytes, document, time);
    return readValues(bytes, how, document, values, givenSystem);
  } catch (error) {
    if (error instanceof UnreadableError) return unreadFile(bytes, how, error.fault);
    throw error;
  }
}

/** Said before a feature is read, so that a file too large for the memory costs no time. */
function refuseTooMany({ ranges }: OpenDocument, most: number): void {
  if (ranges.count <= most) return;
  const reason = `The file has ${withThousands(ranges.count)} features; there is memory for about ${withThousands(Math.max(0, Math.floor(most)))}.`;
  throw new UnreadableError(
    featureFault(
      "too-large",
      null,
      ranges.count,
      reason,
      "Split the file by district, or allow more memory (on the command line NODE_OPTIONS=--max-old-space-size=MEGABYTES).",
    ),
  );
}

/** All features parsed before the first is judged, so that a file broken at its end is refused as a whole. */
function parseValues(bytes: Uint8Array, { form, ranges, root }: OpenDocument, time: ReadingTime): unknown[] {
  if (form === "feature") return [root];
  if (form === "geometry") return [{ type: "Feature", properties: {}, geometry: root }];
  const values: unknown[] = [];
  for (let index = 0; index < ranges.count; index += 1) {
    time.step();
    try {
      values.push(JSON.parse(utf8Text(bytes, ranges.start[index]!, ranges.end[index]!)));
    } catch {
      if (form === "sequence") throw unreadable(bytes, ranges.start[index]!, ranges.end[index]!);
      throw unreadable(bytes, byteOrderMarkLength(bytes));
    }
  }
  return values;
}

function readValues(
  bytes: Uint8Array,
  how: ReadGeoJsonOptions,
  document: OpenDocument,
  values: readonly unknown[],
  givenSystem: CoordinateSystem | null,
): GeoJsonRead {
  const { layer, file, filter = null, firstOrdinal = 0 } = how;
  const { form, ranges, root } = document;
  const about = fileFinder(how);
  const findings: Finding[] = [];
  const system = chooseSystem(root, givenSystem, systemFinder(how), (fault) => findings.push(about(fault)));
  const badBbox = form === "feature-collection" ? bboxDoubt(root, "bbox") : null;
  if (badBbox !== null) findings.push(about(badBbox));
  const features: SourceFeature[] = [];
  const setAside: SetAside[] = [];
  const context = { layer, filter, system, bytes, ranges, tally: { features: 0, positions: 0, outside: 0 } };
  for (let index = 0; index < values.length; index += 1) {
    how.time?.step();
    const outcome: FeatureOutcome = readFeature(values[index], index, context);
    const ordinal = firstOrdinal + index;
    if ("fault" in outcome) {
      setAside.push({ layer, ordinal, finding: about(outcome.fault, nameInFile(outcome.id, index)) });
      continue;
    }
    const { content, doubts } = outcome;
    features.push({ layer, file, index, ordinal, ...content });
    for (const doubt of doubts) findings.push(about(doubt, nameInFile(content.id, index)));
  }
  if (values.length === 0) {
    findings.push(
      about({
        ...featureFault(
          "empty-file",
          null,
          null,
          "The file has no features.",
          "Check the export, or leave the file out.",
        ),
        severity: "warning",
      }),
    );
  }
  for (const fault of [...systemFaults(system, context.tally), ...summaries(setAside, values.length)]) {
    findings.push(about(fault));
  }
  const reprojectedFrom = system.toLonLat === null ? null : system.name;
  const frame =
    reprojectedFrom === null || form !== "feature-collection"
      ? document.frame
      : withoutMembers(document.frame, ["crs", "bbox"]);
  return {
    layer,
    file,
    bytes,
    form,
    verdict: verdictOf(setAside, findings),
    fault: null,
    features,
    setAside,
    findings,
    firstOrdinal,
    ranges,
    ...frame,
    reprojectedFrom,
    system,
    counts: {
      features: values.length,
      used: features.length,
      setAside: setAside.length,
      filteredOut: setAside.filter(({ finding }) => finding.code === "filtered-out").length,
    },
  };
}

function chooseSystem(
  root: unknown,
  givenSystem: CoordinateSystem | null,
  findSystem: FindSystem,
  report: (fault: FeatureFault) => void,
): CoordinateSystem {
  const name = isObject(root) ? crsMemberName(root) : null;
  let own: CoordinateSystem | null = null;
  let refusal: FeatureFault | null = null;
  try {
    if (name === undefined)
      throw new RangeError("The file's crs member names no coordinate system this program knows.");
    own = name === null || name.startsWith("+") ? null : findSystem(name);
  } catch (error) {
    const reason = (error as RangeError).message;
    refusal = featureFault("unknown-crs", "crs", name, reason, "Give the coordinate system: --crs EPSG:n.");
  }
  if (givenSystem === null && refusal !== null) throw new UnreadableError(refusal);
  if (givenSystem !== null && own !== null && own.name !== givenSystem.name) {
    const reason = `The file names ${own.name.slice(0, 80)}, but is read as ${givenSystem.name.slice(0, 80)}, as was asked.`;
    report({
      ...featureFault("crs-overridden", "crs", own.name, reason, "Check which of the two is true."),
      severity: "warning",
    });
  }
  return givenSystem ?? own ?? WGS84;
}

const systemFinder = (how: ReadGeoJsonOptions): FindSystem => how.findSystem ?? findBuiltInSystem;

/** Faults that are likely the whole file's, said once for the file beside the features set aside for them. */
const FILE_WIDE_CODES = ["projected-coordinates", "swapped-axes", "degrees-in-projected"];

function summaries(setAside: readonly SetAside[], total: number): FeatureFault[] {
  return FILE_WIDE_CODES.flatMap((code) => {
    const same = setAside.filter(({ finding }) => finding.code === code);
    if (same.length === 0) return [];
    const { field, value, reason, whatToDo } = same[0]!.finding;
    return [
      { code, severity: "error", field, value, reason: `${same.length} of ${total} features: ${reason}`, whatToDo },
    ];
  });
}

/** The answer for a file that cannot be read at all: no features, and why. */
export function unreadFile(bytes: Uint8Array, how: ReadGeoJsonOptions, cause: FeatureFault): GeoJsonRead {
  const fault = fileFinder(how)(cause);
  return {
    layer: how.layer,
    file: how.file,
    bytes,
    form: "feature-collection",
    verdict: "unreadable",
    fault,
    features: [],
    setAside: [],
    findings: [fault],
    firstOrdinal: how.firstOrdinal ?? 0,
    ranges: emptyRanges(),
    ...plainFrame(),
    reprojectedFrom: null,
    system: WGS84,
    counts: { features: 0, used: 0, setAside: 0, filteredOut: 0 },
  };
}

function fileFinder({ layer, file }: ReadGeoJsonOptions): (fault: FeatureFault, feature?: string) => Finding {
  return (fault, feature) => ({ ...fault, layer, file, feature: feature ?? null });
}

function verdictOf(setAside: readonly SetAside[], findings: readonly Finding[]): Verdict {
  if (setAside.some(({ finding }) => finding.severity !== "info")) return "set-aside";
  return findings.some(({ severity }) => severity !== "info") ? "warnings" : "clean";
}
