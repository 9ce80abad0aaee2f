import type { ReactiveController, ReactiveControllerHost } from "lit";
import { type PageView, readViewHash, viewHash } from "./page-view.ts";

/** What the page says of itself and does for the link. */
export interface LinkPage {
  /** What is shown now; null while no plan is. */
  viewNow(): PageView | null;
  show(view: PageView): void;
  /** Told each change of the view as a hash. */
  keep(hash: string): void;
  tell(sentence: string): void;
}

/** Milliseconds without a change after which the address follows the view: browsers refuse to change it at every letter. */
const PAUSE_MS = 300;

/** Keeps the page's address at what it shows, opens what an address asks for, and copies it for others. */
export class LinkController implements ReactiveController {
  /** What the address asked for when the page was opened, until the plan it is about is there. */
  private wanted: PageView | null = readViewHash(location.hash);
  private last = "";
  /** The address's hash as it stood when it was last read or written here. */
  private standing = location.hash;
  private timer = 0;

  constructor(
    host: ReactiveControllerHost,
    private readonly page: LinkPage,
  ) {
    host.addController(this);
  }

  hostConnected() {
    window.addEventListener("hashchange", this.onHash);
  }

  hostDisconnected() {
    window.removeEventListener("hashchange", this.onHash);
    window.clearTimeout(this.timer);
  }

  hostUpdated() {
    this.follow();
  }

  /** The map moved, or something else that does not draw the page again. */
  follow() {
    const view = this.page.viewNow();
    if (view === null || this.wanted !== null) return;
    const hash = viewHash(view);
    if (hash === this.last) return;
    this.last = hash;
    window.clearTimeout(this.timer);
    this.timer = window.setTimeout(() => this.write(hash), PAUSE_MS);
  }

  /** A plan came: shows what the address asked for, where it is about this plan. Whether it was. */
  arrive(planId: string): boolean {
    const { wanted } = this;
    this.wanted = null;
    if (wanted === null || wanted.planId !== planId) return false;
    this.page.show(wanted);
    return true;
  }

  /** Shows a view that was kept as a hash; one of another plan is passed over. */
  restore(hash: string, planId: string) {
    const view = readViewHash(hash);
    if (view !== null && view.planId === planId) this.page.show(view);
  }

  /** Puts the address of what is shown into the clipboard. */
  async copy(): Promise<void> {
    const view = this.page.viewNow();
    if (view === null) return;
    const address = `${location.href.replace(/#.*$/s, "")}#${viewHash(view)}`;
    try {
      await navigator.clipboard.writeText(address);
      this.page.tell("Link copied. It opens this view for whoever has the same plan; the plan itself is not in it.");
    } catch {
      this.page.tell(`The link could not be copied. It is: ${address}`);
    }
  }

  private write(hash: string) {
    this.page.keep(hash);
    // A link followed a moment ago stands in the address before the page is told of it: writing now would lose it.
    if (location.hash !== this.standing) {
      this.last = "";
      return;
    }
    history.replaceState(history.state, "", `#${hash}`);
    this.standing = location.hash;
  }

  private readonly onHash = () => {
    this.standing = location.hash;
    const asked = readViewHash(location.hash);
    const now = this.page.viewNow();
    if (asked === null || viewHash(asked) === this.last) return;
    if (now === null) this.wanted = asked;
    else if (asked.planId === now.planId) this.page.show(asked);
    else this.page.tell("The link is for another plan. Open that plan first, then the link.");
  };
}
