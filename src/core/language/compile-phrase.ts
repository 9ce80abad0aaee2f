import type { Catalog, Phrase, Slot } from "./catalog.ts";

/** A phrase made ready: gives the translation of a text, or null where it is another phrase. */
export type CompiledPhrase = (text: string, inner: (text: string) => string | null) => string | null;

const SLOT = /\{(\w+?)(\d?)\}/g;

/** Throws RangeError for a slot that the catalog does not have, and for sides whose slots differ. */
export function compilePhrase([english, translated]: Phrase, catalog: Catalog): CompiledPhrase {
  const names: string[] = [];
  const slots: Slot[] = [];
  const parts = english.split(SLOT);
  let pattern = startOf(parts[0]!);
  for (let at = 1; at < parts.length; at += 3) {
    const slot = catalog.slots[parts[at]!];
    if (slot === undefined) throw new RangeError(`Expected a slot of the catalog in "${english}", got {${parts[at]}}`);
    names.push(`${parts[at]}${parts[at + 1]}`);
    slots.push(slot);
    pattern += `(${slot.pattern})${escaped(parts[at + 2]!)}`;
  }
  const filled = [...translated.matchAll(SLOT)].map(([, name, number]) => `${name}${number}`);
  if ([...filled].sort().join() !== [...names].sort().join()) {
    throw new RangeError(`Expected the slots {${names.join("}, {")}} in "${translated}", got {${filled.join("}, {")}}`);
  }
  const expression = new RegExp(`^${pattern}$`, "su");
  return (text, inner) => {
    const found = expression.exec(text);
    if (found === null) return null;
    const values = new Map<string, string>();
    for (const [index, slot] of slots.entries()) {
      const value = slot.translate(found[index + 1]!, inner);
      if (value === null) return null;
      values.set(names[index]!, value);
    }
    return catalog.joined(translated.replace(SLOT, (_, name, number) => values.get(`${name}${number}`)!));
  };
}

/** The beginning, whose first letter may be small or capital. */
function startOf(text: string): string {
  const first = text.charAt(0);
  const [small, capital] = [first.toLowerCase(), first.toUpperCase()];
  return small === capital ? escaped(text) : `[${small}${capital}]${escaped(text.slice(1))}`;
}

/** Spaces that do not break count as spaces. */
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&").replace(/ /g, "[ \\u00a0]");
