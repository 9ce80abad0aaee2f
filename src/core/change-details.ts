import type { Exchange } from "./exchange.ts";
import type { DifferingTree } from "./explain-changes.ts";
import type { SurroundingFeature } from "./model/surroundings.ts";
import { decisiveStep } from "./plan/carry/decisive-step.ts";
import { changedRuleParts, type RulePart, withRulePart } from "./plan/carry/rule-parts.ts";
import { changedFields, withField } from "./plan/carry/tree-fields.ts";
import { completeStandard } from "./standard/complete-standard.ts";
import { buildSurroundings } from "./surroundings/build-surroundings.ts";

/** With more parts of a standard changed than this the part is not looked for: each is a run of its own. */
const MOST_PARTS = 12;

/** What exactly brought each change about, in a plain phrase; fields and rules are exchanged one by one where several differ. */
export function changeDetails(
  exchange: Exchange,
  caused: ReadonlyMap<number, DifferingTree>,
): (tree: DifferingTree) => string {
  const all = [...caused.values()];
  const fields = fieldWords(
    exchange,
    all.filter(({ cause }) => cause === "data"),
  );
  const rules = ruleWords(
    exchange,
    all.filter(({ cause }) => cause === "rule"),
  );
  const around = thingsAround(exchange);
  return (tree) => {
    const { before, now } = exchange.input;
    switch (tree.cause) {
      case "work":
        return workWords(exchange, tree);
      case "word":
        return wordWords(exchange, tree);
      case "data":
        return fields.get(tree.row) ?? "what other trees hide of a view";
      case "surroundings":
        return around(tree);
      case "rule":
        return rules.get(tree.row) ?? "clearance rules";
      case "growth":
        return `time: as of ${before.plan.options.asOf} -> ${now.plan.options.asOf}`;
      case "model":
        return "another version of the program";
    }
  };
}

function workWords(exchange: Exchange, { row }: DifferingTree): string {
  const { id } = exchange.input.now.plan.trees[row]!;
  const last = exchange.stateAt("work", row).tree.worked;
  if (last === undefined || !exchange.touches("work", row)) return "work at other trees opened a view";
  return `tree ${id} reported ${last.outcome} on ${last.on}`;
}

/** What was said last of the tree, or that it was taken back. */
function wordWords(exchange: Exchange, { row }: DifferingTree): string {
  const last = exchange.input.now.plan.prescriptions[row]!.words?.at(-1);
  if (!exchange.touches("word", row)) return "what was said of other trees opened a view";
  return last === undefined ? "an arborist's word was taken back" : `${last.by}, ${last.on}: ${last.says}`;
}

/** By row: the field after whose exchange the weightiest aspect is never again what it was. */
function fieldWords(exchange: Exchange, trees: readonly DifferingTree[]): Map<number, string> {
  const words = new Map<number, string>();
  const open = trees.flatMap((tree) => {
    const { before, now } = exchange.recordsOf(tree.row);
    const changed = changedFields(before, now);
    if (changed.length === 1) words.set(tree.row, changed[0]!.told);
    const at = tree.steps.indexOf("data");
    const aspect = tree.aspects[0]!;
    const values = [tree.outcomes[at]![aspect]];
    return changed.length > 1
      ? [{ tree, changed, mixed: before, now, values, last: tree.outcomes[at + 1]![aspect] }]
      : [];
  });
  const most = open.reduce((count, { changed }) => Math.max(count, changed.length), 0);
  // The state that recorded work leaves is told by the record; fields are exchanged beneath it.
  for (let at = 0; at < most - 1; at += 1) {
    const running = open.filter(({ changed }) => at < changed.length - 1);
    for (const one of running) one.mixed = withField(one.mixed, one.changed[at]!.field, one.now);
    const got = exchange.outcomesOf(
      running.map(({ tree: { row }, mixed }) => ({ row, state: exchange.asWorked(row, mixed) })),
      exchange.groundAt("data"),
    );
    for (const { tree, values } of running) values.push(got.get(tree.row)![tree.aspects[0]!]);
  }
  for (const { tree, changed, values, last } of open) {
    const at = decisiveStep([...values, last]);
    const others = changed.length - 1;
    const more = others > 0 ? ` (of ${changed.length} fields that differ)` : "";
    words.set(tree.row, `${changed[Math.max(0, at - 1)]!.told}${more}`);
  }
  return words;
}

/** By row: the part of the standard after whose exchange the weightiest aspect is never again what it was. */
function ruleWords(exchange: Exchange, trees: readonly DifferingTree[]): Map<number, string> {
  const words = new Map<number, string>();
  if (trees.length === 0) return words;
  const { before, now } = exchange.input;
  const parts = changedRuleParts(before.standardJson, now.standardJson);
  const isPlaceToo = JSON.stringify(before.plan.options.place) !== JSON.stringify(now.plan.options.place);
  const toldPlace = "place or side of traffic";
  if (parts.length === 0) return new Map(trees.map(({ row }) => [row, toldPlace]));
  if (parts.length > MOST_PARTS) {
    const told = `${parts.length} parts of the standard, among them ${parts[0]!.told}`;
    return new Map(trees.map(({ row }) => [row, told]));
  }
  const told = [...parts.map((part) => part.told), ...(isPlaceToo ? [toldPlace] : [])];
  if (told.length === 1) return new Map(trees.map(({ row }) => [row, told[0]!]));
  const values = new Map(
    trees.map((tree) => [tree.row, [tree.outcomes[tree.steps.indexOf("rule")]![tree.aspects[0]!]]]),
  );
  let json = before.standardJson;
  for (const part of told.length === parts.length ? parts.slice(0, -1) : parts) {
    json = withRulePart(json, part as RulePart, now.standardJson);
    const standard = completeStandard(json);
    // Two parts may only be whole together: then the step gives what the one before gave.
    const got =
      "faults" in standard
        ? null
        : exchange.outcomesOf(
            trees.map(({ row }) => ({ row, state: exchange.stateAt("rule", row) })),
            {
              ...exchange.groundAt("rule"),
              options: before.plan.options,
              standard: standard.standard,
              surroundings: buildSurroundings(now.layers, now.columns, standard.standard, before.plan.options)
                .surroundings,
            },
          );
    for (const { row, aspects } of trees) {
      const own = values.get(row)!;
      own.push(got?.get(row)?.[aspects[0]!] ?? own.at(-1)!);
    }
  }
  for (const tree of trees) {
    const at = decisiveStep([
      ...values.get(tree.row)!,
      tree.outcomes[tree.steps.indexOf("rule") + 1]![tree.aspects[0]!],
    ]);
    words.set(tree.row, told[Math.max(0, at - 1)]!);
  }
  return words;
}

/** Which of the things around a tree are others than before. */
function thingsAround(exchange: Exchange): (tree: DifferingTree) => string {
  const { before, now } = exchange.input;
  const keyOf = ({ layer, id }: SurroundingFeature): string => `${layer}/${id}`;
  const was = new Map(before.plan.surroundings.map((one) => [exchange.presentThing(keyOf(one)), one]));
  const is = new Map(now.plan.surroundings.map((one) => [keyOf(one), one]));
  return ({ outcomes, steps }) => {
    const at = steps.indexOf("surroundings");
    const lines = `${outcomes[at]!.conflicts}\n${outcomes[at + 1]!.conflicts}`.split("\n");
    const told = new Set<string>();
    for (const line of lines) {
      const key = / (?:now|later) /.test(line)
        ? line.slice(line.indexOf(":") + 1).replace(/ (?:now|later) .*$/, "")
        : "";
      const thing = [key.slice(key.indexOf(":") + 1), key.slice(key.lastIndexOf(":") + 1)].find(
        (name) => was.has(name) || is.has(name),
      );
      if (thing === undefined) continue;
      const [then, next] = [was.get(thing), is.get(thing)];
      const name = (next ?? then)!.name ?? thing;
      if (then === undefined) told.add(`${name} is new`);
      else if (next === undefined) told.add(`${name} is gone`);
      else if (JSON.stringify({ ...then, id: "" }) !== JSON.stringify({ ...next, id: "" }))
        told.add(`${name} is another than before`);
    }
    return told.size === 0 ? "what stands around it" : [...told].slice(0, 3).join("; ");
  };
}
