import { ENGLISH } from "./words/english.ts";
import { SPANISH } from "./words/spanish.ts";

/** The same words with other texts. */
type Worded<Words> = {
  readonly [Key in keyof Words]: Words[Key] extends string
    ? string
    : Words[Key] extends (...args: infer Given) => string
      ? (...args: Given) => string
      : Worded<Words[Key]>;
};

/** Every word the phone page says of itself. Another language is another such object. */
export type PhoneWords = Worded<typeof ENGLISH>;

/** By the language the page says it is in. */
const BY_LANGUAGE: Readonly<Record<string, PhoneWords>> = { en: ENGLISH, es: SPANISH };

const pageLanguage = typeof document === "undefined" ? "en" : document.documentElement.lang;

/** The words of the language that the page was made in; English where it has none. */
export const WORDS: PhoneWords = BY_LANGUAGE[pageLanguage.slice(0, 2)] ?? ENGLISH;

/** What a viewer that runs no scripts shows, by language. */
export const NO_SCRIPT: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(BY_LANGUAGE).map(([language, { noScript }]) => [language, noScript]),
);
