import { acceptancePage } from "../acceptance/acceptance-page.ts";
import { budgetPage } from "../budget/budget-page.ts";
import { changesPage } from "../changes/changes-page.ts";
import { inspectPage } from "../inspect/inspect-page.ts";
import { noticesPage } from "../notices/notices-page.ts";
import { decidePage, decisionsPage } from "../word/word-pages.ts";
import type { SidePage } from "./side-page.ts";

/** The parts of the app that the side sheet opens beside its lists, trees and zones, in the order of their tabs and buttons. A new one is an import and an entry here. */
export const SIDE_PAGES: readonly SidePage[] = [
  changesPage,
  decisionsPage,
  budgetPage,
  inspectPage,
  decidePage,
  noticesPage,
  acceptancePage,
];

/** The page of a name; undefined where there is none, as links may ask for anything. */
export const sidePage = (name: string): SidePage | undefined => SIDE_PAGES.find((page) => page.name === name);
