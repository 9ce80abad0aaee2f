/** What a new member can hold; numbers are finite and already rounded. */
export type MemberValue = string | number | boolean | null;

/** Prefix of every member this program writes into a city's features. */
export const MEMBER_PREFIX = "bough_";

/** Writes new members as JSON, without the braces around them; names are worked out once. */
export class MemberTexts {
  readonly #names = new Map<string, string>();

  /** Throws RangeError for a name without the prefix or a number that is not finite. */
  of(members: Iterable<readonly [string, MemberValue]>): string {
    let text = "";
    for (const [name, value] of members) {
      if (typeof value === "number" && !Number.isFinite(value)) {
        throw new RangeError(`Expected a finite number for ${name}, got ${value}`);
      }
      const key = this.#names.get(name) ?? this.#nameText(name);
      const json = typeof value === "string" ? JSON.stringify(value) : value === 0 ? "0" : String(value);
      text += text === "" ? key + json : `,${key}${json}`;
    }
    return text;
  }

  #nameText(name: string): string {
    if (!name.startsWith(MEMBER_PREFIX)) throw new RangeError(`Expected a name with ${MEMBER_PREFIX}, got "${name}"`);
    const text = `${JSON.stringify(name)}:`;
    this.#names.set(name, text);
    return text;
  }
}
