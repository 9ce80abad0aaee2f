/** Files of a revision by name, as they are written to its folder. */
export type RevisionFiles = ReadonlyMap<string, Uint8Array>;

/** Bytes of a file of a revision. Throws Error naming it where it is missing. */
export function fileBytes(files: RevisionFiles, name: string): Uint8Array {
  const bytes = files.get(name);
  if (bytes === undefined) throw new Error(`This is not a whole revision: ${name} is missing`);
  return bytes;
}

/** Text of a file of a revision. Throws Error naming it where it is missing. */
export const fileText = (files: RevisionFiles, name: string): string =>
  new TextDecoder().decode(fileBytes(files, name));
