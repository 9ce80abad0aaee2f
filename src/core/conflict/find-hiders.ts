import type { PlanOptions } from "../model/plan.ts";
import type { TreeTable } from "../model/tree-table.ts";
import type { Standard } from "../standard/standard.ts";
import type { SightEnvelope, Surroundings } from "../surroundings/surroundings.ts";
import { type GatheredHiders, HiddenCollector } from "./hidden/hidden-collector.ts";
import { SearchContext } from "./search-context.ts";
import { SETTING_REACH_M } from "./tree-setting.ts";

/** A trunk inside a sight triangle. */
export type TrunkInSight = readonly [row: number, areaId: string];

/** What a part of the trees hides of areas of sight, to be put together with what the other parts hide. */
export interface Hiders {
  readonly hiders: readonly GatheredHiders[];
  /** Trunks inside sight triangles, by row of the tree and id of the area, in tree order. */
  readonly trunks: readonly TrunkInSight[];
}

/**
 * Looks only for what trees hide of areas of sight, as `findConflicts` does while it measures: so that a part of the trees can be measured by itself
 * once it is known what all hide together. `placeOf` gives an area's place among the envelopes.
 */
export function findHiders(
  table: TreeTable,
  surroundings: Surroundings,
  standard: Standard,
  options: PlanOptions,
  placeOf: (envelope: SightEnvelope) => number,
): Hiders {
  const context = new SearchContext(standard, options, new Map());
  const hidden = new HiddenCollector(standard);
  const trunks: TrunkInSight[] = [];
  const { view, around, nearest, trunk } = context;
  for (let row = 0; row < table.trees.length; row += 1) {
    view.moveTo(table, row, context.horizonYears);
    const shapes = surroundings.planes.get(view.plane);
    if (shapes === undefined) continue;
    around.search(shapes, view.xM, view.yM, Math.max(SETTING_REACH_M, view.farM + context.widestClearToM));
    for (let position = 0; position < around.itemCount; position += 1) {
      const item = around.items[position]!;
      const envelope = surroundings.envelopes[shapes.itemOwner[item]!]!;
      if (envelope.type !== "sight") continue;
      around.load(position, 0);
      trunk.moveTo(around, view, shapes, item);
      hidden.add(context, envelope);
      const isNear = around.isInside || nearest.distanceM <= view.farM;
      if (trunk.isInside && isNear && envelope.area.kind === "sight-triangle" && hasRule(context, envelope))
        trunks.push([view.tree.row, envelope.area.id]);
    }
  }
  return { hiders: hidden.gathered(placeOf), trunks };
}

const hasRule = (context: SearchContext, { area }: SightEnvelope): boolean =>
  context.standard.rules.some(({ id }) => id === area.ruleId) || context.ruleOf(area.kind) !== null;
