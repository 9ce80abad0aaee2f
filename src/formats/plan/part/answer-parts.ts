import { buffersOf } from "./encoded-part.ts";
import { workAt } from "./part-crew.ts";
import { PartDesk } from "./part-desk.ts";
import type { PartAnswer, PartRequest } from "./part-messages.ts";
import { restoredSurroundings } from "./portable-surroundings.ts";

/** The whole of a thread that plans parts: gives an answer to each part it is told, handing the buffers over. */
export function answerParts(
  answer: (message: PartAnswer, transfer: ArrayBuffer[]) => void,
): (request: PartRequest) => void {
  let desk: PartDesk | null = null;
  return (request) => {
    try {
      if (request.type === "ground") {
        const { surroundings, ...ground } = request.ground;
        desk = new PartDesk({ ...ground, surroundings: restoredSurroundings(surroundings) });
        answer({ type: "ready" }, []);
      } else if (desk === null) {
        throw new TypeError("Expected the ground before the first part");
      } else if (request.type === "know") {
        desk.know(request.sight);
      } else {
        const { type, number } = request;
        const found = workAt(desk, request);
        answer({ type, number, found } as PartAnswer, "members" in found ? buffersOf(found) : []);
      }
    } catch (error) {
      answer({ type: "failed", reason: error instanceof Error ? error.message : String(error) }, []);
    }
  };
}
