import type { Size, Tree } from "../model/trees.ts";
import type { FindingLog } from "./finding-log.ts";
import type { ReadTree } from "./read-tree.ts";

/** Counts what was estimated, assumed or inferred of a tree into findings that sum up many. */
export function sumUp(tree: Tree, reading: ReadTree, log: FindingLog): void {
  sumSize("height", "height", tree.height, log);
  sumSize("crown base", "crown_base", tree.crownBase, log);
  sumSize("crown radius", "crown_radius", tree.radius, log);
  if (reading.isFormInferred) {
    log.tally({
      code: "form-inferred",
      severity: "info",
      field: "form",
      what: "low and leafy to the ground, so taken for shrubs; assumed",
      whatToDo: "State the form of young trees as `tree`",
    });
  }
  if (tree.condition === "dead") {
    log.tally({
      code: "tree-dead",
      severity: "info",
      field: "condition",
      what: "dead by the inventory; kept, and referred instead of pruned",
      whatToDo: "Have them inspected",
    });
  }
  if (reading.match.isRespelled) {
    log.tally({
      code: "species-respelled",
      severity: "info",
      field: "species",
      what: "the species was recognized in spite of its spelling",
      whatToDo: "Check the names",
      example: `${tree.species ?? tree.commonName} as ${tree.traits.matchedName}`,
    });
  }
  if (reading.match.isCode) {
    log.tally({
      code: "species-from-code",
      severity: "info",
      field: "species",
      what: "the species was read from a code of the first letters of genus and epithet",
      whatToDo: "Check the names; translate the city's codes in the column map where they mean something else",
      example: `${tree.species ?? tree.commonName} as ${tree.traits.matchedName}`,
    });
  }
  if (reading.match.isUnknownName) {
    log.tally({
      code: "species-unknown",
      severity: "info",
      field: "species",
      what: "the name is not in the bundled list; general traits are used",
      whatToDo: "Check the name, or map the city's tree type to the form",
      example: tree.species ?? tree.commonName ?? "",
    });
  }
  if (tree.species === null && tree.commonName === null) {
    log.tally({
      code: "species-missing",
      severity: "info",
      field: "species",
      what: "no species given; general traits are used",
      whatToDo: "Map the species column, or identify the trees",
    });
  }
}

/** Whether a size comes from a stem diameter by published equations. */
export const isByAllometry = (size: Size): boolean => size.source.startsWith("urban allometry");

function sumSize(name: string, field: string, size: Size, log: FindingLog): void {
  if (size.basis === "measured") return;
  const isAssumed = size.basis === "assumed";
  const way = isByAllometry(size)
    ? "from dbh by urban allometry"
    : size.source.includes("as a share of the height")
      ? "from the height by medians of like trees"
      : size.source.startsWith("median")
        ? size.source.endsWith("in this inventory")
          ? "as the median of like trees of this inventory"
          : `as the ${size.source}`
        : "by our policy for hedges and shrubs";
  log.tally({
    code: isAssumed ? "size-assumed" : "size-estimated",
    severity: isAssumed ? "warning" : "info",
    field,
    what: `${name} ${size.basis} ${way}`,
    whatToDo: isAssumed
      ? "Measure stem diameter or height; a tree of which every size is assumed has no conflict that is more than possible"
      : "Measure where the work depends on it",
  });
}
