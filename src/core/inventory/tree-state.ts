import type { Condition, Defect, Form } from "../model/terms.ts";
import type { TreeKind } from "./species/species-table.ts";

/** What a word in a form or type column says. */
export interface FormWord {
  readonly form: Form | null;
  readonly kind: TreeKind | null;
}

/**
 * Words of form and type columns. A bare `evergreen` counts as a conifer: among the trees of known species in one large inventory 565
 * of 582 that were called so are conifers. Common practice, no source.
 */
const FORM_WORDS: ReadonlyMap<string, FormWord> = new Map(
  (
    [
      ["hedge", null, "hedge hedges hedgerow hedging"],
      ["shrub", null, "shrub shrubs bush bushes"],
      ["palm", "palm", "palm palms pes pem pel pe"],
      [
        null,
        "conifer-evergreen",
        "conifer conifers coniferous gymnosperm softwood needleleaf needleleaved evergreen ces cem cel ce",
      ],
      [null, "broadleaf-deciduous", "deciduous broadleaf broadleaved angiosperm hardwood bds bdm bdl bd"],
      [null, "broadleaf-evergreen", "broadleaf-evergreen evergreen-broadleaf bes bem bel be"],
      ["tree", null, "tree trees"],
    ] as const
  ).flatMap(([form, kind, words]) => words.split(" ").map((word) => [word, { form, kind }] as const)),
);

/** What a text of a form, type or status column says of the form; both null when nothing. */
export function formWord(text: string | null): FormWord {
  if (text === null) return { form: null, kind: null };
  const words = wordsOf(text);
  const isBroad = words.some((word) => word.startsWith("broadlea"));
  if (isBroad && words.includes("evergreen")) return { form: null, kind: "broadleaf-evergreen" };
  const known = words.flatMap((word) => FORM_WORDS.get(word) ?? []);
  return {
    form:
      known.find((word) => word.form !== null && word.form !== "tree")?.form ??
      known.find((word) => word.form)?.form ??
      null,
    kind: known.find((word) => word.kind !== null)?.kind ?? null,
  };
}

const CONDITION_WORDS: ReadonlyMap<string, Condition | "gone"> = new Map(
  (
    [
      ["good", "good excellent healthy vigorous normal"],
      ["fair", "fair average moderate satisfactory"],
      ["poor", "poor critical declining stressed dying bad severe"],
      ["dead", "dead snag"],
      ["gone", "removed felled stump missing vacant"],
    ] as const
  ).flatMap(([condition, words]) => words.split(" ").map((word) => [word, condition] as const)),
);
const ALIVE_WORDS: ReadonlyMap<string, boolean> = new Map([
  ...["live", "alive", "living", "yes", "y", "true", "1"].map((word) => [word, true] as const),
  ...["no", "n", "false", "0", "not"].map((word) => [word, false] as const),
]);

/** The condition that texts of a condition and an alive column tell; `gone` when the tree no longer stands; null when they tell nothing. */
export function conditionOf(condition: string | null, alive: string | null): Condition | "gone" | null {
  const [first = ""] = condition === null ? [] : wordsOf(condition);
  const [aliveFirst = ""] = alive === null ? [] : wordsOf(alive);
  const stated = CONDITION_WORDS.get(first) ?? null;
  const living = CONDITION_WORDS.get(aliveFirst) ?? null;
  if (stated === "gone" || living === "gone") return "gone";
  if (stated === "dead" || living === "dead" || ALIVE_WORDS.get(aliveFirst) === false) return "dead";
  return stated ?? living;
}

const EMPTY_SITES = [
  "vacant",
  "stump",
  "removed",
  "planting site",
  "planting space",
  "empty site",
  "empty planting",
  "no tree",
];

/** Whether a species or common name says that no tree stands there (`Vacant site`, `Stump`, `Removed`). */
export function isEmptySite(name: string | null): boolean {
  if (name === null) return false;
  const text = wordsOf(name).join(" ");
  return EMPTY_SITES.some((words) => text === words || text.startsWith(`${words} `));
}

/** Whether a species or common name says that the tree is dead (`Dead`, `Snag`, `standing dead tree`), which no name of a living one does. */
export function saysDead(name: string | null): boolean {
  if (name === null) return false;
  const words = wordsOf(name);
  return words.includes("dead") || (words.length === 1 && words[0] === "snag");
}

const DEFECT_WORDS: readonly (readonly [Defect, readonly string[]])[] = [
  ["hanger", ["hanger", "hanging"]],
  ["included-bark", ["included"]],
  ["codominant-stem", ["codominant", "co-dominant"]],
  ["crossing-limb", ["crossing", "rubbing"]],
  ["water-sprout", ["watersprout", "water sprout", "water-sprout"]],
  ["sucker", ["sucker"]],
  ["stub", ["stub"]],
  ["broken-limb", ["broken"]],
  ["diseased-limb", ["disease"]],
  ["dead-limb", ["dead limb", "dead-limb", "dead branch", "deadwood", "dead wood", "dieback"]],
  ["decay", ["decay", "cavity", "rot"]],
];

/** Defects named in a text or list of texts, each once, with the parts that no defect was found in. */
export function defectsOf(text: string | null): { defects: Defect[]; unknown: string[] } {
  const defects: Defect[] = [];
  const unknown: string[] = [];
  for (const part of (text ?? "").toLowerCase().split(/[,;|/]/)) {
    const words = part.trim();
    if (words === "" || words === "none" || words === "no") continue;
    const found = DEFECT_WORDS.find(([, marks]) => marks.some((mark) => ` ${words}`.includes(` ${mark}`)))?.[0];
    if (found === undefined) unknown.push(words);
    else if (!defects.includes(found)) defects.push(found);
  }
  return { defects, unknown };
}

const wordsOf = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[ ,;:()/_]/)
    .filter((word) => word !== "");
