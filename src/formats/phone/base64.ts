/** Bytes in base64 (RFC 4648 section 4), on Node and in browsers alike. */
export function base64(bytes: Uint8Array): string {
  let letters = "";
  // In pieces, since a call takes only so many arguments.
  for (let at = 0; at < bytes.length; at += 0x8000) {
    letters += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  }
  return btoa(letters);
}
