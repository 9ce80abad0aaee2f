/** Longest reason of an arborist that is told on, in characters; the words have it whole. */
export const LONGEST_WHY = 300;

/** A text that a person wrote as one sentence: white space drawn together, at most `most` characters, with a mark at its end. */
export function writtenSentence(text: string, most = Number.POSITIVE_INFINITY): string {
  const cut = text.trim().replace(/\s+/g, " ").slice(0, most);
  return /[.!?]$/.test(cut) ? cut : `${cut}.`;
}
