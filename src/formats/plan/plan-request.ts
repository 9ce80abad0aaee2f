import type { ColumnMap } from "../../core/model/column-map.ts";
import type { Finding } from "../../core/model/finding.ts";
import type { PlanOptions } from "../../core/model/plan.ts";
import type { RunPart } from "../../core/model/run-part.ts";
import type { Layer } from "../../core/model/terms.ts";
import type { ArboristWord } from "../../core/model/word.ts";
import type { EarlierPlan } from "../carry/earlier-plan.ts";

/** One input file of a run. */
export interface LayerFile {
  readonly layer: Layer;
  /** Name shown to people, without its folder. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** A condition such as `TYPE = Road`; features that do not meet it are set aside as filtered out. Null takes all. */
  readonly filter: string | null;
  /** The table of a GeoPackage or the shapefile of a zip to read, where the file has several; left out asks when there is a choice. */
  readonly table?: string | null;
  /** The file's coordinate system where it is known better than the request's `crs`, for example of a database; left out for others. */
  readonly crs?: string;
}

/** What to plan; plain data, so that it can be posted to a worker. */
export interface PlanRequest {
  /** Number of the revision to make: 1 for a new plan. */
  readonly revision: number;
  readonly files: readonly LayerFile[];
  /** The user's column map; columns it does not name are guessed and the guess is a finding. */
  readonly columns: ColumnMap;
  /** JSON value of a standard; null takes the shipped one. */
  readonly standardJson: unknown;
  readonly options: PlanOptions;
  /** Coordinate system of all files, `EPSG:n`; null takes what each file says, else longitude and latitude. */
  readonly crs: string | null;
  /** Which trees to plan; left out plans all. Only without zones, the cost of waiting and an earlier plan. */
  readonly part?: RunPart;
  /** Whether to group the visits into work zones as well. */
  readonly withZones: boolean;
  /** What arborists said of the trees, under the ids that they get; left out where nothing was said. */
  readonly words?: readonly ArboristWord[];
  /** The plan that this one carries on: its next revision, with what was recorded, said and zoned; left out makes a plan by itself. */
  readonly earlier?: EarlierPlan;
  /** Whether to compute what slipping the plan by a cycle costs; left out does not, as it measures everything twice. */
  readonly withWaiting?: boolean;
}

/** A revision ready to be written or opened: file names with their bytes, and what a person should be told. */
export interface PlanOutput {
  readonly planId: string;
  readonly revision: number;
  readonly files: ReadonlyMap<string, Uint8Array>;
  readonly findings: readonly Finding[];
}

export type Progress = (share: number, doing: string) => void;
