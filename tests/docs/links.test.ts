import { existsSync, readdirSync } from "node:fs";
import path from "node:path";
import { describe, expect, it } from "vitest";
import { boughline } from "../../src/cli/program.ts";
import { FIELDS } from "../../src/core/model/column-map.ts";
import { SIGHT_KINDS } from "../../src/core/model/surroundings.ts";
import { BASES, CERTAINTIES, CONFLICT_KINDS, CREWS, LAYERS, REMEDIES, URGENCIES } from "../../src/core/model/terms.ts";
import { boughProperties } from "../../src/core/plan/bough-properties.ts";
import { prescribe } from "../../src/core/prescription/prescribe.ts";
import { schedule } from "../../src/core/schedule/schedule.ts";
import { buildSurroundings } from "../../src/core/surroundings/build-surroundings.ts";
import { PARTS } from "../../src/map/options.ts";
import { planOptions, setting, standard, tree } from "../core/prescription/scene.ts";
import { codeSpans, pages, ROOT, read, sectionOf, tableAfter, withoutFences } from "./markdown.ts";

/** Pictures taken from the running app; they are checked once they exist. */
const SCREENSHOTS = ["app-town-light.png", "app-tree-light.png", "app-zone-light.png", "app-phone-light.png"];

interface Link {
  readonly page: string;
  readonly text: string;
  readonly target: string;
}

const links: Link[] = pages().flatMap((page) =>
  [...withoutFences(read(page)).matchAll(/!?\[([^\]\n]*)\]\(([^)\s]+)\)/g)].map((match) => ({
    page,
    text: match[1]!,
    target: match[2]!,
  })),
);
const relative = links.filter(({ target }) => !/^[a-z]+:/.test(target));
const fileOf = ({ page, target }: Link): string =>
  path.posix.normalize(path.posix.join(path.posix.dirname(page), target.split("#")[0]!));
const show = ({ page, target }: Link): string => `${page}: ${target}`;

/** GitHub's name of a heading: lower case, marks dropped, blanks as hyphens. */
const anchorOf = (heading: string): string =>
  heading
    .replace(/^#+ /, "")
    .toLowerCase()
    .replace(/[^\p{L}\p{N} _-]/gu, "")
    .replaceAll(" ", "-");

describe("links and images", () => {
  it("are found", () => {
    expect(pages()).toContain("docs/method.md");
    expect(relative.length).toBeGreaterThan(100);
  });

  it("lead to files that are there", () => {
    const missing = relative
      .filter((link) => fileOf(link) !== "." && !existsSync(ROOT + fileOf(link)))
      .filter((link) => !SCREENSHOTS.includes(path.posix.basename(fileOf(link))));
    expect(missing.map(show)).toEqual([]);
  });

  it("lead to headings that are there", () => {
    const missing = relative.filter((link) => {
      const anchor = link.target.split("#")[1];
      if (anchor === undefined) return false;
      const page = link.target.startsWith("#") ? link.page : fileOf(link);
      return !withoutFences(read(page))
        .split("\n")
        .filter((line) => /^#+ /.test(line))
        .some((line) => anchorOf(line) === anchor);
    });
    expect(missing.map(show)).toEqual([]);
  });

  it("name what the file they lead to declares", () => {
    const named = relative.filter(({ text, target }) => /^`[A-Za-z_]+`$/.test(text) && target.endsWith(".ts"));
    expect(named.length).toBeGreaterThan(80);
    const wrong = named.filter((link) => {
      const name = link.text.slice(1, -1);
      return !new RegExp(`\\b(function\\*?|const|class|interface|type) ${name}\\b`).test(read(fileOf(link)));
    });
    expect(wrong.map(({ page, text, target }) => `${page}: ${text} in ${target}`)).toEqual([]);
  });

  it("ask nothing of another host for a picture", () => {
    const pictures = pages().filter((page) => /!\[[^\]]*\]\(https?:/.test(read(page)));
    expect(pictures).toEqual([]);
  });
});

describe("the command line in the docs", () => {
  const program = boughline(() => {});
  const optionsOf = new Map(
    program.commands.map((command) => [command.name(), new Set(command.options.map((option) => option.long))]),
  );
  const every = new Set([...optionsOf.values()].flatMap((set) => [...set]).concat("--help", "--version"));
  /** Options of other programs that the pages show. */
  const FOREIGN = new Set([
    "--silent",
    "--import",
    "--runs",
    "--seed",
    "--write",
    "--kills",
    "--whole",
    "--short",
    "--ignore-scripts",
    "--omit",
  ]);

  it("has the commands that are shown", () => {
    // In a code span, behind `npm run ... boughline --`, or in an indented block.
    const call = /(?:`boughline|boughline --|^ {4}boughline) ([a-z]+)/gm;
    const shown = pages().flatMap((page) => [...read(page).matchAll(call)].map((match) => ({ page, name: match[1]! })));
    expect(shown.length).toBeGreaterThan(8);
    expect(shown.filter(({ name }) => !optionsOf.has(name) && name !== "help")).toEqual([]);
  });

  it("has the options that are shown", () => {
    const shown = pages().flatMap((page) =>
      [...new Set([...read(page).matchAll(/(?<![\w-])--(?!boughline-)[a-z][a-z-]+/g)].map((match) => match[0]))].map(
        (option) => ({
          page,
          option,
        }),
      ),
    );
    expect(shown.length).toBeGreaterThan(20);
    expect(shown.filter(({ option }) => !every.has(option) && !FOREIGN.has(option))).toEqual([]);
  });

  it("is told with every option of a layer in docs/files.md", () => {
    const section = sectionOf(read("docs/files.md"), "## Input layers");
    expect(LAYERS.filter((layer) => !section.includes(`\`--${layer}\``))).toEqual([]);
  });

  it("runs npm scripts that are there", () => {
    const { scripts } = JSON.parse(read("package.json")) as { scripts: Record<string, string> };
    const shown = pages().flatMap((page) =>
      [...read(page).matchAll(/npm run (?:--silent )?([a-z:-]+)/g)].map((match) => `${page}: ${match[1]!}`),
    );
    expect(shown.length).toBeGreaterThan(5);
    expect(shown.filter((one) => !Object.hasOwn(scripts, one.split(": ")[1]!))).toEqual([]);
  });
});

describe("DEVELOPERS.md", () => {
  it("tells of every npm script", () => {
    const { scripts } = JSON.parse(read("package.json")) as { scripts: Record<string, string> };
    const page = read("DEVELOPERS.md");
    const isTold = (name: string): boolean =>
      [`npm run ${name}`, `npm run --silent ${name} --`, `npm ${name}`].some((call) => page.includes(call));
    expect(Object.keys(scripts).filter((name) => !isTold(name))).toEqual([]);
  });
});

describe("docs/files.md", () => {
  const page = read("docs/files.md");
  const dictionary = sectionOf(page, "## Members added to a tree");

  it("describes every member a tree gains, in the order they are written, and no other", () => {
    const one = tree();
    const place = setting();
    const drafts = prescribe([one], [], [place], standard, planOptions());
    const [prescription] = schedule([one], drafts, [], [place], standard, planOptions());
    const members = Object.keys(boughProperties(one, prescription!, [], place, null));
    const told = tableAfter(dictionary, "\n").flatMap(([member]) => codeSpans(member!));
    expect(told).toEqual(members);
  });

  it("lists the words a member can hold", () => {
    const wordsOf = (member: string): string[] => {
      const row = tableAfter(dictionary, "\n").find(([name]) => name === `\`${member}\``)!;
      return codeSpans(row[2]!);
    };
    expect(wordsOf("bough_urgency")).toEqual([...URGENCIES]);
    expect(wordsOf("bough_certainty")).toEqual([...CERTAINTIES]);
    expect(wordsOf("bough_remedy")).toEqual([...REMEDIES]);
    expect(wordsOf("bough_crew")).toEqual([...CREWS]);
    expect(wordsOf("bough_basis")).toEqual([...BASES]);
  });

  it("lists every canonical field of every layer", () => {
    const lists = codeSpans(withoutFences(sectionOf(page, "## Column map")).replaceAll(/\s+/g, " ")).filter((span) =>
      span.startsWith("id, "),
    );
    const told = lists.map((list) => list.split(", "));
    const wanted = [FIELDS.trees, FIELDS.buildings, FIELDS.roads, FIELDS.paths, FIELDS.signs, FIELDS.conductors];
    expect(told).toEqual(wanted.map((fields) => [...fields]));
    expect(FIELDS.signals).toEqual(FIELDS.signs);
  });
});

describe("docs/plugin.md", () => {
  const page = read("docs/plugin.md");

  it("shows the host that the type check reads", () => {
    const shown = /```ts\n([\s\S]*?)```/.exec(page)![1]!;
    expect(shown.replaceAll('"boughline/', '"../../')).toBe(read("tests/docs/plugin-host.ts"));
  });

  it("lists the options, methods and events of the code", () => {
    const firstCells = (heading: string): string[] =>
      tableAfter(sectionOf(page, heading), "\n").flatMap(([cell]) => codeSpans(cell!));
    const members = (file: string, name: string): string[] => {
      const body = new RegExp(`interface ${name}[^{]*\\{([\\s\\S]*?)\\n\\}`).exec(read(file))![1]!;
      return [...body.matchAll(/^ {2}(?:readonly )?(\w+)\??[:(]/gm)].map((match) => match[1]!);
    };
    const options = [
      ...members("src/map/boughline-control.ts", "ControlOptions"),
      ...members("src/map/options.ts", "AddOptions"),
      ...members("src/map/options.ts", "LayerOptions"),
    ];
    expect(firstCells("## Options").sort()).toEqual(options.sort());
    const handle = members("src/map/boughline-handle.ts", "BoughlineHandle").filter(
      (name) => !["plan", "isOpening", "selectedTreeId", "selectedZoneId"].includes(name),
    );
    const sections = sectionOf(page, "## Methods and events");
    const methods = tableAfter(sections, "\n").flatMap(([cell]) => codeSpans(cell!));
    expect(methods.sort()).toEqual(handle.sort());
    const events = tableAfter(sections, "in `detail`").flatMap(([cell]) => codeSpans(cell!));
    expect(events.sort()).toEqual(members("src/map/events.ts", "BoughlineEvents").sort());
    const filter = members("src/map/options.ts", "TreeFilter");
    expect(filter.filter((name) => !sections.includes(`\`${name}\``))).toEqual([]);
    const parts = tableAfter(sectionOf(page, "## Options"), "\n").find(([name]) => name === "`parts`")!;
    expect(codeSpans(parts[2]!)).toEqual([...PARTS]);
  });
});

describe("words of the docs", () => {
  it("name the kinds that need road centerlines", () => {
    const line = read("docs/method.md")
      .split("\n")
      .find((one) => one.startsWith("**Every kind can be measured**"))!;
    const layers = { buildings: [], paths: [], signs: [], signals: [], conductors: [] };
    const roadless = buildSurroundings(layers, {}, standard, planOptions()).surroundings.notChecked;
    const named = codeSpans(line).filter((span) => (CONFLICT_KINDS as readonly string[]).includes(span));
    expect(roadless.filter((kind) => (SIGHT_KINDS as readonly string[]).includes(kind))).toEqual(named);
  });

  it("in code spans with a hyphen stand somewhere in the code", () => {
    const code = ["src", "styles", "package.json", "tests/house", "tests/docs", "sample-geojson"]
      .flatMap((part) => filesOf(part))
      .map((file) => read(file))
      .join("\n");
    const unknown = pages()
      .filter((page) => page.startsWith("docs/"))
      .filter((page) => !page.startsWith("docs/data-sources/"))
      .flatMap((page) => codeSpans(read(page)).map((span) => ({ page, span })))
      .filter(({ span }) => /^[a-z]+(-[a-z]+)+$/.test(span) && !code.includes(span));
    expect(unknown).toEqual([]);
  });
});

function filesOf(part: string): string[] {
  if (!existsSync(`${ROOT}${part}`) || /\.[a-z]+$/.test(part)) return [part];
  return readdirSync(ROOT + part, { recursive: true, encoding: "utf8" })
    .map((name) => `${part}/${name}`)
    .filter((name) => /\.(ts|json|css)$/.test(name));
}
