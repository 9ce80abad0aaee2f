import type { Zone } from "../../core/model/zone.ts";
import type { InspectStop } from "../../core/plan/inspect/inspect-stop.ts";
import type { FontSet } from "../../formats/pdf/font-set.ts";
import type { Paper } from "../../formats/pdf/sheet.ts";
import type { PlanSource } from "../../formats/plan/plan-source.ts";
import type { InspectAnswer, InspectRequest } from "./inspect-messages.ts";

/** The rounds of a plan in hand. */
export interface RoundsInHand {
  readonly zones: readonly Zone[];
  readonly stops: ReadonlyMap<string, InspectStop>;
  readonly csv: Uint8Array;
}

/** A round's packet, a zip archive. */
export interface RoundPacket {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Questions being settled in a worker of their own. */
export interface Inspection {
  /** Rejects with an Error whose message is a sentence for the reader; never settles after `end`. */
  readonly rounds: Promise<RoundsInHand>;
  /** One round's packet as a zip, one at a time. Rejects as `rounds` does. */
  packet(zoneId: string, paper: Paper, fonts: FontSet): Promise<RoundPacket>;
  /** Ends the worker at once. */
  end(): void;
}

interface Asked<T> {
  readonly resolve: (answer: T) => void;
  readonly reject: (problem: Error) => void;
}

/** Starts settling the questions of a plan off the main thread; the worker asks here for the plan's files. */
export function startInspection(source: PlanSource, onProgress: (share: number, doing: string) => void): Inspection {
  const worker = new Worker(new URL("./inspect-worker.ts", import.meta.url), {
    type: "module",
    name: "boughline inspection",
  });
  const ask = (request: InspectRequest, transfer: Transferable[] = []) => worker.postMessage(request, transfer);
  const hand = async (turn: number, name: string): Promise<void> => {
    try {
      // A copy, which is then given away: the page keeps its own.
      const bytes = (await source.read(name))?.slice() ?? null;
      ask({ type: "file", turn, bytes, problem: null }, bytes === null ? [] : [bytes.buffer]);
    } catch (error) {
      ask({ type: "file", turn, bytes: null, problem: error instanceof Error ? error.message : String(error) });
    }
  };
  const stops = new Map<string, InspectStop>();
  const zones: Zone[] = [];
  let settled: Asked<RoundsInHand> | null = null;
  let packed: Asked<RoundPacket> | null = null;
  const rounds = new Promise<RoundsInHand>((resolve, reject) => {
    settled = { resolve, reject };
  });
  worker.addEventListener("message", ({ data }: MessageEvent<InspectAnswer>) => {
    switch (data.type) {
      case "read":
        void hand(data.turn, data.name);
        return;
      case "progress":
        onProgress(data.share, data.doing);
        return;
      case "stops":
        for (const stop of data.stops) stops.set(stop.treeId, stop);
        return;
      case "zones":
        zones.push(...data.zones);
        return;
      case "done":
        settled?.resolve({ zones, stops, csv: data.csv });
        return;
      case "packed":
        packed?.resolve({ name: data.name, bytes: data.bytes });
        return;
      case "failed":
        (data.of === "rounds" ? settled : packed)?.reject(new Error(data.reason));
    }
  });
  worker.addEventListener("error", (event) => {
    event.preventDefault();
    worker.terminate();
    const problem = new Error(
      "The questions could not be settled, perhaps for lack of memory. Use the command line: boughline packet --inspect.",
    );
    settled?.reject(problem);
    packed?.reject(problem);
  });
  ask({ type: "begin" });
  return {
    rounds,
    packet: (zoneId, paper, fonts) => {
      ask({ type: "packet", zoneId, paper, fonts });
      return new Promise((resolve, reject) => {
        packed = { resolve, reject };
      });
    },
    end: () => worker.terminate(),
  };
}
