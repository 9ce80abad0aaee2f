/** Most digits that every double keeps (IEEE 754: 15 decimal digits always survive a round trip). */
const MAX_DIGITS = 15;
const MAX_TOKEN = 40;

/**
 * A cell's plain decimal number in JSON's grammar, digits as they stand, or null: no leading zeros, no plus, no exponent, no thousands
 * marks, at most 15 digits. With `mark` a comma, the comma is the decimal mark and a point is none. `.5` becomes `0.5`.
 */
export function cellNumber(cell: string, mark: "." | ","): string | null {
  if (cell.length > 256) return null;
  const token = cell.trim();
  if (token.length === 0 || token.length > MAX_TOKEN) return null;
  let at = token[0] === "-" ? 1 : 0;
  const start = at;
  while (isDigit(token, at)) at += 1;
  const whole = at - start;
  if (whole > 1 && token[start] === "0") return null;
  if (at === token.length) return whole > 0 && whole <= MAX_DIGITS ? token : null;
  if (token[at] !== mark) return null;
  const fractionStart = at + 1;
  at = fractionStart;
  while (isDigit(token, at)) at += 1;
  const fraction = at - fractionStart;
  if (at < token.length || fraction === 0 || whole + fraction > MAX_DIGITS) return null;
  return `${token.slice(0, start)}${whole === 0 ? "0" : token.slice(start, start + whole)}.${token.slice(fractionStart)}`;
}

/** Digits behind the decimal mark of a number that `cellNumber` takes. */
export function fractionDigits(cell: string, mark: "." | ","): number {
  const token = cell.trim();
  const at = token.indexOf(mark);
  return at === -1 ? 0 : token.length - at - 1;
}

function isDigit(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  return code >= 48 && code <= 57;
}

/**
 * A coordinate in a cell as a number, or null. More lenient than `cellNumber`: any number of digits, leading zeros, a plus sign and an
 * exponent are taken, since nothing but the value counts.
 */
export function coordinateNumber(cell: string, mark: "." | ","): number | null {
  const token = cell.slice(0, 256).trim();
  if (token.length === 0 || token.length > MAX_TOKEN) return null;
  for (const letter of token) if (!"+-0123456789eE".includes(letter) && letter !== mark) return null;
  if (!/\d/.test(token)) return null;
  const value = Number(mark === "," ? token.replace(",", ".") : token);
  return Number.isFinite(value) ? value : null;
}
