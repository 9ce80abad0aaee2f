import type { Slot } from "../catalog.ts";

const SPACE = "[ \\u00a0]";
const MONTHS: Readonly<Record<string, string>> = {
  Jan: "ene",
  Feb: "feb",
  Mar: "mar",
  Apr: "abr",
  May: "may",
  Jun: "jun",
  Jul: "jul",
  Aug: "ago",
  Sep: "sep",
  Oct: "oct",
  Nov: "nov",
  Dec: "dic",
};
const SIDES: Readonly<Record<string, string>> = {
  north: "norte",
  northeast: "noreste",
  east: "este",
  southeast: "sureste",
  south: "sur",
  southwest: "suroeste",
  west: "oeste",
  northwest: "noroeste",
};
/** Letters of the sixteen points of the compass, and of a side of a street. */
const POINT = "(?:[NS]{1,2}[EW]|[EW][NS][EW]|[NSEW])";
const MEASURES: Readonly<Record<string, string>> = {
  height: "la altura",
  "crown base": "la base de la copa",
  "crown radius": "el radio de la copa",
  "stem diameter": "el diámetro del tallo",
};
/** What traffic signs say; the signs themselves are in English. */
const SIGNS: Readonly<Record<string, string>> = {
  "Road work ahead": "obras adelante",
  "Flagger ahead": "abanderado adelante",
  "One lane road ahead": "vía de un carril adelante",
  "Lane ends": "el carril termina",
  "Lane closed ahead": "carril cerrado adelante",
  "Road closed": "vía cerrada",
  "Detour ahead": "desvío adelante",
};
const TAPERS: Readonly<Record<string, string>> = {
  Merging: "incorporación",
  Shifting: "desplazamiento",
  Shoulder: "acotamiento",
  "One lane, two ways": "un carril, dos sentidos",
  "Behind the work": "detrás del trabajo",
};
const BASES: Readonly<Record<string, string>> = { "est.": "est.", assumed: "supuesto", estimated: "estimado" };

const NUMBER = "\\d+(?:[.,]\\d+)*";
const LENGTH = `(?:under${SPACE})?(?:the ground|${NUMBER}${SPACE}ft(?:${SPACE}${NUMBER}${SPACE}in)?|(?:${NUMBER}–)?${NUMBER}${SPACE}(?:in|mm|cm|m|km))(?:${SPACE}(?:est\\.|assumed|estimated))?`;

/** Feet are `pies`, inches `pulg`; metric units are the same. */
function length(text: string): string {
  return text
    .replaceAll(" ", " ")
    .replace(/^under /, "menos de ")
    .replace("the ground", "el suelo")
    .replace(/^((?:menos de )?1) ft/, "$1 pie")
    .replace(" ft", " pies")
    .replace(/ in(?= |$)/, " pulg")
    .replace(/ (est\.|assumed|estimated)$/, (_, basis: string) => ` ${BASES[basis]}`);
}

/** Ends where a sentence or clause does: a full stop may stand only within, and after what names shorten. */
const NAME = "[^\\s.;:](?:[^.;:]|\\.(?! )|(?<=\\b(?:St|Dr|Mt|Ave|Blvd|Rd|No))\\. )*?";

/** Kinds of things that stand beside a tree. */
const KIND =
  "(?:road|walk|bike)way|(?:bus|fire) (?:route|lane)|building (?:wall|side|roof)|conductor|sight (?:triangle|line)|curve|line to sign(?:al)?|sign(?:al)?";

/** The same at the beginning of a sentence. */
const KIND_FIRST =
  "(?:Road|Walk|Bike)way|(?:Bus|Fire) (?:route|lane)|Building (?:wall|side|roof)|Conductor|Sight (?:triangle|line)|Curve|Line to sign(?:al)?|Sign(?:al)?";

const date = (text: string): string => text.replace(/[A-Z][a-z]{2}/, (month) => MONTHS[month] ?? month);
const kept = (text: string): string => text;
const fromTable = (table: Readonly<Record<string, string>>): Slot => ({
  pattern: Object.keys(table).join("|"),
  translate: (text) => table[text] ?? null,
});

const KINDED = new RegExp(`^(${KIND})(?: (.*))?$`, "isu");

/** A list in Spanish; null where a part of it is none of the catalog. */
function listed(parts: readonly (string | null)[]): string | null {
  if (parts.includes(null)) return null;
  return parts.length === 1 ? parts[0]! : `${parts.slice(0, -1).join(", ")} y ${parts.at(-1)}`;
}

/** Things in a list; a part that is no phrase is a name where it begins like one. A name may hold an `and` itself: it is parted where all its parts are known. */
function thingList(text: string, inner: (text: string) => string | null): string | null {
  const parts = text.split(/, | and /);
  const named = (part: string): string | null => inner(part) ?? (/^[\p{Lu}\d]/u.test(part) ? part : null);
  return listed(parts.map(inner)) ?? inner(text) ?? listed(parts.map(named));
}

/** Slots of the Spanish phrases. */
export const SPANISH_SLOTS: Readonly<Record<string, Slot>> = {
  length: { pattern: LENGTH, translate: length },
  share: {
    pattern: `(?:under )?${NUMBER}${SPACE}%`,
    translate: (text) => text.replace("under ", "menos del "),
  },
  /** With or without its year. */
  date: { pattern: `\\d{1,2}${SPACE}(?:${Object.keys(MONTHS).join("|")})(?:${SPACE}\\d{4})?`, translate: date },
  number: { pattern: "\\d[\\d.,:/–]*", translate: kept },
  /** Numbers of trees or cautions: `1–4, 7`. */
  numbers: { pattern: "\\d[\\d–]*(?:, \\d[\\d–]*)*", translate: kept },
  side: fromTable(SIDES),
  point: { pattern: POINT, translate: (text) => text.replaceAll("W", "O") },
  letters: { pattern: "[A-Z](?:, [A-Z])*", translate: kept },
  temperature: { pattern: `-?\\d+${SPACE}°[CF]`, translate: kept },
  /** Sizes that are not measured: `crown base and crown radius`. */
  measures: {
    pattern: "[a-z]+(?: [a-z]+)*(?:, [a-z]+(?: [a-z]+)*)?",
    translate: (text) => {
      const parts = text.split(/, | and /).map((part) => MEASURES[part]);
      if (parts.includes(undefined)) return null;
      return parts.length === 1 ? parts[0]! : `${parts.slice(0, -1).join(", ")} y ${parts.at(-1)}`;
    },
  },
  /** `About 3 years`. */
  years: {
    pattern: "[Uu]nder 1 year|[Aa]bout \\d+ years?",
    translate: (text) =>
      text
        .replace(/^[Uu]nder 1 year$/, "menos de 1 año")
        .replace(/^[Aa]bout 1 year$/, "cerca de 1 año")
        .replace(/^[Aa]bout (\d+) years$/, "unos $1 años"),
  },
  /** A distance along a limb, to quarters of an inch: `6–12 in`, `2 1/2 in`. */
  reach: {
    pattern: `[\\d./ –]+${SPACE}(?:in|cm)`,
    translate: (text) => text.replace(/[ \u00a0]in$/, " pulg"),
  },
  method: { pattern: "(?:by hand|one clean saw cut|in three cuts \\(.*?\\))", translate: (text, inner) => inner(text) },
  speed: { pattern: `\\d+${SPACE}(?:mph|km/h)`, translate: kept },
  /** A code such as `TA-10` or a plan's id. */
  code: { pattern: "[\\w-]+", translate: kept },
  sign: {
    pattern: Object.keys(SIGNS).join("|"),
    translate: (text) => `${text} (${SIGNS[text]})`,
  },
  tapered: fromTable(TAPERS),
  case: { pattern: "[^.;:]+?", translate: (text, inner) => inner(text) },
  crewed: { pattern: "[a-z-]+ crew", translate: (text, inner) => inner(text) },
  /** Kinds of conflict in a list. */
  kinds: {
    pattern: "[a-z ]+(?:, [a-z ]+)*",
    translate: (text, inner) => {
      const kinds = text.split(", ").map(inner);
      return kinds.includes(null) || kinds.length < 2 ? null : kinds.join(", ");
    },
  },
  control: fromTable({
    stop: "alto",
    yield: "ceda el paso",
    "a stop sign": "una señal de alto",
    "an all-way stop": "un alto en todos los accesos",
    "a yield sign": "una señal de ceda el paso",
    "a signal": "un semáforo",
    "no control": "ningún control",
  }),
  based: fromTable({ estimated: "estimado", assumed: "supuesto" }),
  /** What follows the case of a closure, which is translated as if the case stood before it. */
  tail: {
    pattern: "(?:, .*)?",
    translate: (text, inner) => {
      if (text === "") return text;
      const whole = inner(`one lane closed, traffic merging${text}`);
      return whole === null ? null : whole.slice("un carril cerrado, el tránsito se incorpora".length);
    },
  },
  /** Birds with their dates, in the words of the standard. */
  birds: { pattern: "[^()]+?", translate: kept },
  /** A name of the plan, which no language changes. */
  name: { pattern: NAME, translate: kept },
  /** Kinds of things that stand beside a tree. */
  kind: {
    pattern: KIND,
    translate: (text, inner) => inner(text),
  },
  /** A kind of thing with its name, where it has one, such as `Bus route Mill Street`. */
  kinded: {
    pattern: `(?:${KIND}|${KIND_FIRST})(?: ${NAME})?`,
    translate: (text, inner) => {
      const [, kind = "", name = ""] = KINDED.exec(text) ?? [];
      const translated = inner(kind);
      if (translated === null || name === "") return translated;
      const named = inner(name) ?? (/^[\p{Lu}\d]/u.test(name) ? name : null);
      return named === null ? null : `${translated} ${named}`;
    },
  },
  /** A name, or a thing named by what it is, such as `stop sign on Mill Street`. */
  place: { pattern: NAME, translate: (text, inner) => inner(text) ?? text },
  /** Something that has a phrase of its own, such as `the walk along Mill Street`, or a name. */
  thing: {
    pattern: NAME,
    translate: (text, inner) => inner(text) ?? (/^[\p{Lu}\d]/u.test(text) ? text : null),
  },
  /** Several things in a list: `the walk along Mill Street and the wall`. */
  things: { pattern: NAME, translate: thingList },
  /** What is to be measured beneath and beside things. */
  sizes: {
    pattern: `the free (?:height under the branches over|distance to) ${NAME}`,
    translate: (text, inner) => {
      const [, over, to] =
        /^(?:the free height under the branches over (.*?))??(?:(?: and )?the free distance to (.*))?$/su.exec(text) ??
        [];
      const parts = [
        over === undefined ? [] : ["la altura libre bajo las ramas sobre ", thingList(over, inner)],
        to === undefined ? [] : ["la distancia libre hasta ", thingList(to, inner)],
      ].filter((part) => part.length > 0);
      if (parts.length === 0 || parts.some(([, things]) => things === null)) return null;
      return parts.map((part) => part.join("")).join(" y ");
    },
  },
  /** Defects in a list: `decay and included bark`. */
  defects: {
    pattern: "[a-z]+(?: [a-z]+)*(?:, [a-z]+(?: [a-z]+)*)*",
    translate: (text, inner) => listed(text.split(/, | and /).map(inner)),
  },
  /** A clause that has a phrase of its own. */
  clause: { pattern: "\\S.*?", translate: (text, inner) => inner(text) },
};
