import { type Ended, runChild } from "../rows/run-child.ts";

/** The worst of several runs of the same. */
export interface Worst {
  readonly code: number;
  readonly seconds: number;
  /** Of all processors, user and system together. */
  readonly cpuS: number;
  readonly peakMB: number;
  readonly last: Ended;
}

/** Runs the command so many times, with `before` each time, and gives the worst time and memory. Stops at a run that fails. */
export async function worstOf(
  times: number,
  argv: readonly string[],
  node: readonly string[] = [],
  before: () => void = () => {},
): Promise<Worst> {
  let [seconds, peakMB, cpuS] = [0, 0, 0];
  for (let run = 1; ; run += 1) {
    before();
    const last = await runChild(argv, { node, limitMs: 900_000 });
    seconds = Math.max(seconds, last.wallMs / 1000);
    peakMB = Math.max(peakMB, last.peakMB);
    cpuS = Math.max(cpuS, last.cpuS);
    if (run >= times || last.code !== 0) return { code: last.code, seconds, peakMB, cpuS, last };
  }
}

export const toldWorst = ({ code, seconds, cpuS, peakMB }: Worst): string =>
  `exit ${code} after ${seconds.toFixed(1)} s (${cpuS.toFixed(1)} s of processors) with ${Math.round(peakMB)} MB`;

/** What a run does not hold, a sentence each. */
export function wrongWith(what: string, worst: Worst, mostSeconds: number, mostMB: number): string[] {
  return [
    ...(worst.code === 0 ? [] : [`${what}: exit ${worst.code}, ${worst.last.err.slice(0, 300)}`]),
    ...(worst.seconds <= mostSeconds ? [] : [`${what}: ${worst.seconds.toFixed(1)} s, more than ${mostSeconds} s`]),
    ...(worst.peakMB <= mostMB ? [] : [`${what}: ${Math.round(worst.peakMB)} MB, more than ${mostMB} MB`]),
  ];
}
