import type { Task } from "../model/prescription.ts";
import type { Crew, Remedy, Urgency } from "../model/terms.ts";
import type { Tree } from "../model/trees.ts";
import type { Closure } from "../model/zone.ts";

/** Words of a packet, shared by its pages and tables. */
export const REMEDY_WORDS: Readonly<Record<Remedy, string>> = {
  shorten: "shorten branch tips",
  "remove-limb": "remove low limbs",
  lift: "lift the crown",
  remedial: "remove dead, broken or diseased wood",
  structural: "structural pruning",
  refer: "refer to a licensed arborist",
  none: "no work",
};

export const CREW_WORDS: Readonly<Record<Crew, string>> = {
  ground: "ground crew",
  aerial: "aerial crew",
  "line-clearance": "line-clearance crew",
  utility: "utility crew",
};

export const URGENCY_WORDS: Readonly<Record<Urgency, string>> = {
  now: "now",
  "next-window": "next window",
  "this-cycle": "this cycle",
  watch: "watch",
  clear: "clear",
};

export const CLOSURE_WORDS: Readonly<Record<Closure["kind"], string>> = {
  none: "No closure expected",
  shoulder: "Shoulder closed",
  "parking-lane": "Parking lane closed",
  lane: "One lane closed",
  walk: "Walk closed",
  "lane-and-walk": "One lane and the walk closed",
};

/** What is cut in a few words, each task once: `Shorten branch tips; remove low limbs`. */
export function whatText(tasks: readonly Task[]): string {
  const words = [...new Set(tasks.map(({ remedy }) => REMEDY_WORDS[remedy]))];
  return capitalized(words.join("; "));
}

/** The name people call a tree by, and its botanical name where both are known. */
export function treeName(tree: Tree): string {
  if (tree.commonName !== null && tree.species !== null && tree.commonName !== tree.species) {
    return `${tree.commonName} (${tree.species})`;
  }
  return tree.commonName ?? tree.species ?? "species unknown";
}

/** Where the tree stands: address, street and side as far as they are known. */
export function placeText(tree: Tree): string {
  const { address, street, side } = tree;
  const isWhole = address !== null && street !== null && address.toLowerCase().includes(street.toLowerCase());
  const parts = [isWhole || street === null ? address : [address, street].filter((part) => part !== null).join(" ")];
  if (side !== null) parts.push(`${side} side`);
  return parts.filter((part) => part !== null && part !== "").join(", ") || "address unknown";
}

export const capitalized = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Texts in order, each once. */
export const unique = (texts: readonly string[]): string[] => [...new Set(texts)];
