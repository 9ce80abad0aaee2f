import { rangesOf } from "./cautions.ts";
import { capitalized } from "./packet-words.ts";
import type { ZoneStop } from "./zone-stops.ts";

/** Why trees may be cut only then, gathered where several share it. */
export interface SeasonNotes {
  /** Each reason that several trees share once, with their numbers. */
  readonly shared: readonly string[];
  /** The tree's own reason; null where it stands among the shared ones. */
  readonly onCard: (stop: ZoneStop) => string | null;
}

/** A reason shorter than this is not worth a look at another page. */
const SHORT = 40;

/** Gathers the reasons of the stops' windows. */
export function seasonNotes(stops: readonly ZoneStop[]): SeasonNotes {
  const holders = new Map<string, number[]>();
  for (const { visit, number } of stops) {
    const reason = visit.windowReason.trim();
    if (reason.length > SHORT) holders.set(reason, [...(holders.get(reason) ?? []), number]);
  }
  const isShared = (reason: string): boolean => (holders.get(reason)?.length ?? 0) > 1;
  return {
    shared: [...holders].flatMap(([reason, numbers]) => {
      if (numbers.length < 2) return [];
      const which = numbers.length === stops.length ? "All trees" : `Trees ${rangesOf(numbers)}`;
      return [`${which}: ${capitalized(reason)}${/[.!?]$/.test(reason) ? "" : "."}`];
    }),
    onCard: ({ visit }) => (isShared(visit.windowReason.trim()) ? null : visit.windowReason),
  };
}
