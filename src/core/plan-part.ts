import { findConflicts } from "./conflict/find-conflicts.ts";
import type { KnownViews } from "./conflict/known-views.ts";
import type { Conflict, TreeSetting } from "./model/conflict.ts";
import type { Finding } from "./model/finding.ts";
import type { PlanOptions } from "./model/plan.ts";
import type { Prescription } from "./model/prescription.ts";
import type { SightArea } from "./model/surroundings.ts";
import type { ConflictKind } from "./model/terms.ts";
import { treeTable } from "./model/tree-table.ts";
import type { Tree } from "./model/trees.ts";
import type { WordsByTree } from "./model/words-in-force.ts";
import { wordFindings } from "./plan/word/word-findings.ts";
import { prescribe } from "./prescription/prescribe.ts";
import { schedule } from "./schedule/schedule.ts";
import type { Standard } from "./standard/standard.ts";
import type { Surroundings } from "./surroundings/surroundings.ts";
import type { IsoDate } from "./units/calendar.ts";
import { allConflictsAsSaid, prescriptionsAsSaid } from "./words-on-plan.ts";

/** What the stages say of some of a plan's trees, which stand in input order; rows are the plan's. */
export interface PlannedPart {
  readonly trees: readonly Tree[];
  readonly conflicts: readonly Conflict[];
  readonly settings: readonly TreeSetting[];
  readonly prescriptions: readonly Prescription[];
  readonly sight: readonly SightArea[];
  readonly findings: readonly Finding[];
  readonly notChecked: readonly ConflictKind[];
}

/** What every part of a run is measured against. */
export interface PartGround {
  readonly surroundings: Surroundings;
  readonly standard: Standard;
  readonly options: PlanOptions;
  readonly firstSeen: ReadonlyMap<string, IsoDate>;
  /** What arborists said of the trees, whose sizes are then as they measured them; absent where nothing was said. */
  readonly words?: WordsByTree;
}

/**
 * Measures, prescribes and dates some trees: what the whole plan says of them, where `known` says what all trees together hide of areas of sight.
 * Null for `known` where they are all the trees.
 */
export function planPart(trees: readonly Tree[], ground: PartGround, known: KnownViews | null): PlannedPart {
  const { surroundings, standard, options, firstSeen, words = NO_WORDS } = ground;
  const measured = findConflicts(treeTable(trees), surroundings, standard, options, firstSeen, known);
  const { settings } = measured;
  const conflicts = allConflictsAsSaid(measured.conflicts, words, standard, options);
  const drafts = prescribe(trees, conflicts, settings, standard, options, words);
  const dated = schedule(trees, drafts, conflicts, settings, standard, options);
  const prescriptions = prescriptionsAsSaid(trees, dated, conflicts, settings, words, standard, options);
  const findings = [...measured.findings, ...wordFindings({ prescriptions }, [])];
  return { ...measured, conflicts, trees, prescriptions, findings };
}

const NO_WORDS: WordsByTree = new Map();
