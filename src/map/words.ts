import type { ConflictKind, Crew, Remedy, Urgency, ZoneState } from "../core/model/terms.ts";

/** Every word the plugin shows. A host translates by passing some or all of them; the plan's own sentences stay as they are. */
export interface Words {
  readonly title: string;
  readonly showPanel: string;
  readonly hidePanel: string;
  readonly backToLegend: string;
  readonly nothingLoaded: string;
  readonly selectedTree: string;
  readonly selectedZone: string;
  readonly urgency: Readonly<Record<Urgency, string>>;
  readonly remedy: Readonly<Record<Remedy, string>>;
  readonly certainty: Readonly<Record<"confirmed" | "probable" | "possible", string>>;
  readonly basis: Readonly<Record<"measured" | "estimated" | "assumed", string>>;
  readonly zoneState: Readonly<Record<ZoneState, string>>;
  readonly crew: Readonly<Record<Crew, string>>;
  readonly kind: Readonly<Record<ConflictKind, string>>;
}

export const DEFAULT_WORDS: Words = {
  title: "Pruning plan",
  showPanel: "Show legend",
  hidePanel: "Hide legend",
  backToLegend: "Back to the legend",
  nothingLoaded: "No plan loaded.",
  selectedTree: "Selected tree",
  selectedZone: "Selected zone",
  urgency: {
    now: "now",
    "next-window": "next window",
    "this-cycle": "this cycle",
    watch: "watch",
    clear: "clear",
  },
  remedy: {
    shorten: "shorten",
    "remove-limb": "remove limb",
    lift: "lift",
    remedial: "remedial",
    structural: "structural",
    refer: "refer to an arborist",
    none: "no work",
  },
  certainty: {
    confirmed: "confirmed",
    probable: "probable",
    possible: "possible: inspect first",
  },
  basis: { measured: "measured", estimated: "estimated", assumed: "assumed" },
  zoneState: { draft: "draft", issued: "issued", "under-way": "under way", done: "done" },
  crew: {
    ground: "ground crew",
    aerial: "aerial crew",
    "line-clearance": "line-clearance crew",
    utility: "utility crew",
  },
  kind: {
    conductor: "conductor",
    roadway: "roadway",
    "bus-route": "bus route",
    "fire-lane": "fire lane",
    "sight-triangle": "sight triangle",
    curve: "curve",
    sign: "sign",
    signal: "signal",
    walkway: "walkway",
    bikeway: "bikeway",
    "building-side": "building wall",
    "building-roof": "roof",
  },
};

/** The default words with a host's own in their place. */
export function wordsWith(own: Partial<Words> | undefined): Words {
  return own === undefined ? DEFAULT_WORDS : { ...DEFAULT_WORDS, ...own };
}
