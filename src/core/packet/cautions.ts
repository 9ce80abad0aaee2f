import { unique } from "./packet-words.ts";
import type { ZoneStop } from "./zone-stops.ts";

/** A caution that several trees of a zone share; it stands in full once, under its number, on the page of cautions. */
interface SharedCaution {
  readonly number: number;
  readonly text: string;
  readonly stops: ReadonlySet<number>;
}

/** What a card says of its tree's cautions. */
export interface CardCautions {
  /** Who may come near a line and what else is this tree's own, in full; last, in one text, how those begin that some trees share, with their numbers. */
  readonly dangers: readonly string[];
  /** What is to be measured or stays open, sentences with the same beginning drawn together. */
  readonly notes: readonly string[];
}

/** The cautions of a zone's trees: what is shared stands once, what is one tree's own stands on its card. */
export interface ZoneCautions {
  /** The list of the page of cautions: the shared ones with the numbers of their trees. */
  readonly shared: readonly string[];
  readonly onCard: (stop: ZoneStop) => CardCautions;
  /** Whether some cautions hold for all trees and stand on the page of cautions only. */
  readonly hasForAll: boolean;
}

/** Cautions that name who may come near a line are never shortened or left to another page: they stand where the danger is. */
const ALWAYS_WHOLE = /line-clearance/;
/** What is a danger until it is ended, not a note. */
const DANGER = /line-clearance|hazard/;
/** A beginning that says what kind of note follows: `Only possible, measure on site: Branches may ...`. */
const KIND_OF_NOTE = /^([^:]{10,60}): (?=\p{Lu})/u;

/** Gathers the cautions of the stops, each tree's in its order. */
export function zoneCautions(stops: readonly ZoneStop[]): ZoneCautions {
  const holders = new Map<string, Set<number>>();
  const textsOf = apart(stops);
  for (const { prescription, number } of stops) {
    for (const text of textsOf(prescription.cautions)) {
      const own = holders.get(text);
      if (own === undefined) holders.set(text, new Set([number]));
      else own.add(number);
    }
  }
  const shared = new Map<string, SharedCaution>();
  for (const [text, numbers] of holders) {
    if (numbers.size > 1) shared.set(text, { number: shared.size + 1, text, stops: numbers });
  }
  const isForAll = (one: SharedCaution | undefined) => one !== undefined && one.stops.size === stops.length;
  return {
    shared: [...shared.values()].map((one) => {
      const which = isForAll(one) ? "All trees" : `Trees ${rangesOf([...one.stops])}`;
      return `${one.number}. ${which}: ${one.text}`;
    }),
    onCard: ({ prescription }) => {
      const whole: string[] = [];
      const begun: { head: string; number: number }[] = [];
      for (const text of new Set(textsOf(prescription.cautions))) {
        const one = shared.get(text);
        const head = headOf(text);
        if (one === undefined || head === null) whole.push(text);
        else if (!isForAll(one)) begun.push({ head, number: one.number });
      }
      const isNote = (text: string): boolean => KIND_OF_NOTE.test(text) && !DANGER.test(text);
      return {
        dangers: [...whole.filter((text) => !isNote(text)), ...beginnings(begun)],
        notes: byKind(whole.filter(isNote)),
      };
    },
    hasForAll: [...shared.values()].some(isForAll),
  };
}

/** Takes off the end of a caution what stands by itself at another tree, so that it can be gathered. */
function apart(stops: readonly ZoneStop[]): (texts: readonly string[]) => readonly string[] {
  const all = unique(stops.flatMap(({ prescription }) => prescription.cautions));
  const parts = new Map(
    all.flatMap((text) => {
      const end = all.find((other) => text.endsWith(` ${other}`));
      return end === undefined ? [] : [[text, [text.slice(0, -end.length - 1), end]] as const];
    }),
  );
  return (texts) => texts.flatMap((text) => parts.get(text) ?? [text]);
}

/** What a caution says before its first colon, semicolon or full stop; null where it is to stand whole. */
function headOf(text: string): string | null {
  if (ALWAYS_WHOLE.test(text)) return null;
  const end = text.search(/[:;]|\.$/);
  return end < 10 ? text : text.slice(0, end);
}

function beginnings(begun: readonly { readonly head: string; readonly number: number }[]): string[] {
  if (begun.length === 0) return [];
  const numbers = rangesOf(begun.map(({ number }) => number));
  return [`${begun.map(({ head }) => head).join(". ")} (${begun.length === 1 ? "caution" : "cautions"} ${numbers}).`];
}

/** Notes of one kind as one text: the kind, then what each says. */
function byKind(notes: readonly string[]): string[] {
  const kinds = new Map<string, string[]>();
  for (const note of notes) {
    const kind = KIND_OF_NOTE.exec(note)![1]!;
    const said = note.slice(kind.length + 2);
    const before = kinds.get(kind);
    if (before === undefined) kinds.set(kind, [said]);
    else before.push(said);
  }
  return [...kinds].map(([kind, said]) => `${kind}: ${said.join(" ")}`);
}

/** Ascending numbers with their runs drawn together: `1–4, 7`. */
export function rangesOf(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const number of [...numbers].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last !== undefined && number === last[1] + 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs
    .map(([from, to]) => (from === to ? String(from) : to === from + 1 ? `${from}, ${to}` : `${from}–${to}`))
    .join(", ");
}
