import type { TreeSetting } from "../model/conflict.ts";
import type { PlanOptions } from "../model/plan.ts";
import type { Tree } from "../model/trees.ts";
import type { Standard } from "../standard/standard.ts";
import { formatLength } from "../units/format-length.ts";
import { nestingWords } from "./nesting-words.ts";

/** Horizontal distance in meters of a way from the trunk, beyond the crown, within which its users are warned; our policy. */
const FALL_MARGIN_M = 3;

/** Less than this reads as touching. */
const TOUCH_M = 0.05;

const LOOK_FOR_LINES = "Look for overhead lines before any work: service drops are often not on the map.";

/**
 * What people must look out for when they work on this tree, as sentences. They never say that a place is safe, and leave the decision
 * to qualified people on site and to local codes.
 */
export function cautionsFor(tree: Tree, setting: TreeSetting, standard: Standard, options: PlanOptions): string[] {
  const cautions = [lineCaution(setting, options)];
  const fallM = tree.radius.valueM + FALL_MARGIN_M;
  if (setting.road !== null && setting.road.distanceM <= fallM) {
    cautions.push(
      "Branches can fall into traffic: traffic control as the road authority requires, confirmed before work starts.",
    );
  }
  if (setting.walkDistanceM !== null && setting.walkDistanceM <= fallM) {
    cautions.push("Keep people out of the drop zone; offer a safe way round, usable by everybody.");
  }
  cautions.push(nestingWords(tree, standard, options.place.region));
  const region = options.place.region;
  const named = standard.seasons.filter(
    (rule) => (rule.rank === "law" || rule.rank === "disease") && rule.genera.includes(tree.traits.genus),
  );
  if (named.length > 0 && region === null) {
    cautions.push(
      `The region is unknown, and ${tree.traits.genus} may not be cut in some seasons in some regions: ask the forestry authority for local dates.`,
    );
  }
  if (tree.traits.genus === "Quercus") {
    cautions.push(
      "Oak: where oak wilt occurs, a wound made in its season is painted at once and tools are disinfected.",
    );
  }
  if (tree.isProtected) cautions.push("Protected tree: a permit may be needed before any cut.");
  if (tree.dbhBasis !== "measured") cautions.push("Limb sizes are our estimate: check them on site.");
  if (tree.defects.includes("decay")) {
    cautions.push("Decay is reported: a qualified risk assessor looks at the tree before anybody climbs it.");
  }
  cautions.push("A plan, not a permit: qualified arborists on site and local codes decide.");
  return cautions;
}

function lineCaution(setting: TreeSetting, options: PlanOptions): string {
  const near = setting.conductor;
  if (!setting.conductorsKnown) {
    return "No overhead lines were given: look for them before any work, and keep the legal approach distance from every line.";
  }
  if (near === null) return LOOK_FOR_LINES;
  const gap = formatLength(near.crownGapM, options.units);
  const { approachM } = near;
  const approach = formatLength(approachM, options.units);
  const voltage = near.voltageV === null ? " of unknown voltage" : "";
  const place =
    near.crownGapM < TOUCH_M
      ? `An overhead line${voltage} touches the crown or runs through it`
      : `An overhead line${voltage} is ${gap} from the crown`;
  const others = near.crownGapM > 2 * approachM ? ` ${LOOK_FOR_LINES}` : "";
  const { equipmentM } = near;
  const machines =
    others !== "" || equipmentM === undefined
      ? ""
      : ` Cranes and loaders keep ${equipmentM === null ? "what an engineer decides" : `at least ${formatLength(equipmentM, options.units)}`}.`;
  return `${place}: nobody but qualified line-clearance arborists, tools and branches included, comes within ${approach} of it; confirm with its owner.${machines}${others}`;
}
