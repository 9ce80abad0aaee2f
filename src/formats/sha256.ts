/**
 * SHA-256 of bytes as 64 lower-case hexadecimal digits (FIPS 180-4). Needs `crypto.subtle`, which a browser only offers on secure
 * addresses (https or loopback); throws Error where it is missing.
 */
export async function sha256(bytes: Uint8Array): Promise<string> {
  const subtle = globalThis.crypto?.subtle;
  if (subtle === undefined)
    throw new Error("SHA-256 needs a secure address (https or this machine); the page has none.");
  const digest = new Uint8Array(await subtle.digest("SHA-256", bytes as Uint8Array<ArrayBuffer>));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
