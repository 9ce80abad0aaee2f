/**
 * A sentence or clause as the stages write it, without the mark at its end, and the same in another language. `{slots}` stand for what changes; both sides have the same,
 * in any order. Small and capital first letters are the same phrase.
 */
export type Phrase = readonly [english: string, translated: string];

/** What may stand in a slot. */
export interface Slot {
  /** Regular expression of the English text, without groups that capture. */
  readonly pattern: string;
  /** The text in the other language; null where it is none of these. `inner` translates a whole phrase that stands in the slot. */
  readonly translate: (text: string, inner: (text: string) => string | null) => string | null;
}

/** All that one language needs: its slots by name and its phrases. Of phrases that fit one text the earlier one counts. */
export interface Catalog {
  readonly language: string;
  readonly slots: Readonly<Record<string, Slot>>;
  readonly phrases: readonly Phrase[];
  /** Says that the text was translated and that the English one counts. */
  readonly notice: string;
  /** A translated text as drawings write it, where room is short. */
  readonly short: (text: string) => string;
  /** Words that melt together where a slot is filled in, as `de el` to `del`. */
  readonly joined: (text: string) => string;
}
