import type { Catalog } from "./catalog.ts";
import { guardNames } from "./guard-names.ts";
import { phraseBook } from "./phrase-book.ts";

export interface Translator {
  readonly language: string;
  /** Says, in the other language, that the English text counts. */
  readonly notice: string;
  /** The text clause by clause in the other language; a clause that the catalog does not have stays as it is and is noted. */
  readonly text: (text: string) => string;
  /** A text that may be a name: translated where it is a phrase, else as it is, and nothing is noted. */
  readonly nameOr: (text: string) => string;
  /** A drawing's label, as short as it can be. */
  readonly label: (text: string) => string;
  /** Clauses that stayed in English, in the order they were met. */
  readonly untranslated: ReadonlySet<string>;
}

/** Longest run of clauses that one phrase spans: `It stays. Look again: in a year.` are three. */
const LONGEST_RUN = 4;
/** Between clauses; the mark stays with the clause before it. */
const BETWEEN = /(?<=[.;:!?]\)?)[ \u00a0]+/u;
const END_MARK = /[.;:!?]$/u;

/**
 * A translator from the sentences of a plan, which are put together from a known set of phrases, into another language. Every figure, name and date goes through as it is
 * or as its slot says; nothing is guessed: what no phrase fits is left in English. `names` are those of the plan that stand alone, as in `Mill Street: ...`.
 */
export function translatorFor(catalog: Catalog, names: ReadonlySet<string> = new Set()): Translator {
  const book = phraseBook(catalog);
  const known = new Map<string, string | null>();
  const untranslated = new Set<string>();

  const clause = (text: string): string | null => {
    const before = known.get(text);
    if (before !== undefined) return before;
    // A phrase inside itself would otherwise be sought for ever.
    known.set(text, null);
    const found = whole(text) ?? (names.has(text) ? text : withoutMark(text));
    known.set(text, found);
    return found;
  };
  const whole = (text: string): string | null => {
    for (const phrase of book(text)) {
      const translated = phrase(text, clause);
      if (translated !== null) return likeFirst(text, translated);
    }
    return null;
  };
  const withoutMark = (text: string): string | null => {
    const mark = END_MARK.exec(text)?.[0] ?? "";
    if (mark === "") return null;
    const found = whole(text.slice(0, -mark.length));
    if (found !== null) return found.endsWith(mark) ? found : `${found}${mark}`;
    return names.has(text.slice(0, -mark.length)) ? text : null;
  };
  const guarded = guardNames(names);
  const text = (given: string): string => guarded.restored(clauses(guarded.guarded(given)));
  const clauses = (given: string): string => {
    if (!/\p{L}{2}/u.test(given)) return clause(given) ?? given;
    const parts = given.split(BETWEEN);
    const out: string[] = [];
    let at = 0;
    while (at < parts.length) {
      let taken = 0;
      for (let length = Math.min(LONGEST_RUN, parts.length - at); length > 0 && taken === 0; length -= 1) {
        const found = clause(parts.slice(at, at + length).join(" "));
        if (found === null) continue;
        out.push(found);
        taken = length;
      }
      if (taken === 0) {
        const left = parts[at]!;
        if (/\p{L}{2}/u.test(left)) untranslated.add(left);
        out.push(left);
        taken = 1;
      }
      at += taken;
    }
    return out.join(" ");
  };
  return {
    language: catalog.language,
    notice: catalog.notice,
    text,
    nameOr: (given) => (names.has(given) ? given : (clause(given) ?? given)),
    label: (given) => catalog.short(text(given)),
    untranslated,
  };
}

/** A capital first letter stays one. */
function likeFirst(english: string, translated: string): string {
  const first = english.charAt(0);
  const isCapital = first !== first.toLowerCase();
  return isCapital ? translated.charAt(0).toUpperCase() + translated.slice(1) : translated;
}
