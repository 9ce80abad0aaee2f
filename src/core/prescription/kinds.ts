import { SIGHT_KINDS } from "../model/surroundings.ts";
import type { ConflictKind } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";

/** Whether the conflict is measured as free height; else as free distance. */
export const isHeadroom = (kind: ConflictKind): boolean => kind !== "building-side" && kind !== "conductor";

/** Whether the conflict is with what a driver must see: a triangle, a curve, the face of a sign or signal. */
export const isView = (kind: ConflictKind): boolean => (SIGHT_KINDS as readonly ConflictKind[]).includes(kind);

export const isWoody = (tree: Tree): boolean => tree.form !== "shrub" && tree.form !== "hedge";

export const isConifer = (tree: Tree): boolean =>
  tree.form === "conifer" || (tree.form === "tree" && tree.traits.isConifer);
