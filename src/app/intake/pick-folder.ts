import { currentOf, isPlanFolder } from "./plan-in-folder.ts";

/** Asks the reader for a folder and hands over its files; of a plan folder those of its current revision. Nothing happens when the reader changes their mind. */
export function pickFolder(take: (files: File[]) => void): void {
  const picker = document.createElement("input");
  picker.type = "file";
  picker.webkitdirectory = true;
  picker.addEventListener("change", async () => {
    const files = await wantedOf([...(picker.files ?? [])].map((file) => [file.webkitRelativePath, file] as const));
    if (files.length > 0) take(files);
  });
  picker.click();
}

/** The files to take of a picked folder, by their paths, which begin with the folder's own name. */
export async function wantedOf(given: readonly (readonly [path: string, file: File])[]): Promise<File[]> {
  const inside = given.map(([path, file]) => [path.slice(path.indexOf("/") + 1), file] as const);
  const files = new Map(inside.filter(([path]) => !path.includes("/")));
  const folders = new Map(
    inside.filter(([path]) => path.includes("/")).map(([path]) => [path.slice(0, path.indexOf("/")), true]),
  );
  if (!isPlanFolder({ files, folders })) return inside.map(([, file]) => file);
  const names = inside.flatMap(([path]) => /^revisions\/([^/]+)\/plan\.json$/.exec(path)?.[1] ?? []);
  const textOf = async (name: string) => (await files.get(name)?.text()) ?? null;
  const start = `revisions/${currentOf(await textOf("current"), await textOf("history.jsonl"), names)}/`;
  return inside.flatMap(([path, file]) =>
    path.startsWith(start) && !path.slice(start.length).includes("/") ? [file] : [],
  );
}
