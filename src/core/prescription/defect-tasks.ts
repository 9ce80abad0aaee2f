import { stemDiameterM } from "../crown/stem-diameter.ts";
import type { Task } from "../model/prescription.ts";
import type { Defect } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import { howWords, methodFor } from "./cut-method.ts";
import { limbShare } from "./limb.ts";

interface DefectRule {
  readonly timing: Task["timing"];
  readonly objective: Task["objective"];
  readonly cut: Task["cut"];
  /** Share of live crown it is counted with; nominal, our policy: no inventory says how much live crown a defect carries. */
  readonly doseShare: number;
  readonly cause: string;
  readonly where: string;
  /** Diameter as a share of the stem's; our estimate. */
  readonly thicknessShare: number;
}

const RULES: ReadonlyMap<Defect, DefectRule> = new Map<Defect, DefectRule>([
  [
    "hanger",
    rule("any-time", "risk-reduction", "removal", 0, "A broken branch hangs in the crown.", "the hanging branch", 0.2),
  ],
  ["broken-limb", rule("any-time", "risk-reduction", "removal", 0.01, "A limb is broken.", "the broken limb", 0.3)],
  [
    "dead-limb",
    rule("any-time", "risk-reduction", "removal", 0, "A limb is dead.", "dead wood in the whole crown", 0.3),
  ],
  [
    "diseased-limb",
    rule(
      "any-time",
      "health",
      "removal",
      0.02,
      "A limb is diseased.",
      "the diseased limb, back to sound wood; clean tools between cuts",
      0.3,
    ),
  ],
  [
    "stub",
    rule("any-time", "health", "removal", 0, "A stub was left by an earlier cut.", "the stub, back to the collar", 0.2),
  ],
  [
    "crossing-limb",
    rule("window", "structure", "removal", 0.02, "Two limbs cross and rub.", "the weaker of the crossing limbs", 0.2),
  ],
  [
    "included-bark",
    rule(
      "window",
      "structure",
      "reduction",
      0.05,
      "A union has bark grown into it and may split.",
      "the weaker side of the union, shortened so that the other outgrows it",
      0.5,
    ),
  ],
  [
    "codominant-stem",
    rule(
      "window",
      "structure",
      "reduction",
      0.05,
      "Two stems of like thickness compete.",
      "the weaker stem, shortened so that the other leads",
      0.5,
    ),
  ],
  [
    "sucker",
    rule(
      "window",
      "structure",
      "removal",
      0.01,
      "Suckers grow from the base.",
      "suckers at the base, at their origin",
      0.05,
    ),
  ],
  [
    "water-sprout",
    rule(
      "window",
      "structure",
      "removal",
      0.02,
      "Water sprouts crowd the crown.",
      "crowding water sprouts; the best placed stay",
      0.1,
    ),
  ],
]);

/** Tasks for the tree's reported defects, in their order: remedial ones at any time, structural ones in the window. */
export function defectTasks(tree: Tree): { remedial: Task[]; structural: Task[] } {
  const remedial: Task[] = [];
  const structural: Task[] = [];
  for (const defect of new Set(tree.defects)) {
    const found = RULES.get(defect);
    if (found === undefined) continue;
    const diameterM = stemDiameterM(tree) * Math.min(found.thicknessShare, limbShare(tree, tree.radius.valueM) * 2);
    const method = methodFor(diameterM);
    const isRemedial = found.timing === "any-time";
    (isRemedial ? remedial : structural).push({
      taskId: `${tree.id}/${defect}`,
      cause: found.cause,
      conflictIds: [],
      objective: found.objective,
      remedy: isRemedial ? "remedial" : "structural",
      where: found.where,
      bearingDeg: null,
      belowM: null,
      targetM: null,
      how: howWords(found.cut, method),
      cut: found.cut,
      method,
      timing: found.timing,
      doseShare: found.doseShare,
      limbDiameterM: [diameterM / 2, diameterM],
    });
  }
  return { remedial, structural };
}

function rule(
  timing: Task["timing"],
  objective: Task["objective"],
  cut: Task["cut"],
  doseShare: number,
  cause: string,
  where: string,
  thicknessShare: number,
): DefectRule {
  return { timing, objective, cut, doseShare, cause, where, thicknessShare };
}
