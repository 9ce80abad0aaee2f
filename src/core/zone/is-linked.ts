import type { Stop } from "./stops.ts";
import type { WaysBetween } from "./ways-between.ts";

/** Whether walks of at most `reachM` meters lead from each stop to each other, over stops. */
export function isLinked(stops: readonly Stop[], reachM: number, ways: WaysBetween): boolean {
  const reached = stops.slice(0, 1);
  const waiting = new Set(stops.slice(1));
  for (let at = 0; at < reached.length; at += 1) {
    for (const to of waiting) {
      if (ways.stepM(reached[at]!, to) > reachM) continue;
      reached.push(to);
      waiting.delete(to);
    }
  }
  return waiting.size === 0;
}
