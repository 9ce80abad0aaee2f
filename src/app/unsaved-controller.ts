import type { ReactiveController, ReactiveControllerHost } from "lit";

/** Has the browser ask before the page is closed while a plan exists only in it. */
export class UnsavedController implements ReactiveController {
  private isUnsaved = false;

  constructor(private readonly host: ReactiveControllerHost) {
    host.addController(this);
  }

  get hasUnsaved(): boolean {
    return this.isUnsaved;
  }

  set hasUnsaved(isUnsaved: boolean) {
    this.isUnsaved = isUnsaved;
    // A page with such a listener is not kept for going back to, so it is there only while it is needed.
    if (isUnsaved) window.addEventListener("beforeunload", this.ask);
    else window.removeEventListener("beforeunload", this.ask);
    this.host.requestUpdate();
  }

  hostDisconnected() {
    window.removeEventListener("beforeunload", this.ask);
  }

  private readonly ask = (event: BeforeUnloadEvent) => event.preventDefault();
}
