import { JsonScanner } from "../json/json-scanner.ts";

/** Bytes to be taken out of an object so that some of its members are gone and the rest is as it was. */
export interface MemberCuts {
  /** Ranges in ascending order, not overlapping. */
  readonly cuts: readonly (readonly [start: number, end: number])[];
  /** Where a further member goes: behind the last one kept, or behind the brace. */
  readonly insertAt: number;
  /** Whether a member is left, so that a further one needs a comma. */
  readonly hasMembers: boolean;
}

/**
 * The cuts that remove the members of the object at `start` whose key `isCut`, each with one comma. Key offsets include the quotes.
 * The bytes must be JSON.
 */
export function memberCuts(
  bytes: Uint8Array,
  start: number,
  end: number,
  isCut: (keyStart: number, keyEnd: number) => boolean,
): MemberCuts {
  const members: { keyStart: number; valueEnd: number; cut: boolean }[] = [];
  const scanner = new JsonScanner(bytes, start, end);
  let lastEnd = start + 1;
  let isAnyCut = false;
  scanner.walkObject((keyStart, keyEnd) => {
    scanner.skipValue();
    lastEnd = scanner.at;
    isAnyCut ||= isCut(keyStart, keyEnd);
  });
  if (!isAnyCut) return { cuts: [], insertAt: lastEnd, hasMembers: lastEnd > start + 1 };

  scanner.at = start;
  scanner.walkObject((keyStart, keyEnd) => {
    scanner.skipValue();
    members.push({ keyStart, valueEnd: scanner.at, cut: isCut(keyStart, keyEnd) });
  });
  const lastKept = members.findLastIndex(({ cut }) => !cut);
  const cuts = members.flatMap(({ keyStart, valueEnd, cut }, index): [number, number][] => {
    if (!cut) return [];
    if (index < lastKept) return [[keyStart, members[index + 1]!.keyStart]];
    return [[index === 0 ? keyStart : members[index - 1]!.valueEnd, valueEnd]];
  });
  return { cuts, insertAt: lastKept === -1 ? start + 1 : members[lastKept]!.valueEnd, hasMembers: lastKept !== -1 };
}
