import type { TemplateResult } from "lit";
import type { DisplayUnits } from "../../core/units/format-length.ts";
import type { DeskController } from "../keep/desk-controller.ts";
import type { ListController } from "../list-controller.ts";
import type { PlanInHand } from "../plan-in-hand.ts";
import type { PlanIndex } from "../plan-index.ts";
import type { PageTheme } from "../theme.ts";
import type { ViewController } from "../view-controller.ts";
import type { WorkController } from "../work-controller.ts";
import type { ZoneController } from "../zoning/zone-controller.ts";

/** What a side page has to work with: the plan in hand, how it is looked at, and the ways to change both. */
export interface PageContext {
  readonly hand: PlanInHand;
  readonly index: PlanIndex;
  readonly units: DisplayUnits;
  readonly theme: PageTheme;
  /** Whether the plan may be changed here. */
  readonly canEdit: boolean;
  /** Keeps and saves what is changed. */
  readonly desk: DeskController;
  readonly doing: WorkController;
  /** Filter and order of the trees; the map shows the same. */
  readonly list: ListController;
  readonly at: ViewController;
  readonly zoning: ZoneController;
  /** Says a sentence on the page; null takes it away. */
  readonly tell: (sentence: string | null) => void;
  readonly openTree: (treeId: string) => void;
  readonly openZone: (zoneId: string) => void;
  /** Opens a page of `side-pages.ts`; the subject is the id of the tree or zone it is about, null for a page beside the lists. */
  readonly openPage: (page: string, subject: string | null) => void;
  /** Opens a dialog of `page-dialogs.ts` over the page; null closes the one that is open. */
  readonly openDialog: (dialog: string | null) => void;
  /** Moves the map to places. */
  readonly showPlaces: (places: readonly { readonly lonDeg: number; readonly latDeg: number }[]) => void;
  /** Opens files as if they had been dropped. */
  readonly take: (files: readonly File[]) => void;
}

/**
 * A part of the app that is opened in the side sheet. It lives in a folder of its own and is listed in `side-pages.ts`. The list is read by everything that
 * knows views, links among them, so an entry's file imports no element: `render` loads it, `void import("./my-sheet.ts")`, and the element fills in when it is there.
 */
export interface SidePage {
  /** Stands in links. */
  readonly name: string;
  /** What it is called on the way back to it. */
  readonly title: string;
  /** Where it is opened: a tab beside the lists, or a button under a tree or a zone, whose id is then its subject. */
  readonly from: "lists" | "tree" | "zone";
  /** Words of the tab or button; null where it has nothing to offer for this plan or subject. */
  readonly label: (context: PageContext, subject: string | null) => string | null;
  /** The page; its first element should take the whole height (`class="view"`). */
  readonly render: (context: PageContext, subject: string | null) => TemplateResult;
}
