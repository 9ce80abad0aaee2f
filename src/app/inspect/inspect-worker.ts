import type { Plan } from "../../core/model/plan.ts";
import type { Standard } from "../../core/standard/standard.ts";
import { buildPacket } from "../../formats/packet/build-packet.ts";
import { inspectPlan } from "../../formats/plan/inspect-plan.ts";
import { openPlanAlone } from "../../formats/plan/open-plan.ts";
import type { PlanSource } from "../../formats/plan/plan-source.ts";
import { planStandard } from "../plan-standard.ts";
import type { InspectAnswer, InspectRequest } from "./inspect-messages.ts";

// One worker settles the questions of one plan and keeps its rounds for packets; the page ends it. It reads the plan itself: what is asked
// of the page's thread is bytes, and what comes back is only what the page shows.

/** Trees or rounds in one message: few enough that the page takes them in within a frame. */
const IN_ONE = 200;

const scope = self as unknown as DedicatedWorkerGlobalScope;
const answer = (message: InspectAnswer, transfer: Transferable[] = []) => scope.postMessage(message, transfer);

let turn = 0;
const waiting = new Map<number, { resolve(bytes: Uint8Array | null): void; reject(error: Error): void }>();
const source: PlanSource = {
  read: (name) =>
    new Promise((resolve, reject) => {
      turn += 1;
      waiting.set(turn, { resolve, reject });
      answer({ type: "read", turn, name });
    }),
};
let found: { readonly rounds: Plan; readonly standard: Standard } | null = null;

scope.addEventListener("message", ({ data }: MessageEvent<InspectRequest>) => {
  if (data.type === "begin") void tried("rounds", settle());
  else if (data.type === "packet") void tried("packet", pack(data));
  else {
    const asked = waiting.get(data.turn);
    waiting.delete(data.turn);
    if (data.problem === null) asked?.resolve(data.bytes);
    else asked?.reject(new Error(data.problem));
  }
});

async function settle(): Promise<void> {
  answer({ type: "progress", share: 0, doing: "Opening the plan" });
  const plan = await openPlanAlone(source);
  const { stops, rounds, csv } = await inspectPlan(source, plan, (share) =>
    answer({ type: "progress", share: 0.1 + 0.85 * share, doing: "Finding out which figure settles each question" }),
  );
  found = { rounds, standard: await planStandard(source) };
  for (let at = 0; at < stops.length; at += IN_ONE) answer({ type: "stops", stops: stops.slice(at, at + IN_ONE) });
  const { zones } = rounds;
  for (let at = 0; at < zones.length; at += IN_ONE) answer({ type: "zones", zones: zones.slice(at, at + IN_ONE) });
  const bytes = new TextEncoder().encode(csv);
  answer({ type: "done", csv: bytes }, [bytes.buffer]);
}

async function pack({ zoneId, paper, fonts }: Extract<InspectRequest, { type: "packet" }>): Promise<void> {
  const zone = found?.rounds.zones.find((one) => one.zoneId === zoneId);
  if (found === null || zone === undefined) throw new RangeError(`Expected a round, got "${zoneId.slice(0, 80)}"`);
  const options = { paper, isInspection: true };
  const { name, bytes } = await buildPacket(found.rounds, zone, found.standard, fonts, options);
  answer({ type: "packed", name, bytes }, [bytes.buffer as ArrayBuffer]);
}

async function tried(of: "rounds" | "packet", work: Promise<void>): Promise<void> {
  try {
    await work;
  } catch (error) {
    answer({ type: "failed", of, reason: error instanceof Error ? error.message : String(error) });
  }
}
