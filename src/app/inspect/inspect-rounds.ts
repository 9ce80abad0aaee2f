import type { Plan } from "../../core/model/plan.ts";
import type { InspectStop } from "../../core/plan/inspect/inspect-stop.ts";
import { buildPacket } from "../../formats/packet/build-packet.ts";
import { inspectPlan } from "../../formats/plan/inspect-plan.ts";
import type { PlanInHand } from "../plan-in-hand.ts";
import { planStandard } from "../plan-standard.ts";
import type { Paper } from "../sheet/zone-sheet.ts";

/** The rounds of a plan in hand. */
export interface RoundsInHand {
  readonly rounds: Plan;
  readonly stops: ReadonlyMap<string, InspectStop>;
  readonly csv: string;
}

/** The rounds with what settles each question; loaded and reckoned when first asked for. */
export async function roundsInHand({ source, opened }: PlanInHand): Promise<RoundsInHand> {
  const { rounds, stops, csv } = await inspectPlan(source, opened.plan);
  return { rounds, stops: new Map(stops.map((stop) => [stop.treeId, stop])), csv };
}

/** One round's packet as a zip. Throws RangeError for a round the plan does not have. */
export async function roundPacket(hand: PlanInHand, { rounds }: RoundsInHand, zoneId: string, paper: Paper) {
  const zone = rounds.zones.find((one) => one.zoneId === zoneId);
  if (zone === undefined) throw new RangeError(`Expected a round of this plan, got "${zoneId.slice(0, 80)}"`);
  const { loadFonts } = await import("../fonts.ts");
  const standard = await planStandard(hand.source);
  return buildPacket(rounds, zone, standard, await loadFonts(), { paper, isInspection: true });
}
