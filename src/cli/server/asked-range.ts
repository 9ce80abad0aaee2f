/** A part of a file: from one byte to before another. */
export interface ByteRange {
  readonly from: number;
  readonly to: number;
}

/**
 * What a Range header asks of a file of `size` bytes: a part of it, `beyond` for a part that begins past its end, else `whole`, which a server may give for
 * anything but one range of bytes. Source: RFC 9110, section 14.
 */
export function askedRange(header: string | undefined, size: number): ByteRange | "whole" | "beyond" {
  const found = /^bytes=(\d{0,15})-(\d{0,15})$/.exec(header?.trim() ?? "");
  const [, first = "", last = ""] = found ?? [];
  if (found === null || (first === "" && last === "")) return "whole";
  if (first === "") {
    const from = Math.max(0, size - Number(last));
    return Number(last) === 0 || size === 0 ? "beyond" : { from, to: size };
  }
  const from = Number(first);
  if (last !== "" && Number(last) < from) return "whole";
  return from >= size ? "beyond" : { from, to: last === "" ? size : Math.min(size, Number(last) + 1) };
}
