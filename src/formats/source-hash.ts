import { base64 } from "./phone/base64.ts";

/** A text's SHA-256 as a source of a content security policy: `'sha256-...'`. */
export async function sourceHash(text: string): Promise<string> {
  const digest = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text));
  return `'sha256-${base64(new Uint8Array(digest))}'`;
}
