import type { Conflict, TreeSetting } from "../model/conflict.ts";
import type { Finding } from "../model/finding.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { SightArea } from "../model/surroundings.ts";
import { CONFLICT_KINDS, type ConflictKind, unreachable } from "../model/terms.ts";
import type { TreeTable } from "../model/tree-table.ts";
import type { PlaneShapes } from "../plane/plane-shapes.ts";
import type { Standard } from "../standard/standard.ts";
import type { ConductorEnvelope, Envelope, SightEnvelope, Surroundings } from "../surroundings/surroundings.ts";
import type { IsoDate } from "../units/calendar.ts";
import { buildingRoofConflict } from "./building-roof-conflict.ts";
import { buildingSideConflict } from "./building-side-conflict.ts";
import { conductorConflict } from "./conductor-conflict.ts";
import { faceConflict } from "./face-conflict.ts";
import { HiddenCollector } from "./hidden/hidden-collector.ts";
import { withHiddenShares } from "./hidden/with-hidden-shares.ts";
import { kindsNotChecked } from "./kinds-not-checked.ts";
import type { KnownViews } from "./known-views.ts";
import { lineNearTree } from "./line-near-tree.ts";
import { PolesAround } from "./poles-around.ts";
import { SearchContext } from "./search-context.ts";
import { sightConflict } from "./sight-conflict.ts";
import { SETTING_REACH_M, SettingCollector } from "./tree-setting.ts";
import { isRoadKind, shareOfWay, wayConflict } from "./way-conflict.ts";

/**
 * Every conflict of every tree with what stands around it, now or within two pruning cycles: in tree order, then by kind, then by the other
 * feature's order. A tree is measured in the plane of its own position, so that a part of the trees gives what the whole gives. Heights count
 * from the tree's own ground: the terrain is taken as level around it. Of a part of the trees, `known` says what the whole hides of areas of
 * sight, which then are not given again.
 */
export function findConflicts(
  table: TreeTable,
  surroundings: Surroundings,
  standard: Standard,
  options: PlanOptions,
  firstSeen: ReadonlyMap<string, IsoDate>,
  known: KnownViews | null = null,
): {
  conflicts: Conflict[];
  settings: TreeSetting[];
  sight: readonly SightArea[];
  findings: Finding[];
  notChecked: ConflictKind[];
} {
  const context = new SearchContext(standard, options, firstSeen);
  const collector = new SettingCollector();
  const poles = known?.poles ?? new PolesAround(standard, surroundings.poles);
  const hidden = new HiddenCollector(standard);
  context.trunkNumbers = known?.trunkNumbers ?? null;
  const notChecked = kindsNotChecked(surroundings, standard);
  const conflicts: Conflict[] = [];
  const settings: TreeSetting[] = [];
  const ofTree: Conflict[] = [];
  for (let row = 0; row < table.trees.length; row += 1) {
    const { view, around } = context;
    view.moveTo(table, row, context.horizonYears);
    collector.reset();
    ofTree.length = 0;
    const shapes = surroundings.planes.get(view.plane) ?? null;
    if (shapes !== null) {
      const reachM = Math.max(SETTING_REACH_M, view.farM + context.widestClearToM);
      around.search(shapes, view.xM, view.yM, reachM);
      // A tall tree can fall on a line that its crown does not come near; it falls about its foot.
      const asideM = view.isBesideTrunk ? Math.hypot(view.xM - view.footXM, view.yM - view.footYM) : 0;
      around.searchSpans(shapes, view.xM, view.yM, Math.max(reachM, view.tree.height.valueM + asideM));
      measureItems(context, surroundings, shapes, collector, hidden, known === null, ofTree);
      measureConductors(context, surroundings, shapes, collector, ofTree);
    }
    poles.check(context);
    settings.push(collector.setting(context, surroundings, notChecked));
    // Stable: within a kind the order of the envelopes is kept.
    ofTree.sort((one, other) => CONFLICT_KINDS.indexOf(one.kind) - CONFLICT_KINDS.indexOf(other.kind));
    for (const conflict of ofTree) conflicts.push(conflict);
  }
  const sight = known === null ? hidden.finish(surroundings) : [];
  return {
    conflicts:
      known === null
        ? withHiddenShares(conflicts, sight, surroundings, standard)
        : conflicts.map((conflict) => known.withHiddenShare(conflict)),
    settings,
    sight,
    findings: context.findings,
    notChecked,
  };
}

/** Faces are seen along lines whose height varies; triangles and curves through one window. */
function viewConflict(context: SearchContext, envelope: SightEnvelope, hidden: HiddenCollector): Conflict | null {
  const { kind } = envelope.area;
  return kind === "sign" || kind === "signal"
    ? faceConflict(context, envelope, hidden.scanOf(envelope, context.view.plane))
    : sightConflict(context, envelope);
}

function measureItems(
  context: SearchContext,
  surroundings: Surroundings,
  shapes: PlaneShapes,
  collector: SettingCollector,
  hidden: HiddenCollector,
  isGathering: boolean,
  found: Conflict[],
): void {
  const { around, view } = context;
  const fieldMeasured = view.tree.headroomOverRoadM === null ? -1 : wayUnderCrown(context, surroundings, shapes);
  for (let position = 0; position < around.itemCount; position += 1) {
    const item = around.items[position]!;
    const owner = shapes.itemOwner[item]!;
    const envelope = surroundings.envelopes[owner]!;
    around.load(position, keepM(context, envelope));
    context.trunk.moveTo(around, view, shapes, item);
    switch (envelope.type) {
      case "building":
        add(found, buildingSideConflict(context, envelope));
        add(found, buildingRoofConflict(context, envelope));
        break;
      case "way":
        collector.addWay(context, envelope);
        add(found, wayConflict(context, envelope, owner === fieldMeasured));
        break;
      case "sight":
        if (isGathering) hidden.add(context, envelope);
        add(found, viewConflict(context, envelope, hidden));
        break;
      case "conductor":
        break;
      default:
        unreachable(envelope);
    }
  }
}

/** How far from the crown's axis the boundary of a thing can matter to its crown, meters. */
function keepM(context: SearchContext, envelope: Envelope): number {
  return context.view.farM + (envelope.type === "way" ? envelope.halfWidth.maxM : context.widestClearToM);
}

/** The road a measured headroom belongs to: the one that begins nearest under the crown; -1 when none is in reach. */
function wayUnderCrown(context: SearchContext, surroundings: Surroundings, shapes: PlaneShapes): number {
  const { around } = context;
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let position = 0; position < around.itemCount; position += 1) {
    const owner = shapes.itemOwner[around.items[position]!]!;
    const envelope = surroundings.envelopes[owner]!;
    if (envelope.type !== "way" || envelope.isCovered) continue;
    if (!isRoadKind(envelope.kind)) continue;
    around.load(position, keepM(context, envelope));
    const share = shareOfWay(context, envelope);
    if (share >= least) continue;
    least = share;
    best = owner;
  }
  return best;
}

function measureConductors(
  context: SearchContext,
  surroundings: Surroundings,
  shapes: PlaneShapes,
  collector: SettingCollector,
  found: Conflict[],
): void {
  const { around } = context;
  for (let from = 0; from < around.spanCount; ) {
    const owner = shapes.spanOwner[around.spans[from]!]!;
    let to = from + 1;
    while (to < around.spanCount && shapes.spanOwner[around.spans[to]!] === owner) to += 1;
    const line = lineNearTree(context, surroundings.envelopes[owner] as ConductorEnvelope, shapes, from, to);
    collector.addLine(context, shapes, line);
    add(found, conductorConflict(context, shapes, line));
    from = to;
  }
}

function add(found: Conflict[], conflict: Conflict | null): void {
  if (conflict !== null) found.push(conflict);
}
