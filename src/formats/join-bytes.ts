/** All parts in one array, in order. */
export function joinBytes(parts: Iterable<Uint8Array>): Uint8Array {
  const list = [...parts];
  const whole = new Uint8Array(list.reduce((length, part) => length + part.length, 0));
  let at = 0;
  for (const part of list) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
