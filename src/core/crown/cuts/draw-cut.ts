import type { DisplayUnits } from "../../units/format-length.ts";
import type { Drawing } from "../drawing.ts";
import { collarCut } from "./collar-cut.ts";
import type { CutFigure } from "./cut-figures.ts";
import { frondsCut } from "./fronds-cut.ts";
import { hedgeCut } from "./hedge-cut.ts";
import { noCollarCut } from "./no-collar-cut.ts";
import { reductionCut } from "./reduction-cut.ts";
import { threeCut } from "./three-cut.ts";

/**
 * A drawing of the cut guide. The three-cut figure says its distances for a limb of `diameterM` in the reader's units; the others show no
 * lengths. Lines are schematic: ridge, collar and angles differ from limb to limb, and the tree decides.
 */
export function drawCut(figure: CutFigure, units: DisplayUnits, diameterM: number): Drawing {
  if (figure === "three-cut") return threeCut(units, diameterM);
  return DRAWINGS[figure]();
}

const DRAWINGS: Readonly<Record<Exclude<CutFigure, "three-cut">, () => Drawing>> = {
  collar: collarCut,
  "no-collar": noCollarCut,
  reduction: reductionCut,
  fronds: frondsCut,
  hedge: hedgeCut,
};
