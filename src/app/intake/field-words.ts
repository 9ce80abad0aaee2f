import type { Layer } from "../../core/model/terms.ts";

/** Fields whose name alone says too little. */
const WORDS: Readonly<Record<string, string>> = {
  id: "Id",
  dbh: "Stem diameter (dbh)",
  girth: "Stem girth",
  form: "Form (tree, conifer, palm, shrub)",
  planted: "Planted on",
  caliper_at_planting: "Caliper at planting",
  last_pruned: "Last pruned on",
  last_dose: "Live crown taken then",
  alive: "Alive or dead",
  stems: "Number of stems",
  ground_z: "Ground, above sea level",
  ground_z_1: "Ground at the first end",
  ground_z_2: "Ground at the other end",
  headroom_over_road: "Headroom over the road, measured",
  crown_width_1: "Crown width, one way",
  crown_width_2: "Crown width, the other way",
  radius_n: "Crown radius to the north",
  radius_e: "Crown radius to the east",
  radius_s: "Crown radius to the south",
  radius_w: "Crown radius to the west",
  side: "Side of the street",
  min_height: "Height of the lowest part",
  oneway: "One way",
  bus: "Bus route",
  layer: "Level over or under",
  kind: "Kind",
  facing: "Facing (bearing)",
  attachment_height_1: "Attachment height, first end",
  attachment_height_2: "Attachment height, other end",
  location: "Over or under ground",
};

/** What a plan without the layer misses, short enough for one line. */
export const WITHOUT_LAYER: Readonly<Record<Layer, string>> = {
  trees: "needed",
  buildings: "not given; walls are not checked",
  roads: "not given; lanes are not checked",
  paths: "not given; not checked",
  signs: "not given; control is assumed",
  signals: "not given; not checked",
  conductors: "not given; no plain ground crew",
};

/** A canonical field in words: `Crown base`. */
export function fieldWords(field: string): string {
  const known = Object.hasOwn(WORDS, field) ? WORDS[field] : undefined;
  if (known !== undefined) return known;
  const text = field.replaceAll("_", " ");
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

/** A finding's text for the page: what the command line is told to do is done here by a field. */
export const pageWords = (text: string): string =>
  text
    .replace(/ ?\(--table LAYER=NAME\)/g, "")
    .replace(/\bGive --crs EPSG:n\b/g, "Write its code under Coordinates")
    .replace(/--crs EPSG:n/g, "a code under Coordinates")
    .replace(/, or allow more memory \(NODE_OPTIONS=[^)]*\)/g, "");
