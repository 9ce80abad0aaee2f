/** Column names made unique: an empty one becomes `column_3`, a repeated one gets `_2`, `_3` ... at its end. */
export function uniqueNames(header: readonly string[], width: number): { names: string[]; renamed: string[] } {
  const taken = new Set(header);
  const used = new Set<string>();
  const renamed: string[] = [];
  const names: string[] = [];
  for (let index = 0; index < Math.max(width, header.length); index += 1) {
    const given = header[index] ?? "";
    const wanted = given.trim() === "" ? `column_${index + 1}` : given;
    let name = wanted;
    for (let number = 2; used.has(name) || (name !== given && taken.has(name)); number += 1)
      name = `${wanted}_${number}`;
    if (name !== given && given.trim() !== "") renamed.push(given);
    used.add(name);
    names.push(name);
  }
  return { names, renamed };
}
