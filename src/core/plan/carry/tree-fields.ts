import type { Size, Tree } from "../../model/trees.ts";
import { treeAsInventoried } from "./aged-tree.ts";
import { offsetM } from "./near-pairs.ts";

/** A field of the inventory that can change what is planned: how to tell, and how to give one tree another's. */
export interface TreeField {
  readonly field: string;
  /** The value for people, `species Acer rubrum`; the same text is the same value. */
  readonly told: (tree: Tree) => string;
  /** Names of the tree's members that the field feeds. */
  readonly members: readonly (keyof Tree)[];
}

const size = ({ valueM, basis }: Size): string => `${valueM.toFixed(2)} m${basis === "measured" ? "" : ` (${basis})`}`;
const orNone = (value: string | number | null | undefined): string => (value == null ? "none" : String(value));

/** In the order in which they are exchanged, what is seen on the spot before what is looked up. */
export const TREE_FIELDS: readonly TreeField[] = [
  {
    field: "position",
    told: ({ lonDeg, latDeg }) => `${lonDeg.toFixed(7)}, ${latDeg.toFixed(7)}`,
    members: ["lonDeg", "latDeg"],
  },
  {
    field: "species",
    told: ({ species, commonName, form, habit }) => `${orNone(species ?? commonName)} (${form}, ${habit})`,
    members: ["species", "commonName", "form", "habit", "traits"],
  },
  { field: "crown base", told: ({ crownBase }) => size(crownBase), members: ["crownBase"] },
  { field: "height", told: ({ height }) => size(height), members: ["height"] },
  {
    field: "crown radius",
    told: ({ radius, radii: { northM, eastM, southM, westM }, crownEastM = 0, crownNorthM = 0 }) => {
      const quadrants = [northM, eastM, southM, westM].map((one) => one.toFixed(2));
      const beside = crownEastM === 0 && crownNorthM === 0 ? [] : [crownEastM.toFixed(2), crownNorthM.toFixed(2)];
      const isRound = new Set(quadrants).size === 1 && beside.length === 0;
      return isRound ? size(radius) : `${size(radius)}: ${[...quadrants, ...beside].join(", ")}`;
    },
    members: ["radius", "radii", "crownEastM", "crownNorthM", "stemRunM", "crownPlaceSource"],
  },
  {
    field: "dbh",
    told: ({ dbhM, dbhBasis }) =>
      dbhM === null ? "none" : `${(dbhM * 100).toFixed(1)} cm${dbhBasis === "measured" ? "" : ` (${dbhBasis})`}`,
    members: ["dbhM", "dbhBasis", "dbhLowM", "dbhHighM"],
  },
  {
    field: "headroom over road",
    told: ({ headroomOverRoadM }) => orNone(headroomOverRoadM),
    members: ["headroomOverRoadM"],
  },
  { field: "condition", told: ({ condition }) => condition, members: ["condition"] },
  {
    field: "defects",
    told: ({ defects }) => (defects.length === 0 ? "none" : defects.join(", ")),
    members: ["defects"],
  },
  { field: "stems", told: ({ stems }) => String(stems), members: ["stems"] },
  {
    field: "last pruned",
    told: ({ lastPruned, lastDoseShare }) =>
      `${orNone(lastPruned)}${lastDoseShare === null ? "" : `, ${(lastDoseShare * 100).toFixed(1)} %`}`,
    members: ["lastPruned", "lastDoseShare"],
  },
  {
    field: "planted",
    told: ({ planted, caliperAtPlantingM }) =>
      `${orNone(planted)}${caliperAtPlantingM === null ? "" : `, ${(caliperAtPlantingM * 100).toFixed(1)} cm`}`,
    members: ["planted", "caliperAtPlantingM"],
  },
  { field: "protected", told: ({ isProtected }) => String(isProtected), members: ["isProtected"] },
];

/** The fields in which two inventories' records of a tree differ, each as `crown base 2.40 m -> 4.60 m`. */
export function changedFields(then: Tree, next: Tree): { field: TreeField; told: string }[] {
  const [before, now] = [treeAsInventoried(then), treeAsInventoried(next)];
  return TREE_FIELDS.flatMap((field) => {
    const [was, is] = [field.told(before), field.told(now)];
    const isSame =
      was === is && field.members.every((name) => JSON.stringify(before[name]) === JSON.stringify(now[name]));
    if (isSame) return [];
    if (field.field === "position") {
      const { eastM, northM } = offsetM(before, now);
      return [{ field, told: `position, ${Math.hypot(eastM, northM).toFixed(1)} m away` }];
    }
    return [{ field, told: was === is ? `${field.field} (its basis or interval)` : `${field.field} ${was} -> ${is}` }];
  });
}

/** A tree with one field of another record. */
export const withField = (tree: Tree, { members }: TreeField, from: Tree): Tree => {
  const changed: Record<string, unknown> = { ...tree };
  for (const name of members) changed[name] = from[name];
  return changed as unknown as Tree;
};
