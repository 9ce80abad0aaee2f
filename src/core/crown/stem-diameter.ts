import type { Tree } from "../model/trees.ts";

/** Height over stem diameter where no diameter is known: our estimate, a 12 m street tree of 30 cm. */
const HEIGHT_PER_DBH = 40;

/** Stem diameter at breast height in meters; estimated from height where the inventory has none. */
export const stemDiameterM = (tree: Tree): number => tree.dbhM ?? tree.height.valueM / HEIGHT_PER_DBH;
