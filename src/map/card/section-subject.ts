import type { SectionSubject } from "../../core/crown/section/subject.ts";
import type { ConflictRecord } from "../../core/model/conflict.ts";
import { CERTAINTIES } from "../../core/model/terms.ts";
import type { OpenedPlan } from "../../formats/plan/open-plan.ts";

/** What the section of a tree shows: toward the conflict its work serves, the surest and deepest first. Null without such a tree. */
export function sectionSubject(opened: OpenedPlan, treeId: string): SectionSubject | null {
  const { plan } = opened;
  const row = plan.trees.findIndex((tree) => tree.id === treeId);
  const tree = plan.trees[row];
  const prescription = plan.prescriptions[row];
  if (tree === undefined || prescription === undefined) return null;
  const served = new Set(prescription.tasks.flatMap((task) => task.conflictIds));
  const rank = (conflict: ConflictRecord) =>
    (served.has(conflict.conflictId) ? 0 : 10) + CERTAINTIES.indexOf(conflict.certainty);
  const conflict =
    plan.conflicts
      .filter((one) => one.treeId === treeId)
      .reduce<ConflictRecord | null>((best, one) => {
        if (best === null) return one;
        const lead = rank(best) - rank(one);
        return lead > 0 || (lead === 0 && one.encroachmentM > best.encroachmentM) ? one : best;
      }, null) ?? null;
  const thing = plan.surroundings.find((one) => one.layer === conflict?.withLayer && one.id === conflict.withId);
  const triangle = plan.sight.find((one) => one.id === conflict?.withId);
  return {
    tree,
    conflict,
    prescription,
    setting: plan.settings[row] ?? null,
    ...(thing?.width == null ? {} : { widthOfThingM: thing.width.typicalM }),
    ...(thing?.heightM == null ? {} : { heightOfThingM: thing.heightM }),
    ...(triangle === undefined ? {} : { windowLowM: triangle.windowLowM }),
  };
}
