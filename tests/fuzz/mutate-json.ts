import { HOSTILE } from "./hostile-values.ts";
import type { Random } from "./random.ts";

type Holder = Record<string, unknown> | unknown[];

/** A copy of a JSON value with one to three places in it replaced, taken out, doubled, renamed, nested or exchanged. */
export function mutateJson(value: unknown, random: Random): unknown {
  const root = { value: structuredClone(value) };
  for (let times = 1 + random(3); times > 0; times -= 1) mutateOnce(root, random);
  return root.value;
}

function mutateOnce(root: { value: unknown }, random: Random): void {
  const places = placesIn(root);
  if (places.length === 0) return;
  const [holder, key] = random.pick(places);
  const held = get(holder, key);
  const kind = random(7);
  if (kind === 0) set(holder, key, structuredClone(random.pick(HOSTILE)));
  else if (kind === 1) remove(holder, key);
  else if (kind === 2) set(holder, key, [held]);
  else if (kind === 3) set(holder, key, nested(held, 1 + random(120), random(2) === 0));
  else if (kind === 4 && !Array.isArray(holder))
    set(holder, random.pick(["__proto__", "", "id", "type", "bbox", "crs", key]), structuredClone(held));
  else if (kind === 5) {
    const [other, otherKey] = random.pick(places);
    set(holder, key, structuredClone(get(other, otherKey)));
  } else if (typeof held === "number")
    set(holder, key, random.pick([-held, held * 1e6, held + 1e-9, held * 2, String(held)]));
  else set(holder, key, String(JSON.stringify(held) ?? "").slice(0, random(40)));
}

function placesIn(holder: Holder): [Holder, string][] {
  const places: [Holder, string][] = [];
  const open: Holder[] = [holder];
  while (open.length > 0 && places.length < 2000) {
    const one = open.pop()!;
    for (const key of Object.keys(one)) {
      places.push([one, key]);
      const held = get(one, key);
      if (typeof held === "object" && held !== null) open.push(held as Holder);
    }
  }
  return places;
}

function nested(value: unknown, levels: number, inArrays: boolean): unknown {
  let result = value;
  for (let level = 0; level < levels; level += 1) result = inArrays ? [result] : { x: result };
  return result;
}

const get = (holder: Holder, key: string): unknown =>
  Object.hasOwn(holder, key) ? (holder as Record<string, unknown>)[key] : undefined;

function set(holder: Holder, key: string, value: unknown): void {
  Object.defineProperty(holder, key, { value, writable: true, enumerable: true, configurable: true });
}

function remove(holder: Holder, key: string): void {
  if (Array.isArray(holder)) holder.splice(Number(key), 1);
  else delete holder[key];
}
