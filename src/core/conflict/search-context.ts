import type { Polygon } from "geojson";
import type { Conflict, GapPoint, RemovalRegion } from "../model/conflict.ts";
import type { Finding } from "../model/finding.ts";
import type { LoadCaseId } from "../model/load-cases.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Basis, Certainty, ConflictKind } from "../model/terms.ts";
import { bearingDeg } from "../plane/bearing.ts";
import { Neighborhood } from "../plane/neighborhood.ts";
import { lonLatAround } from "../plane/plane.ts";
import { droopAllowanceM } from "../standard/droop-allowance.ts";
import type { ClearanceRule, Standard } from "../standard/standard.ts";
import type { Envelope } from "../surroundings/surroundings.ts";
import { dayNumber, type IsoDate } from "../units/calendar.ts";
import { horizonDate } from "./forecast.ts";
import { TreeView } from "./tree-view.ts";
import { TrunkPlace } from "./trunk-place.ts";

/** What a kind's measuring works with: the tree, the thing loaded into `around`, the rules; and where it puts its findings. */
export class SearchContext {
  readonly view = new TreeView();
  readonly around = new Neighborhood();
  /** Nearest point of the thing loaded, relative to the crown's axis. */
  readonly nearest = this.around.nearest;
  /** Where the trunk's foot stands to the thing loaded. */
  readonly trunk = new TrunkPlace();
  readonly findings: Finding[] = [];
  /** Trunks met so far inside each area of sight, by its id. */
  readonly trunksInSight = new Map<string, number>();
  /** Number of each trunk among those in its area, where they were counted before; null counts as trees come. */
  trunkNumbers: ReadonlyMap<string, number> | null = null;
  /** Largest clear-to of all rules, meters. */
  readonly widestClearToM: number;
  readonly asOfDay: number;
  readonly horizonYears: number;
  readonly #rules = new Map<ConflictKind, ClearanceRule>();
  readonly #found = new Set<string>();

  constructor(
    readonly standard: Standard,
    readonly options: PlanOptions,
    readonly firstSeen: ReadonlyMap<string, IsoDate>,
  ) {
    this.asOfDay = dayNumber(options.asOf);
    this.widestClearToM = standard.rules.reduce((most, rule) => Math.max(most, rule.clearToM), 0);
    this.horizonYears = 2 * standard.pruning.cycleYears;
    for (const rule of standard.rules) if (!this.#rules.has(rule.kind)) this.#rules.set(rule.kind, rule);
  }

  /** The standard's first rule of a kind; null when it has none, and nothing is measured. */
  ruleOf(kind: ConflictKind): ClearanceRule | null {
    return this.#rules.get(kind) ?? null;
  }

  /** Reports something about the tree at hand, once a code; `withId` names the other thing where its own name is missing. */
  findOnTree(code: string, severity: Finding["severity"], withId: string, reason: string, whatToDo: string): void {
    const key = `${code} ${this.view.row}`;
    if (this.#found.has(key)) return;
    this.#found.add(key);
    this.findings.push({
      code,
      severity,
      layer: "trees",
      file: null,
      feature: this.view.tree.id,
      field: null,
      value: withId,
      reason,
      whatToDo,
    });
  }

  /** The record of a conflict from what its kind has measured. */
  conflict(envelope: Envelope, rule: ClearanceRule, measured: Measured): Conflict {
    const { tree } = this.view;
    const conflictId = `${measured.kind}:${tree.id}:${envelope.withLayer}/${envelope.withId}`;
    const minimumM = measured.minimumM ?? rule.minimumM;
    const isHazard =
      measured.isNow &&
      measured.certainty !== "possible" &&
      rule.hazard !== null &&
      measured.measuredM < rule.hazard.belowM;
    return {
      conflictId,
      treeId: tree.id,
      treeRow: tree.row,
      kind: measured.kind,
      withLayer: envelope.withLayer,
      withId: envelope.withId,
      withName: envelope.withName,
      ruleId: rule.id,
      measuredM: measured.measuredM,
      minimumM,
      clearToM: measured.clearToM ?? rule.clearToM,
      encroachmentM: Math.max(0, minimumM - measured.measuredM),
      distanceM: measured.distanceM,
      trunkDistanceM: this.view.isBesideTrunk
        ? Math.max(0, measured.trunkDistanceM ?? (this.trunk.isInside ? 0 : this.trunk.distanceM))
        : measured.distanceM,
      bearingDeg: bearingDeg(measured.towardXM, measured.towardYM),
      admits: rule.admits,
      certainty: measured.certainty,
      basis: measured.basis,
      doubt: measured.doubt,
      reachedOn: measured.isNow
        ? this.options.asOf
        : (measured.reachedOn ?? horizonDate(this.asOfDay, this.horizonYears)),
      firstSeen: this.firstSeen.get(conflictId) ?? this.options.asOf,
      hazard: isHazard && rule.hazard !== null ? rule.hazard.kind : null,
      datumM: measured.datumM ?? 0,
      spanId: measured.spanId ?? null,
      loadCase: measured.loadCase ?? null,
      nearest: measured.nearest === undefined ? null : this.#pointsOf(measured.nearest),
      droopAllowanceM: droopAllowanceM(
        this.standard,
        measured.kind,
        tree.traits.isEvergreen,
        this.options.place.hardinessZone,
      ),
      encroachment: measured.encroachment,
      region: measured.region,
      ...(measured.solid === undefined ? {} : { solid: measured.solid }),
    };
  }

  #pointsOf(nearest: NonNullable<Measured["nearest"]>): NonNullable<Conflict["nearest"]> {
    const lonLat = lonLatAround(this.view.plane, this.view.xM, this.view.yM);
    const pointOf = ({ xM, yM, heightM }: PointFromTrunk): GapPoint => {
      const [lonDeg, latDeg] = lonLat(xM, yM);
      return { lonDeg, latDeg, heightM };
    };
    return { thing: pointOf(nearest.thing), crown: pointOf(nearest.crown) };
  }
}

/** A point relative to the crown's axis, meters east, north and up from the trunk's foot. */
export interface PointFromTrunk {
  readonly xM: number;
  readonly yM: number;
  readonly heightM: number;
}

/** What one kind's measuring found out about a tree and a thing. */
export interface Measured {
  readonly kind: ConflictKind;
  readonly measuredM: number;
  /** Where they differ from the rule's. */
  readonly minimumM?: number;
  readonly clearToM?: number;
  readonly distanceM: number;
  /** Where it is not the trunk's distance to the boundary, or to the line, of the thing. */
  readonly trunkDistanceM?: number;
  readonly towardXM: number;
  readonly towardYM: number;
  readonly certainty: Certainty;
  readonly basis: Basis;
  readonly doubt: string | null;
  /** Whether the estimate is below the minimum now. */
  readonly isNow: boolean;
  /** When it will be, if within the horizon. */
  readonly reachedOn: IsoDate | null;
  readonly datumM?: number;
  /** Conductors: the span that comes nearest, and the load case in which it does. */
  readonly spanId?: string;
  readonly loadCase?: LoadCaseId;
  /** The points the measure lies between. */
  readonly nearest?: { readonly thing: PointFromTrunk; readonly crown: PointFromTrunk };
  readonly encroachment: Polygon | null;
  readonly region: RemovalRegion;
  readonly solid?: RemovalRegion;
}
