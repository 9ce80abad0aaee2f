/**
 * The content security policy of the page: everything from its own origin, and requests of the map to the given origins besides. The
 * same words without origins stand in the page itself, for places that serve it without headers.
 */
export function contentPolicy(origins: readonly string[]): string {
  const besides = origins.map((origin) => ` ${origin}`).join("");
  return [
    "default-src 'self'",
    // The readers of zipped and packed files are compiled by the browser.
    "script-src 'self' 'wasm-unsafe-eval'",
    "style-src 'self'",
    `img-src 'self' data: blob:${besides}`,
    "font-src 'self'",
    "worker-src 'self' blob:",
    `connect-src 'self'${besides}`,
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
}

/** A page with its own policy replaced by another, since a browser obeys every policy it is given; unchanged where it has none. */
export const withPolicy = (page: string, policy: string): string =>
  page.replace(/(http-equiv="Content-Security-Policy"\s+content=")[^"]*/, (_, start: string) => `${start}${policy}`);
