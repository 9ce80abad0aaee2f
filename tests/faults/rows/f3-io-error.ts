import { faultLoop, WRITING } from "../fault-loop.ts";
import type { FaultRow } from "../fault-row.ts";
import { tracingMissing } from "../traced-run.ts";

/** F3: the disk fails at a call that writes or reads. */
export const ioError: FaultRow = {
  id: "f3",
  what: "an I/O error at each call that writes or reads: exit 3 or 5, old plan whole; exit 0 only with the whole new one",
  missing: tracingMissing,
  run: async (options) => {
    const reading = options.isShort ? ["read"] : ["read", "pread64"];
    const loop = { fault: "error=EIO", isForEver: false, ends: [3, 5] };
    const tally = await faultLoop(
      [
        { ...loop, calls: options.isShort ? ["fsync", "rename"] : WRITING },
        { ...loop, calls: reading },
      ],
      options,
    );
    return {
      counts: `${tally.faults} I/O errors: ${tally.old} left the old state, ${tally.new} the new, ${tally.torn} torn; ${tally.again} second runs`,
      isHeld: tally.wrong.length === 0 && tally.faults > 0,
      remarks: tally.wrong,
    };
  },
};
