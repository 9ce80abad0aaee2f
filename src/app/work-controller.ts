import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { PlanJobRequest } from "../worker/plan-messages.ts";
import { type PlanJob, startPlanJob } from "../worker/start-plan-job.ts";
import type { Work } from "./intake/progress-dialog.ts";
import { type PlanInHand, planFromFiles } from "./plan-in-hand.ts";

/** The one piece of long work the page does at a time, and what the reader sees of it. */
export class WorkController implements ReactiveController {
  /** Null when nothing is being done and nothing failed. */
  work: Work | null = null;
  /** What the last plan was made from, with the files at hand; null when it was opened. */
  madeFrom: PlanJobRequest | null = null;
  private job: PlanJob | null = null;
  /** Told apart from a work that was cancelled in the meantime. */
  private turn = 0;

  constructor(private readonly host: ReactiveControllerHost) {
    host.addController(this);
  }

  hostDisconnected() {
    this.cancel();
  }

  /** Makes a plan in a worker; null when it was cancelled or failed, in which case `work` says why. */
  async make(request: PlanJobRequest, name?: string): Promise<PlanInHand | null> {
    return this.run("Starting", "The plan could not be made", async (isCurrent) => {
      this.job = startPlanJob(request, (share, doing) => {
        if (isCurrent()) this.show({ type: "working", share: share * 0.95, doing });
      });
      const output = await this.job.result;
      if (!isCurrent()) return null;
      this.madeFrom = request;
      this.show({ type: "working", share: 0.96, doing: "Opening the plan" });
      return planFromFiles(output.files, name);
    });
  }

  /** Opens a plan from its files; null when that failed. */
  async open(blobs: ReadonlyMap<string, Blob>): Promise<PlanInHand | null> {
    return this.run("Opening the plan", "The plan could not be opened", async () => {
      this.madeFrom = null;
      const files = new Map<string, Uint8Array>();
      for (const [name, blob] of blobs) files.set(name, new Uint8Array(await blob.arrayBuffer()));
      return planFromFiles(files);
    });
  }

  /** Does something that takes a while; its result, or null when it was cancelled or failed, which is told under the `failure` title. */
  async run<T>(
    doing: string,
    failure: string,
    act: (isCurrent: () => boolean) => Promise<T | null>,
  ): Promise<T | null> {
    this.cancel();
    const turn = this.turn;
    const isCurrent = () => turn === this.turn;
    this.show({ type: "working", share: 0, doing });
    try {
      const result = await act(isCurrent);
      if (!isCurrent()) return null;
      this.show(null);
      return result;
    } catch (error) {
      const reason = error instanceof Error ? error.message : String(error);
      if (isCurrent()) this.show({ type: "failed", title: failure, reason });
      return null;
    } finally {
      if (isCurrent()) this.job = null;
    }
  }

  /** Ends what is being done, or puts away what failed. */
  cancel() {
    this.turn += 1;
    this.job?.cancel();
    this.job = null;
    this.show(null);
  }

  private show(work: Work | null) {
    this.work = work;
    this.host.requestUpdate();
  }
}
