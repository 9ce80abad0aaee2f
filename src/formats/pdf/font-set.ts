/**
 * Font files as bytes (TrueType, OpenType or WOFF), by weight, in order of preference: a character is set in the first font that has it.
 * The caller loads them, so that drawing a PDF needs neither disk nor network.
 */
export interface FontSet {
  readonly regular: readonly Uint8Array[];
  readonly semibold: readonly Uint8Array[];
}

export type Weight = keyof FontSet;
