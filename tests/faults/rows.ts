import type { FaultRow } from "./fault-row.ts";
import { LOADS } from "./loads/loads.ts";
import { closedTab } from "./rows/b1-closed-tab.ts";
import { killedBrowser } from "./rows/b2-killed-browser.ts";
import { twoTabs } from "./rows/b3-two-tabs.ts";
import { kill } from "./rows/f1-kill.ts";
import { fullDisk } from "./rows/f2-full-disk.ts";
import { ioError } from "./rows/f3-io-error.ts";
import { forbiddenFolder } from "./rows/f4-forbidden-folder.ts";
import { otherPlan } from "./rows/f5-other-plan.ts";
import { foreignFiles } from "./rows/f6-foreign-files.ts";
import { twoRuns } from "./rows/f7-two-runs.ts";
import { threadCrash } from "./rows/f8-thread-crash.ts";
import { outOfMemory } from "./rows/f9-memory.ts";
import { signals } from "./rows/f10-signals.ts";
import { closedPipes } from "./rows/f11-closed-pipes.ts";
import { fewHandles } from "./rows/f12-few-handles.ts";
import { changingInput } from "./rows/f13-changing-input.ts";
import { clockAndLocale } from "./rows/f14-clock-and-locale.ts";
import { faultOnFault } from "./rows/f15-fault-on-fault.ts";
import { readers } from "./rows/readers.ts";

/** All rows, in order. */
export const FAULT_ROWS: readonly FaultRow[] = [
  kill,
  { ...fullDisk, isLong: true },
  { ...ioError, isLong: true },
  forbiddenFolder,
  otherPlan,
  { ...foreignFiles, isLong: true },
  { ...twoRuns, isLong: true },
  { ...threadCrash, isLong: true },
  { ...outOfMemory, isLong: true },
  signals,
  closedPipes,
  { ...fewHandles, isLong: true },
  changingInput,
  { ...clockAndLocale, isLong: true },
  { ...faultOnFault, isLong: true },
  closedTab,
  killedBrowser,
  twoTabs,
  { ...readers, isLong: true },
  ...LOADS,
];
