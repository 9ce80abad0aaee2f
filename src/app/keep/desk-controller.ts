import type { LitElement, ReactiveController } from "lit";
import type { Zone } from "../../core/model/zone.ts";
import { openPlan } from "../../formats/plan/open-plan.ts";
import { withZones } from "../../map/zoning/with-zones.ts";
import { pickFolder } from "../intake/pick-folder.ts";
import type { MapView } from "../map/map-view.ts";
import type { PlanInHand } from "../plan-in-hand.ts";
import { LinkController } from "../share/link-controller.ts";
import type { PageView } from "../share/page-view.ts";
import type { WorkController } from "../work-controller.ts";
import { type Arrival, KeepController } from "./keep-controller.ts";
import type { KeepState } from "./keep-state.ts";
import type { KeptWork } from "./kept-work.ts";
import { canPickFolder } from "./picked-folder.ts";
import { SaveController, type SaveTarget } from "./save-controller.ts";
import { zoneEditPayload } from "./zone-edit-payload.ts";

/** What the reader asks for with a button: the detail of a `desk-act` event, which bubbles to the page. */
export type DeskAct =
  | { readonly do: "save"; readonly to: SaveTarget }
  | { readonly do: "retry" | "forget-edits" | "copy-link" | "print-map" | "open-folder" }
  | { readonly do: "open-kept" | "forget-kept"; readonly key: string };

/** Where a plan lives: in a folder the page may save to, on a server it only reads from, or in the page itself. */
export type PlanHome = "folder" | "served" | "page";

/** How the work on the plan at hand stands, for the page to say. */
export interface DeskLine {
  readonly keeping: KeepState;
  /** Edits since the revision the plan was opened from. */
  readonly edits: number;
  readonly home: PlanHome;
  /** What is being written; null when nothing is. */
  readonly doing: string | null;
  /** Where the plan as it stands was written to; null for nowhere. */
  readonly savedTo: string | null;
  readonly canPick: boolean;
  /** Edited work on other revisions of the plan that is kept too. */
  readonly others: readonly KeptWork[];
}

/** What the page does for its desk. */
export interface DeskPage {
  readonly hand: PlanInHand | null;
  /** Takes files that the reader handed over. */
  take(files: File[]): void;
  /** Shows another plan from its beginning. */
  load(hand: PlanInHand, isMadeHere: boolean): void;
  /** Puts another state of the plan in the place of the one shown, with everything else as it stands. */
  put(hand: PlanInHand): void;
  viewNow(): PageView | null;
  showView(view: PageView): void;
  tell(sentence: string): void;
}

/** All that becomes of the reader's work on a plan: it is kept in the browser, saved to where the plan lives, and its view put into a link. */
export class DeskController implements ReactiveController {
  readonly keep: KeepController;
  readonly save: SaveController;
  readonly link: LinkController;

  constructor(
    private readonly host: LitElement,
    private readonly work: WorkController,
    private readonly page: DeskPage,
  ) {
    const tell = (sentence: string) => page.tell(sentence);
    const planId = () => page.hand?.opened.plan.planId ?? "";
    this.keep = new KeepController(host, {
      show: (opened) => this.onHand((hand) => page.put({ ...hand, opened })),
      restore: (view) => this.link.restore(view, planId()),
      tell,
    });
    this.save = new SaveController(host, this.keep, { goOn: (hand, arrival) => this.goOn(hand, arrival), tell });
    this.link = new LinkController(host, {
      viewNow: () => page.viewNow(),
      show: (view) => page.showView(view),
      keep: (hash) => this.keep.setView(hash),
      tell,
    });
    host.addController(this);
  }

  hostConnected() {
    this.host.addEventListener("desk-act", this.onAct);
  }

  hostDisconnected() {
    this.host.removeEventListener("desk-act", this.onAct);
  }

  get line(): DeskLine {
    const hand = this.page.hand;
    return {
      keeping: this.keep.state,
      edits: this.keep.edits.length,
      home: hand?.folder?.saveToken != null ? "folder" : hand?.files == null ? "served" : "page",
      doing: this.save.doing,
      savedTo: this.save.savedTo,
      canPick: canPickFolder(),
      others: this.keep.others,
    };
  }

  /** Turns to a plan that the page now shows from its beginning; one made here is kept at once. */
  arrive(hand: PlanInHand, isMadeHere: boolean) {
    this.save.forgetSaved();
    const isLinked = this.link.arrive(hand.opened.plan.planId);
    void this.keep.follow(hand, { isMadeHere, replaces: null, isLinked });
  }

  /** Takes zones that were changed by hand, shows them and keeps them; says so where the plan may not be changed here. */
  editZones(zones: readonly Zone[], label: string) {
    this.onHand((hand) => {
      try {
        this.keep.add("zone-edit", zoneEditPayload(label, hand.opened.plan.zones, zones));
      } catch (error) {
        this.page.tell(error instanceof Error ? error.message : String(error));
        return;
      }
      this.save.forgetSaved();
      this.page.put({ ...hand, opened: withZones(hand.opened, zones) });
    });
  }

  /** Goes on with the plan as it was written in another state, which takes the place of the one shown. */
  goOn(hand: PlanInHand, arrival: Arrival) {
    this.page.put(hand);
    this.save.forgetSaved();
    void this.keep.follow(hand, arrival);
  }

  tell(sentence: string) {
    this.page.tell(sentence);
  }

  private async openKept(key: string) {
    const open = () => this.keep.open(key);
    const hand = await this.work.run("Opening the plan", "The plan could not be opened", open);
    if (hand !== null) this.page.load(hand, false);
  }

  /** Leaves the edits out, and shows the plan as it was opened. */
  private async forgetEdits(hand: PlanInHand, key: string) {
    await this.keep.forget(key);
    const open = () => openPlan(hand.source);
    const opened = await this.work.run("Opening the plan", "The plan could not be opened", open);
    if (opened !== null)
      this.goOn({ ...hand, opened }, { isMadeHere: hand.files !== null, replaces: null, isLinked: false });
  }

  /** Lays the map as it is looked at on a sheet of paper. */
  private async printMap({ name }: PlanInHand) {
    const look = this.host.querySelector<MapView>("map-view")?.look() ?? null;
    const view = this.page.viewNow();
    if (look === null || view === null) return;
    const [{ openPrintView }, { filterWords }] = await Promise.all([
      import("../print/open-print-view.ts"),
      import("../print/filter-words.ts"),
    ]);
    const units = view.units ?? look.opened.plan.options.units;
    openPrintView(this.host, look, { name, filtered: filterWords(view.filter) }, units);
  }

  private readonly onAct = (event: Event) => {
    const { detail } = event as CustomEvent<DeskAct>;
    switch (detail.do) {
      case "save":
        return this.onHand((hand) => this.save.to(detail.to, hand));
      case "retry":
        return this.keep.retry();
      case "open-folder":
        return pickFolder((files) => this.page.take(files));
      case "print-map":
        return this.onHand((hand) => this.printMap(hand));
      case "copy-link":
        return this.link.copy();
      case "open-kept":
        return this.openKept(detail.key);
      case "forget-kept":
        return this.keep.forget(detail.key);
      case "forget-edits":
        return this.onHand((hand) => this.keep.key !== null && this.forgetEdits(hand, this.keep.key));
    }
  };

  private onHand(act: (hand: PlanInHand) => unknown) {
    const hand = this.page.hand;
    if (hand !== null) act(hand);
  }
}

/** Fires what the reader asked for, for the page's desk to do. */
export function askDesk(from: EventTarget, act: DeskAct): void {
  from.dispatchEvent(new CustomEvent("desk-act", { detail: act, bubbles: true, composed: true }));
}
