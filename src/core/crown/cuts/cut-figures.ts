/** The drawings of the cut guide, in the order they are printed in. */
export const CUT_FIGURES = ["collar", "no-collar", "three-cut", "reduction", "fronds", "hedge"] as const;
export type CutFigure = (typeof CUT_FIGURES)[number];

/** Letters and titles; a letter stands for the same drawing in every packet, so that a crew learns it once. */
export const CUT_TITLES: Readonly<Record<CutFigure, readonly [letter: string, title: string]>> = {
  collar: ["A", "Removal at the branch collar"],
  "no-collar": ["B", "Removal where no collar shows"],
  "three-cut": ["C", "Three cuts for a heavy limb"],
  reduction: ["D", "Reduction to a lateral"],
  fronds: ["E", "Fronds of a palm"],
  hedge: ["F", "Trimming a hedge or shrub"],
};
