/** A whole number with commas between its thousands, the same in every locale. */
export function withThousands(count: number): string {
  const digits = String(count);
  let text = "";
  for (let at = 0; at < digits.length; at += 1) {
    text += (at > 0 && (digits.length - at) % 3 === 0 ? "," : "") + digits[at];
  }
  return text;
}
