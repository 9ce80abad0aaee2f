import type { ConflictKind, Crew, Remedy, Urgency, ZoneState } from "../core/model/terms.ts";
import type { Closure } from "../core/model/zone.ts";
import { SIGHT_WORDS, type SightWords } from "./sight-words.ts";
import { TRAFFIC_WORDS, type TrafficWords } from "./traffic-words.ts";

/** Every word the plugin shows. A host translates by passing some or all of them; the plan's own sentences stay as they are. */
export interface Words {
  readonly traffic: TrafficWords;
  readonly title: string;
  readonly showPanel: string;
  readonly hidePanel: string;
  readonly backToLegend: string;
  readonly close: string;
  readonly nothingLoaded: string;
  readonly opening: string;
  readonly notOpened: string;
  readonly selectedTree: string;
  readonly selectedZone: string;
  readonly urgency: Readonly<Record<Urgency, string>>;
  readonly remedy: Readonly<Record<Remedy, string>>;
  readonly certainty: Readonly<Record<"confirmed" | "probable" | "possible", string>>;
  readonly basis: Readonly<Record<"measured" | "estimated" | "assumed", string>>;
  readonly zoneState: Readonly<Record<ZoneState, string>>;
  readonly crew: Readonly<Record<Crew, string>>;
  readonly kind: Readonly<Record<ConflictKind, string>>;
  readonly sight: SightWords;
  readonly legend: LegendWords;
  readonly card: CardWords;
}

interface LegendWords {
  readonly how: string;
  readonly nothingFound: string;
  readonly what: string;
  readonly howSure: string;
  readonly zones: string;
  readonly around: string;
  readonly crown: string;
  readonly encroachment: string;
  readonly conductor: string;
  readonly sight: string;
  readonly blind: string;
  readonly caution: string;
}

interface CardWords {
  readonly noTree: string;
  readonly noZone: string;
  readonly due: string;
  readonly overdue: string;
  readonly noDate: string;
  readonly figures: string;
  readonly height: string;
  readonly crownBase: string;
  readonly crownRadius: string;
  readonly trunk: string;
  readonly notGiven: string;
  readonly crownRatio: string;
  readonly after: string;
  readonly section: string;
  readonly plan: string;
  readonly conflicts: string;
  readonly noConflicts: string;
  readonly free: string;
  readonly needed: string;
  readonly clearTo: string;
  readonly past: string;
  readonly reachedOn: string;
  /** Before and after the share of a view that trees hide. */
  readonly treesHide: string;
  readonly ofTheView: string;
  /** Before the share that this tree alone would open. */
  readonly opensAlone: string;
  /** Before the names of trees in line, and before what they would open together. */
  readonly opening: string;
  readonly opensTogether: string;
  readonly hazard: string;
  readonly options: string;
  readonly way: string;
  readonly takes: string;
  readonly lasts: string;
  readonly limbs: string;
  readonly prescribed: string;
  readonly ruledOut: string;
  readonly tradeOff: string;
  readonly year: string;
  readonly years: string;
  readonly underYear: string;
  readonly doseLimit: string;
  readonly visits: string;
  readonly visit: string;
  readonly to: string;
  readonly hours: string;
  readonly where: string;
  readonly howToCut: string;
  readonly cutGuide: string;
  readonly cutSteps: string;
  readonly cutDoNot: string;
  readonly cutTools: string;
  readonly cutNote: string;
  readonly openAfter: string;
  readonly referred: string;
  readonly cautions: string;
  readonly notKnown: string;
  readonly notChecked: string;
  readonly noConductors: string;
  readonly openUntil: string;
  readonly columns: string;
  readonly otherColumns: string;
  readonly otherColumnsNote: string;
  readonly trees: string;
  readonly walk: string;
  readonly window: string;
  readonly closure: string;
  readonly closureKind: Readonly<Record<Closure["kind"], string>>;
  readonly order: string;
}

export const DEFAULT_WORDS: Words = {
  traffic: TRAFFIC_WORDS,
  title: "Pruning plan",
  showPanel: "Show legend",
  hidePanel: "Hide legend",
  backToLegend: "Back to the legend",
  close: "Close",
  nothingLoaded: "No plan loaded.",
  opening: "Opening the plan.",
  notOpened: "The plan could not be opened.",
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
  sight: SIGHT_WORDS,
  legend: {
    how: "How soon",
    nothingFound: "nothing found, not all checked",
    what: "What is to be done",
    howSure: "How sure",
    zones: "Work zones",
    around: "Close up, at true size",
    crown: "crown and trunk",
    encroachment: "part that is too close",
    conductor: "conductor",
    sight: "where drivers must see",
    blind: "ground hidden by trees",
    caution:
      "A plan, not a permit. Local codes, the road authority and licensed or line-clearance arborists decide; nothing here says that a place is safe.",
  },
  card: {
    noTree: "No tree is selected.",
    noZone: "No work zone is selected.",
    due: "due",
    overdue: "overdue",
    noDate: "no visit planned",
    figures: "Sizes",
    height: "Height",
    crownBase: "Crown base",
    crownRadius: "Crown radius",
    trunk: "Trunk diameter",
    notGiven: "not given",
    crownRatio: "Live crown ratio",
    after: "after the work",
    section: "Section toward the conflict",
    plan: "Plan of the crown",
    conflicts: "Conflicts",
    noConflicts: "None was found among the kinds that were checked.",
    free: "free",
    needed: "needed",
    clearTo: "clear to",
    past: "past it",
    reachedOn: "minimum reached about",
    treesHide: "trees hide",
    ofTheView: "of this view",
    opensAlone: "clearing this tree alone opens",
    opening: "clearing",
    opensTogether: "together opens most,",
    hazard: "hazard with a deadline",
    options: "Options considered",
    way: "Way",
    takes: "Takes",
    lasts: "Lasts",
    limbs: "Limbs",
    prescribed: "prescribed",
    ruledOut: "ruled out:",
    tradeOff: "Would last",
    year: "year",
    years: "years",
    underYear: "under 1 year",
    doseLimit: "Limit on the dose:",
    visits: "Visits",
    visit: "Visit",
    to: "to",
    hours: "h",
    where: "Where",
    howToCut: "How",
    cutGuide: "How to cut, with drawings",
    cutSteps: "Do",
    cutDoNot: "Do not",
    cutTools: "Tools",
    cutNote: "The drawings are schematic: limbs differ, and the arborist on site decides.",
    openAfter: "Still open afterwards:",
    referred: "Referred to a licensed arborist.",
    cautions: "Cautions",
    notKnown: "What is not known",
    notChecked: "Not checked:",
    noConductors: "No conductor layer was given: nobody has checked for a line near this tree.",
    openUntil: "Stays open until the tree is tall enough, about",
    columns: "The inventory's own columns",
    otherColumns: "Columns that the plan does not use",
    otherColumnsNote:
      "They may name people. What you choose is shown in this browser, for this plan only; packets never hold it.",
    trees: "trees",
    walk: "walk",
    window: "Window",
    closure: "Traffic",
    closureKind: {
      none: "no closure",
      shoulder: "shoulder closed",
      lane: "lane closed",
      walk: "walk closed",
      "parking-lane": "parking lane closed",
      "lane-and-walk": "lane and walk closed",
    },
    order: "Order of work",
  },
};

/** The default words with a host's own in their place, word by word. */
export function wordsWith(own: PartialWords | undefined): Words {
  if (own === undefined) return DEFAULT_WORDS;
  const merged = Object.entries(DEFAULT_WORDS).map(([key, value]) => {
    const given = own[key as keyof Words];
    if (given === undefined) return [key, value];
    return [key, typeof value === "string" ? given : { ...value, ...(given as object) }];
  });
  return Object.fromEntries(merged) as Words;
}

/** Some of the words; groups may be given in part too. */
export type PartialWords = {
  readonly [K in keyof Words]?: Words[K] extends string ? string : Partial<Words[K]>;
};
