import type { Progress } from "../formats/plan/plan-request.ts";

/** Progress as one line rewritten on a terminal; nothing in a pipe. Call `done` before printing anything else. */
export function progressLine(stream: NodeJS.WriteStream): { report: Progress; done: () => void } {
  if (!stream.isTTY) return { report: () => {}, done: () => {} };
  return {
    report: (share, doing) => {
      const width = 24;
      const filled = Math.round(Math.min(1, Math.max(0, share)) * width);
      stream.write(
        `\r\u001b[2K${"█".repeat(filled)}${"░".repeat(width - filled)} ${Math.round(share * 100)} % ${doing}`,
      );
    },
    done: () => {
      stream.write("\r\u001b[2K");
    },
  };
}
