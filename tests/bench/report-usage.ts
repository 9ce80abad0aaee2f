import { writeFileSync } from "node:fs";

/** Loaded in front of a measured program: writes what the whole process took, start included, to the file named in `BENCH_USAGE` when it ends. */
process.on("exit", () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  const usage = { userMs: userCPUTime / 1000, systemMs: systemCPUTime / 1000, residentMB: maxRSS / 1024 };
  writeFileSync(process.env.BENCH_USAGE!, JSON.stringify(usage));
});
