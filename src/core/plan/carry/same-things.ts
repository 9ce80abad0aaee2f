import type { SurroundingFeature } from "../../model/surroundings.ts";

/**
 * Things around the trees that are the same under another id, as those are which have none of their own and stand elsewhere in a new file: `LAYER/ID`
 * before, by `LAYER/ID` now. The same is what has the same layer and the very same geometry, where one of the ids is gone.
 */
export function renamedThings(
  before: readonly SurroundingFeature[],
  now: readonly SurroundingFeature[],
): ReadonlyMap<string, string> {
  const keyOf = ({ layer, id }: SurroundingFeature): string => `${layer}/${id}`;
  const [known, present] = [new Set(before.map(keyOf)), new Map(now.map((one) => [keyOf(one), one]))];
  const shapeOf = ({ layer, geometry }: SurroundingFeature): string => layer + JSON.stringify(geometry);
  const gone = new Map<string, string>();
  for (const one of before) {
    const same = present.get(keyOf(one));
    // An id that says only where a thing was in its file now says it of another thing.
    const isSame = same !== undefined && (!isPlaceInFile(one.id) || shapeOf(same) === shapeOf(one));
    if (!isSame) gone.set(shapeOf(one), keyOf(one));
  }
  const renamed = new Map<string, string>();
  for (const one of now) {
    const was = known.has(keyOf(one)) && !isPlaceInFile(one.id) ? undefined : gone.get(shapeOf(one));
    if (was !== undefined && was !== keyOf(one)) renamed.set(keyOf(one), was);
  }
  return renamed;
}

const isPlaceInFile = (id: string): boolean => /#\d+$/.test(id);
