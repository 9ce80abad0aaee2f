import { CUT_FIGURES, CUT_TITLES, type CutFigure } from "../crown/cuts/cut-figures.ts";
import { drawCut } from "../crown/cuts/draw-cut.ts";
import { type HowToCut, howToCut } from "../crown/cuts/how-to-cut.ts";
import { shortLength, shortRange } from "../crown/cuts/short-length.ts";
import { threeCutDistances } from "../crown/cuts/three-cut-distances.ts";
import { WITH_WHAT } from "../crown/cuts/tool-cleaning.ts";
import type { Drawing } from "../crown/drawing.ts";
import type { DisplayUnits } from "../units/format-length.ts";
import { rangesOf } from "./cautions.ts";
import { unique } from "./packet-words.ts";
import type { ZoneStop } from "./zone-stops.ts";

/** One drawing of the cut guide with what belongs under it. */
export interface CutPanel {
  readonly letter: string;
  readonly title: string;
  readonly drawing: Drawing;
}

/** The packet's cut guide: only the drawings that its tasks need, what to do and not to do, tools and their cleaning. */
export interface CutGuide {
  readonly panels: readonly CutPanel[];
  readonly lists: readonly { readonly title: string; readonly lines: readonly string[] }[];
  readonly note: string;
}

/** How each task of a visit is cut. */
export const cutsOf = ({ tree, visit, units }: ZoneStop): HowToCut[] =>
  visit.tasks.map((task) => howToCut(task, tree, units));

/** The cut guide of a zone. */
export function cutGuide(stops: readonly ZoneStop[]): CutGuide {
  const units = stops[0]?.units ?? "metric";
  const cuts = stops.flatMap(cutsOf);
  const used = new Set(cuts.flatMap(({ figures }) => figures));
  const heaviestM = stops
    .flatMap(({ visit }) => visit.tasks)
    .filter(({ method }) => method === "three-cut")
    .reduce((most, { limbDiameterM }) => Math.max(most, limbDiameterM[1]), 0);
  const linesOf = (pick: (how: HowToCut) => HowToCut["steps"]) => unique(cuts.flatMap(pick).map(({ text }) => text));
  const lists = [
    { title: "Do not", lines: joined(linesOf(({ doNot }) => doNot)) },
    { title: "Tools", lines: toolLines(cuts) },
    { title: "Clean tools", lines: cleaningLines(stops) },
  ];
  return {
    panels: CUT_FIGURES.filter((figure) => used.has(figure)).map((figure) => ({
      letter: CUT_TITLES[figure][0],
      title: CUT_TITLES[figure][1],
      drawing: drawCut(figure, units, heaviestM),
    })),
    lists: lists.filter(({ lines }) => lines.length > 0),
    note: "The drawings are schematic: collar, ridge and angles differ from limb to limb, and the arborist on site decides.",
  };
}

/** Rules that begin alike, up to their comma, as one: the dressing of wounds has a rule for oaks and one for the rest. */
function joined(lines: readonly string[]): string[] {
  const rules = new Map<string, string[]>();
  for (const line of lines) {
    const comma = line.indexOf(", ");
    const head = comma < 0 ? line : line.slice(0, comma);
    rules.set(head, [...(rules.get(head) ?? []), comma < 0 ? "" : line.slice(comma + 2).replace(/\.$/, "")]);
  }
  return [...rules].map(([head, rests]) => (rests[0] === "" ? head : `${head}, ${rests.join("; ")}.`));
}

const METHOD_WORDS: Readonly<Record<HowToCut["method"], string>> = {
  hand: "By hand",
  "single-cut": "One saw cut",
  "three-cut": "Three cuts",
};

/** Tools by what they are for, each once; last what holds for all. */
function toolLines(cuts: readonly HowToCut[]): string[] {
  const lines = new Map<string, string[]>();
  const forAll = new Set<string>();
  for (const { kind, method, tools } of cuts) {
    const [own, ...others] = tools.map(({ text }) => text);
    const work = kind === "fronds" ? "Palms" : kind === "trim" ? "Hedges and shrubs" : METHOD_WORDS[method];
    if (own !== undefined) lines.set(work, [`${own.charAt(0).toLowerCase()}${own.slice(1)}`]);
    for (const text of others) forAll.add(text);
  }
  return [...[...lines].map(([work, texts]) => `${work}: ${texts.join(" ")}`), ...forAll];
}

/** Each rule of cleaning once with the numbers of its trees, last what to disinfect with. */
function cleaningLines(stops: readonly ZoneStop[]): string[] {
  const numbers = new Map<string, Set<number>>();
  for (const stop of stops) {
    for (const { text } of cutsOf(stop).flatMap(({ cleaning }) => cleaning)) {
      if (text === WITH_WHAT.text) continue;
      const own = numbers.get(text) ?? new Set();
      own.add(stop.number);
      numbers.set(text, own);
    }
  }
  if (numbers.size === 0) return [];
  const lines = [...numbers].map(
    ([text, own]) => `${own.size === 1 ? "Tree" : "Trees"} ${rangesOf([...own])}: ${text}`,
  );
  return [...lines, WITH_WHAT.text];
}

const KIND_WORDS: Readonly<Record<HowToCut["kind"], string>> = {
  removal: "Whole limbs, at the collar",
  reduction: "Tips, back to a lateral at least a third as thick",
  fronds: "Fronds below the horizontal only",
  trim: "Trim along the line, base wider than the top",
};

/** How a visit is cut, in a sentence for each kind of cut, with the letters of its drawings. */
export function cutLines(stop: ZoneStop): string {
  const { units } = stop;
  const kinds = new Map<HowToCut["kind"], { methods: string[]; figures: Set<CutFigure> }>();
  for (const task of stop.visit.tasks) {
    const { kind, method, figures } = howToCut(task, stop.tree, units);
    const same = kinds.get(kind) ?? { methods: [], figures: new Set() };
    kinds.set(kind, same);
    if (kind === "removal" || kind === "reduction")
      same.methods.push(methodWords(method, task.limbDiameterM[1], units));
    for (const figure of figures) same.figures.add(figure);
  }
  return [...kinds]
    .map(([kind, { methods, figures }]) => {
      const how = unique(methods).join(" or ");
      const drawn = CUT_FIGURES.filter((figure) => figures.has(figure));
      return `${KIND_WORDS[kind]}${how === "" ? "" : `, ${how}`}: cut guide ${letters(drawn)}.`;
    })
    .join(" ");
}

function methodWords(method: HowToCut["method"], diameterM: number, units: DisplayUnits): string {
  if (method === "hand") return "by hand";
  if (method === "single-cut") return "one clean saw cut";
  const { undercutFromM, undercutToM, topCutBeyondM } = threeCutDistances(diameterM);
  return `in three cuts (undercut ${shortRange(undercutFromM, undercutToM, units)} out, top cut ${shortLength(topCutBeyondM, units)} beyond)`;
}

const letters = (figures: readonly CutFigure[]): string => figures.map((figure) => CUT_TITLES[figure][0]).join(", ");
