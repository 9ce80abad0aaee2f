import { parentPort } from "node:worker_threads";
import { answerParts } from "../../formats/plan/part/answer-parts.ts";

// The whole of a thread that plans parts of a run.
const port = parentPort;
if (port === null) throw new TypeError("Expected to run as a thread");
port.on(
  "message",
  answerParts((message, transfer) => port.postMessage(message, transfer)),
);
