import { inflateSync, strFromU8 } from "fflate";
import type { PhonePage } from "../core/packet/phone/phone-page.ts";
import { startApp } from "./app.ts";
import { element } from "./element.ts";
import { Report, reportKey } from "./keep/report.ts";
import { takeUpTheme } from "./theme.ts";
import { WORDS } from "./words.ts";

/** The page's content: JSON, deflated, in base64. */
function pageContent(): PhonePage {
  const letters = atob(document.getElementById("page-content")?.textContent ?? "");
  const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
  return JSON.parse(strFromU8(inflateSync(bytes))) as PhonePage;
}

async function start(): Promise<void> {
  takeUpTheme();
  document.documentElement.lang = WORDS.language;
  let page: PhonePage;
  try {
    page = pageContent();
  } catch {
    document.body.append(element("main", { class: "sheet" }, element("p", {}, WORDS.broken)));
    return;
  }
  const report = await Report.open(reportKey(page.planId, page.revision, page.zoneId));
  startApp(page, report, document.documentElement.dataset.appVersion ?? "");
}

void start();
