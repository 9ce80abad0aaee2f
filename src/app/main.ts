import "./app.css";
import type { BoughlineApp } from "./boughline-app.ts";
import { keepPage, NEWER_PAGE } from "./offline/keep-page.ts";
import { pageSettings } from "./settings.ts";
import { adoptThemes } from "./theme.ts";
import "./boughline-app.ts";

adoptThemes();

// Served out of a plan's folder the page belongs to the program that serves it, and must not outlive it.
if ((await pageSettings()).folder === null) {
  await keepPage(() => document.querySelector<BoughlineApp>("boughline-app")?.tell(NEWER_PAGE));
}
