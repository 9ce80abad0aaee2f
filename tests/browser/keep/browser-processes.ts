import { readdirSync, readFileSync } from "node:fs";

/** Ids of all processes of the browser that this process started on a profile: the one that names the profile, and all below it. Linux only. */
export function browserProcesses(profile: string): number[] {
  const parents = new Map<number, number>();
  const roots: number[] = [];
  for (const name of readdirSync("/proc")) {
    if (!/^\d+$/.test(name)) continue;
    try {
      // The command's name may hold blanks and brackets; the parent's id is the second word after its closing bracket.
      const stat = readFileSync(`/proc/${name}/stat`, "utf8");
      parents.set(Number(name), Number(stat.slice(stat.lastIndexOf(")") + 2).split(" ")[1]));
      const words = readFileSync(`/proc/${name}/cmdline`, "utf8").split("\0");
      if (words.includes(`--user-data-dir=${profile}`)) roots.push(Number(name));
    } catch {
      // It ended meanwhile.
    }
  }
  const isBelow = (id: number): boolean => roots.includes(id) || (parents.has(id) && isBelow(parents.get(id)!));
  return [...parents.keys()].filter(isBelow);
}
