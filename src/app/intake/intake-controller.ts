import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { PlanJobRequest } from "../../worker/plan-messages.ts";
import type { PlanInHand } from "../plan-in-hand.ts";
import type { WorkController } from "../work-controller.ts";
import { type Intake, takeIn } from "./intake.ts";
import { sampleRequest } from "./sample-town.ts";

/** Takes files, asks what they are, and makes or opens a plan from them. */
export class IntakeController implements ReactiveController {
  /** The files that the reader is asked about; null when nothing is asked. */
  intake: Intake | null = null;

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly doing: WorkController,
    /** What becomes of a plan; `isUnsaved` when it is nowhere but in this page and was made from the reader's files. */
    private readonly load: (hand: PlanInHand, isUnsaved: boolean) => void,
  ) {
    host.addController(this);
  }

  hostConnected() {}

  /** Adds files to those asked about, or opens the plan they hold. */
  async take(files: readonly File[]): Promise<void> {
    const before = this.intake?.files ?? [];
    const names = new Set(files.map((file) => file.name));
    const kept = before.filter((file) => !names.has(file.name));
    const intake = await takeIn(files.map((file) => ({ name: file.name, blob: file })));
    if (intake.plan === null) this.show({ ...intake, files: [...kept, ...intake.files] });
    else this.finish(await this.doing.open(intake.plan), false);
  }

  async make(request: PlanJobRequest): Promise<void> {
    this.finish(await this.doing.make(request), true);
  }

  async openSample(): Promise<void> {
    const request = await this.doing.run(
      "Fetching the sample town",
      "The sample town could not be opened",
      sampleRequest,
    );
    if (request !== null) this.finish(await this.doing.make(request, "Sample town"), false);
  }

  close() {
    this.show(null);
  }

  private finish(hand: PlanInHand | null, isUnsaved: boolean) {
    if (hand === null) return;
    this.show(null);
    this.load(hand, isUnsaved);
  }

  private show(intake: Intake | null) {
    this.intake = intake;
    this.host.requestUpdate();
  }
}
