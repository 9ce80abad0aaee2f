import type { ArboristWord } from "../../model/word.ts";
import type { IsoDate } from "../../units/calendar.ts";

/** A word, or the taking-back of one, as a file or a dialog gives it. */
export interface GivenWord {
  /** File name without its folder; `on the page` for one said in the app. */
  readonly file: string;
  /** Line in that file, from 1; null where it has no lines. */
  readonly line: number | null;
  readonly said: SaidWord;
}

export type SaidWord =
  | { readonly type: "word"; readonly word: ArboristWord }
  | {
      readonly type: "take-back";
      readonly wordId: string;
      readonly on: IsoDate;
      readonly by: string;
      readonly why: string;
    };

/** What becomes of one given word. `already-taken`: the plan has it. `refused`: set aside with the reason; the others are taken. */
export interface WordPreview {
  readonly given: GivenWord;
  readonly status: "take" | "already-taken" | "refused";
  /** One plain sentence. */
  readonly reason: string;
}
