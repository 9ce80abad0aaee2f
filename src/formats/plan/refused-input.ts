/** Input that cannot become a plan, in plain sentences: the first says what is wrong, the others what to do. */
export class RefusedInput extends Error {
  readonly sentences: readonly string[];
  constructor(sentences: readonly string[]) {
    super(sentences.join(" "));
    this.name = "RefusedInput";
    this.sentences = sentences;
  }
}
