import { deflateSync, strToU8 } from "fflate";
import { escapeText } from "../../core/crown/drawing-to-svg.ts";
import type { PhonePage } from "../../core/packet/phone/phone-page.ts";
import { sourceHash } from "../source-hash.ts";
import { base64 } from "./base64.ts";
import shipped from "./phone-shell.json" with { type: "json" };

/** The parts of a phone page that no zone changes; made by `npm run phone-page`. */
export interface PhoneShell {
  readonly appVersion: string;
  /** What a viewer that runs no scripts shows, by language. */
  readonly noScript: Readonly<Record<string, string>>;
  /** Type and tones, which other pages made from a plan share. */
  readonly base: string;
  readonly style: string;
  readonly script: string;
}

/**
 * A zone's phone page: one HTML document that needs no network and no other file. Its content is deflated JSON in base64, so that no text
 * of the plan stands in the markup; its policy lets run only the script and style it was made with, and lets nothing be fetched. The same
 * content gives the same bytes.
 */
export async function phoneHtml(page: PhonePage, shell: PhoneShell = shipped): Promise<string> {
  const { appVersion, script } = shell;
  const { language } = page;
  const noScript = shell.noScript[language] ?? "";
  const style = `${shell.base}\n${shell.style}`;
  if (/<\/(script|style)/i.test(`${style}${script}`)) {
    throw new RangeError("Expected a script and a style without an end tag in them, got one that would end early");
  }
  const content = base64(deflateSync(strToU8(JSON.stringify(page)), { level: 9 }));
  const policy = [
    "default-src 'none'",
    `script-src ${await sourceHash(script)}`,
    `style-src ${await sourceHash(style)}`,
    "font-src data:",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  return [
    "<!doctype html>",
    `<html lang="${escapeText(language)}" data-app-version="${escapeText(appVersion)}">`,
    "<head>",
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${policy}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover">',
    '<meta name="referrer" content="no-referrer">',
    '<meta name="format-detection" content="telephone=no">',
    `<title>${escapeText(page.zoneName)}</title>`,
    `<style>${style}</style>`,
    "</head>",
    "<body>",
    `<noscript><p>${escapeText(noScript)}</p></noscript>`,
    `<script type="application/json" id="page-content">${content}</script>`,
    `<script>${script}</script>`,
    "</body>",
    "</html>",
    "",
  ].join("\n");
}
