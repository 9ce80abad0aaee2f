// The public API of the core: the whole run, what it takes and gives, and the pure pieces that hosts draw and check with.
export {
  type Crown,
  crownOf,
  lowerSurfaceM,
  radiusAtHeightM,
  radiusTowardM,
  roundCrown,
  upperSurfaceM,
} from "./crown/crown.ts";
export { type Dose, unionDose } from "./crown/dose.ts";
export type { Drawing, Shape, Tone } from "./crown/drawing.ts";
export { drawingToSvg, PRINT_TONES, SCREEN_TONES } from "./crown/drawing-to-svg.ts";
export { drawPlanInset } from "./crown/plan-inset.ts";
export type { SectionSubject } from "./crown/section/subject.ts";
export { drawSection } from "./crown/section-drawing.ts";
export { columnMapFromGuesses } from "./inventory/column-map-from-guesses.ts";
export { parseColumnMap } from "./inventory/column-map-schema.ts";
export { type GuessedColumns, guessColumnMap, overlayColumnMap } from "./inventory/guess-columns.ts";
export {
  CONFIDENCE_LEVELS,
  type ColumnGuess,
  type ColumnLook,
  type ConfidenceLevel,
  UNIT_SOURCES,
  type UnitSource,
} from "./model/column-guess.ts";
export { type ColumnMap, type ColumnSource, type ColumnUnit, FIELDS } from "./model/column-map.ts";
export type { Conflict, ConflictRecord, RemovalRegion, TreeSetting } from "./model/conflict.ts";
export type { SourceFeature } from "./model/feature.ts";
export type { Finding, Severity } from "./model/finding.ts";
export type { InputFile, Place, Plan, PlanOptions, SetAside } from "./model/plan.ts";
export type { Prescription, PruningOption, Referral, Task, Visit } from "./model/prescription.ts";
export type { SightArea, SurroundingFeature } from "./model/surroundings.ts";
export {
  BASES,
  type Basis,
  CERTAINTIES,
  type Certainty,
  type ClearanceRemedy,
  CONDITIONS,
  CONFLICT_KINDS,
  type Condition,
  type ConflictKind,
  CREWS,
  type Crew,
  DEFECTS,
  type Defect,
  FORMS,
  type Form,
  HABITS,
  HAZARDS,
  type Habit,
  type Hazard,
  KNOWN_HOW,
  type KnownHow,
  LAYERS,
  type Layer,
  REMEDIES,
  type Remedy,
  URGENCIES,
  type Urgency,
  ZONE_STATES,
  type ZoneState,
} from "./model/terms.ts";
export type { Radii, Size, SpeciesTraits, Tree } from "./model/trees.ts";
export type { Closure, Zone } from "./model/zone.ts";
export { packetContent } from "./packet/packet-content.ts";
export { type PipelineInput, type PipelineResult, runPipeline } from "./pipeline.ts";
export { boughProperties } from "./plan/bough-properties.ts";
export { checkCompletion } from "./plan/completion/check-completion.ts";
export type { Completion, VisitCompletion } from "./plan/completion/completion.ts";
export { parseCompletion } from "./plan/completion/parse-completion.ts";
export { planManifest } from "./plan/plan-manifest.ts";
export { readPlan } from "./plan/read-plan.ts";
export { approachDistanceM, equipmentDistanceM } from "./standard/approach-distance.ts";
export { conductorRuleOf, minimumAtM } from "./standard/conductor-rule.ts";
export { type MergedStandard, mergeStandard } from "./standard/merge-standard.ts";
export { parseStandard, usCommon } from "./standard/parse-standard.ts";
export { type ResolvedStandard, resolveStandard } from "./standard/resolve-standard.ts";
export { SHIPPED_STANDARDS, shippedStandard } from "./standard/shipped-standards.ts";
export type { ClearanceRule, SeasonRule, Standard, StandardChange } from "./standard/standard.ts";
export { addDays, addMonths, type IsoDate, isoDate, parseIsoDate } from "./units/calendar.ts";
export { buildZones } from "./zone/build-zones.ts";
export { applyZoneEdit } from "./zone/edit/apply-zone-edit.ts";
export { type ZoneDesk, zoneDesk } from "./zone/edit/zone-desk.ts";
export type { SplitAt, TreeChoice, ZoneAllowance, ZoneEdit } from "./zone/edit/zone-edit.ts";
export type { ZoneChange, ZoneEditFinding, ZoneEditResult, ZoneMend } from "./zone/edit/zone-edit-result.ts";
export { redone, startedHistory, undone, withStep, type ZoneHistory } from "./zone/edit/zone-history.ts";
