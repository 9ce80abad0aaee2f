/** Names that GIS programs give to the key and the geometry of every table. */
const RESERVED_NAMES = ["fid", "geom", "geometry"];

/**
 * The names a table's columns get, in the same order: their own, or with `_2`, `_3` ... behind it where it is reserved for the key or the
 * geometry, or differs from an earlier one by case only (SQL takes those for the same). `taken` are names that are not to be given either.
 * Control characters, which SQL identifiers cannot hold everywhere, become `_`, and so does an empty name; a name longer than
 * `maxBytes` in UTF-8 is cut.
 */
export function columnNames(
  names: readonly string[],
  taken: readonly string[] = [],
  maxBytes = Number.POSITIVE_INFINITY,
): string[] {
  const used = new Set([...RESERVED_NAMES, ...taken].map(folded));
  const free = new Set(names.map(folded));
  return names.map((name) => {
    const plain = cut(withoutControls(name), maxBytes);
    let given = plain;
    for (let count = 2; used.has(folded(given)) || (given !== name && free.has(folded(given))); count += 1) {
      given = `${cut(plain, maxBytes - String(count).length - 1)}_${count}`;
    }
    used.add(folded(given));
    return given;
  });
}

const folded = (name: string): string => name.toLowerCase();

function withoutControls(name: string): string {
  const letters = Array.from(name, (letter) => (letter.charCodeAt(0) < 32 || letter === "\u007f" ? "_" : letter));
  return letters.length === 0 ? "_" : letters.join("");
}

function cut(name: string, maxBytes: number): string {
  const encoder = new TextEncoder();
  if (name.length * 3 <= maxBytes || encoder.encode(name).length <= maxBytes) return name;
  let kept = "";
  let bytes = 0;
  for (const letter of name) {
    bytes += encoder.encode(letter).length;
    if (bytes > maxBytes) break;
    kept += letter;
  }
  return kept;
}
