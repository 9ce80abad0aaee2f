import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { SideView } from "./side-view.ts";

const FIRST: readonly SideView[] = [{ name: "trees" }];

/** What the side sheet shows, how the reader came there, and which tree and zone that means on the map. */
export class ViewController implements ReactiveController {
  /** What is shown stands last; those before it are the way back. */
  views: readonly SideView[] = FIRST;
  treeId: string | null = null;
  zoneId: string | null = null;
  /** The dialog that lies over the page; null for none. */
  dialog: string | null = null;
  /** The tree last looked at, to come back to in the list. */
  lastTreeId: string | null = null;

  constructor(private readonly host: ReactiveControllerHost) {
    host.addController(this);
  }

  hostConnected() {}

  get view(): SideView {
    return this.views.at(-1) ?? { name: "trees" };
  }

  get backTo(): SideView | null {
    return this.views.at(-2) ?? null;
  }

  /** Whether the reader is at the work zones or came from there. */
  get isAtZones(): boolean {
    return this.views.some((view) => view.name === "zones" || view.name === "zone");
  }

  /** Begins anew, for another plan. */
  reset() {
    this.lastTreeId = null;
    this.dialog = null;
    this.show(FIRST);
  }

  openList(name: "trees" | "zones" | "findings" | "legend") {
    this.show([{ name }]);
  }

  openTree(treeId: string) {
    this.lastTreeId = treeId;
    this.show([...this.views.filter((view) => view.name !== "tree"), { name: "tree", treeId }]);
  }

  openZone(zoneId: string) {
    this.show([{ name: "zones" }, { name: "zone", zoneId }]);
  }

  /** Opens a page: one with a subject over the tree or zone it is about, one without in the place of the lists. */
  openPage(page: string, subject: string | null) {
    const view: SideView = { name: "page", page, subject };
    this.show(subject === null ? [view] : [...this.views.filter((one) => one.name !== "page"), view]);
  }

  /** Opens a dialog over the page; null closes it. */
  openDialog(dialog: string | null) {
    this.dialog = dialog;
    this.host.requestUpdate();
  }

  back() {
    this.show(this.views.length > 1 ? this.views.slice(0, -1) : this.views);
  }

  /** Follows a selection made on the map: null leaves the tree or zone that is shown. */
  follow(what: "tree" | "zone", id: string | null) {
    if (id === (what === "tree" ? this.treeId : this.zoneId)) return;
    if (id === null) {
      if (this.view.name === what) this.back();
    } else if (what === "tree") this.openTree(id);
    else this.openZone(id);
  }

  private show(views: readonly SideView[]) {
    this.views = views;
    const { view } = this;
    const tree = view.name === "page" ? this.views.at(-2) : view;
    this.treeId = tree?.name === "tree" ? tree.treeId : null;
    this.zoneId = views.find((one) => one.name === "zone")?.zoneId ?? null;
    this.host.requestUpdate();
  }
}
