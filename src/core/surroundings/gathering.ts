import type { Position } from "geojson";
import type { ColumnMap } from "../model/column-map.ts";
import type { SourceFeature } from "../model/feature.ts";
import { featureName } from "../model/feature-name.ts";
import type { Finding, Severity } from "../model/finding.ts";
import type { PlanOptions, SetAside } from "../model/plan.ts";
import type { SurroundingFeature } from "../model/surroundings.ts";
import type { Layer } from "../model/terms.ts";
import { ShapesBuilder, spanOf } from "../plane/shapes-builder.ts";
import type { Standard } from "../standard/standard.ts";
import { readValue, textOf } from "./read-value.ts";
import type { Face } from "./sight/faces/face.ts";
import type { Envelope, PoleAround } from "./surroundings.ts";

/** What the readers of the layers fill, in layer order. */
export class Gathering {
  readonly features: SurroundingFeature[] = [];
  readonly envelopes: Envelope[] = [];
  readonly shapes = new ShapesBuilder();
  readonly poles: PoleAround[] = [];
  /** Faces that drivers must see, of both layers. */
  readonly faces: Face[] = [];
  readonly setAside: SetAside[] = [];
  readonly findings: Finding[] = [];
  readonly #taken = new Set<string>();

  constructor(
    readonly columns: ColumnMap,
    readonly standard: Standard,
    readonly options: PlanOptions,
  ) {}

  /** Id of a feature, unique in its layer: the mapped id, else its own, else `file#index`; a repeated one gets `~2`, `~3` ... */
  idOf(feature: SourceFeature): string {
    const given = textOf(readValue(this.columns, feature.layer, "id", feature) ?? feature.id ?? undefined);
    const base = given ?? `${feature.file}#${feature.index}`;
    let id = base;
    for (let count = 2; this.#taken.has(`${feature.layer} ${id}`); count += 1) id = `${base}~${count}`;
    this.#taken.add(`${feature.layer} ${id}`);
    return id;
  }

  /** Adds an envelope and answers its number, the owner of its shapes. */
  addEnvelope(envelope: Envelope): number {
    this.envelopes.push(envelope);
    return this.envelopes.length - 1;
  }

  find(feature: SourceFeature, code: string, severity: Severity, words: FindingWords): Finding {
    const finding = findingOf(featureName(this.columns, feature), feature, code, severity, words);
    this.findings.push(finding);
    return finding;
  }

  /** Sets a feature aside that cannot be used; the finding goes with it. */
  leaveOut(feature: SourceFeature, code: string, words: FindingWords): void {
    const finding = findingOf(featureName(this.columns, feature), feature, code, "error", words);
    this.setAside.push({ layer: feature.layer, ordinal: feature.ordinal, finding });
  }

  /** Whether a feature is too wide to be placed in local planes; it is then set aside. */
  isTooWide(feature: SourceFeature, lines: readonly (readonly Position[])[], isArea: boolean): boolean {
    const [westDeg, eastDeg] = spanOf(lines);
    const mostDeg = isArea ? MAX_AREA_DEG : MAX_LINE_DEG;
    if (!(eastDeg - westDeg > mostDeg)) return false;
    this.leaveOut(feature, "feature-too-wide", {
      value: `${(eastDeg - westDeg).toFixed(1)} degrees`,
      reason: `The feature spans more than ${mostDeg} degrees of longitude.`,
      whatToDo: "Check its coordinates, or cut it into parts of the size of a city.",
    });
    return true;
  }

  /** Sets aside a feature whose geometry type its layer has no use for. */
  leaveOutGeometry(feature: SourceFeature, expected: string): void {
    this.leaveOut(feature, "geometry-type-unused", {
      value: feature.geometry.type,
      reason: `A ${feature.geometry.type} cannot be used in the ${feature.layer} layer.`,
      whatToDo: `Give ${expected}.`,
    });
  }
}

/** Widest spans in degrees of longitude of one area and one line; what is wider is no street, building or circuit of a city. Our policy. */
const MAX_AREA_DEG = 2;
const MAX_LINE_DEG = 10;

export interface FindingWords {
  readonly field?: string;
  readonly value?: unknown;
  readonly reason: string;
  readonly whatToDo: string;
}

function findingOf(
  name: string,
  feature: SourceFeature,
  code: string,
  severity: Severity,
  words: FindingWords,
): Finding {
  return {
    code,
    severity,
    layer: feature.layer as Layer,
    file: feature.file,
    feature: name,
    field: words.field ?? null,
    value: textOf(words.value),
    reason: words.reason,
    whatToDo: words.whatToDo,
  };
}

/** A surrounding feature with every field that does not apply left empty. */
export function plainFeature(
  id: string,
  feature: SourceFeature,
  name: string | null,
  kind: SurroundingFeature["kind"],
): SurroundingFeature {
  return {
    id,
    layer: feature.layer,
    name,
    kind,
    geometry: feature.geometry,
    width: null,
    heightM: null,
    heightSource: null,
    roadClass: null,
    speedKmh: null,
    speedSource: null,
    lanes: null,
    voltageV: null,
  };
}
