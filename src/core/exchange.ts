import { aroundText, type ExchangeInput, type PlanInputs, rulesText } from "./exchange-input.ts";
import type { ConflictRecord } from "./model/conflict.ts";
import { CHANGE_CAUSES, type ChangeCause } from "./model/plan-change.ts";
import type { SightArea } from "./model/surroundings.ts";
import type { Tree } from "./model/trees.ts";
import { type WordsByTree, wordsInForce } from "./model/words-in-force.ts";
import { outcomesOfStep, sightAtStep, type TreeAtStep } from "./outcomes-of-step.ts";
import { agedTree, treeAsInventoried } from "./plan/carry/aged-tree.ts";
import { renamedRecord, renamedThing } from "./plan/carry/rename-ids.ts";
import { renamedWords } from "./plan/carry/renamed-words.ts";
import { renamedThings } from "./plan/carry/same-things.ts";
import { changedFields } from "./plan/carry/tree-fields.ts";
import { isSameTree } from "./plan/carry/tree-match.ts";
import { presentName, treeNames } from "./plan/carry/tree-names.ts";
import type { TreeOutcome } from "./plan/carry/tree-outcome.ts";
import { statesOfRecord } from "./plan/record/states-of-record.ts";
import { type TreeAfterWork, treeAfterWork } from "./plan/record/tree-after-work.ts";
import type { RecordedBase, RecordedVisit, WorkRecord } from "./plan/record/work-record.ts";
import { stateAsSaid } from "./plan/word/state-as-said.ts";
import { type Reestimate, treeBeforeWords } from "./plan/word/tree-as-measured.ts";
import type { PlanGround } from "./remeasure-trees.ts";
import { buildSurroundings } from "./surroundings/build-surroundings.ts";
import type { IsoDate } from "./units/calendar.ts";
import { reestimateAt } from "./words-on-plan.ts";

/** The steps in the order in which inputs are exchanged: what is not an input, the program itself, stands first, then the causes by precedence. */
export const STEPS: readonly ChangeCause[] = ["model", ...CHANGE_CAUSES.filter((cause) => cause !== "model")];

/** Whether a step comes before another, or is it. */
const isBefore = (one: ChangeCause, other: ChangeCause): boolean => STEPS.indexOf(one) <= STEPS.indexOf(other);

/** Plans trees anew with the inputs of two revisions exchanged one after another. */
export class Exchange {
  /** Row in `before` of each tree of `now` that is the same, by its row. */
  readonly oldRowOf: ReadonlyMap<number, number>;
  readonly rename: (treeId: string) => string;
  readonly #before: ReadonlyMap<string, TreeAfterWork>;
  readonly #worked: ReadonlyMap<string, TreeAfterWork>;
  readonly #now: ReadonlyMap<string, TreeAfterWork>;
  readonly #wordsBefore: WordsByTree;
  readonly #wordsNow: WordsByTree;
  readonly #reestimate: Reestimate;
  readonly #oldBases: ReadonlyMap<string, RecordedBase>;
  readonly #nowBases: ReadonlyMap<string, RecordedBase>;
  readonly #visits = new Map<string, RecordedVisit[]>();
  readonly #things: ReadonlyMap<string, string>;
  readonly #workedOn: ReadonlySet<string>;
  readonly #grounds = new Map<string, PlanGround>();
  readonly #active = new Map<ChangeCause, boolean>();

  constructor(readonly input: ExchangeInput) {
    const { before, latest, now, matches } = input;
    const names = treeNames(matches, before.plan.trees, now.plan.trees, latest.plan.revision);
    this.oldRowOf = new Map(matches.all.filter(isSameTree).map(({ oldRow, newRow }) => [newRow!, oldRow!]));
    this.rename = presentName(names, latest.plan.revision);
    const things = renamedThings(before.plan.surroundings, now.plan.surroundings);
    this.#things = new Map([...things].map(([is, was]) => [was, is]));
    const latestRecord = renamedRecord(latest.record, names);
    this.#wordsBefore = wordsInForce(renamedWords(before.words, names));
    this.#wordsNow = wordsInForce(now.words);
    this.#reestimate = reestimateAt(now.plan.options.place);
    this.#before = statesOfRecord(renamedRecord(before.record, names));
    this.#worked = statesOfRecord(latestRecord);
    this.#now = statesOfRecord(now.record);
    this.#oldBases = basesOf(latestRecord);
    this.#nowBases = basesOf(now.record);
    for (const visit of now.record.visits) {
      if (visit.replacedIn !== null) continue;
      const own = this.#visits.get(visit.entry.treeId);
      if (own === undefined) this.#visits.set(visit.entry.treeId, [visit]);
      else own.push(visit);
    }
    // A record only grows: what it has beyond the earlier one, or holds for replaced since, was reported in between.
    this.#workedOn = new Set(
      latestRecord.visits.flatMap(({ entry, replacedIn }, at) =>
        before.record.visits[at]?.replacedIn === replacedIn ? [] : [entry.treeId],
      ),
    );
  }

  /** Whether anything of a cause differs between the revisions at all. */
  isActive(cause: ChangeCause): boolean {
    const known = this.#active.get(cause);
    if (known !== undefined) return known;
    const is = this.#differs(cause);
    this.#active.set(cause, is);
    return is;
  }

  #differs(cause: ChangeCause): boolean {
    const { before, now } = this.input;
    switch (cause) {
      case "work":
        return this.#workedOn.size > 0;
      case "word":
        return JSON.stringify(this.input.before.words) !== JSON.stringify(this.input.latest.words);
      case "surroundings":
        return aroundText(before) !== aroundText(now);
      case "rule":
        return rulesText(before) !== rulesText(now);
      case "growth":
        return before.plan.options.asOf !== now.plan.options.asOf;
      default:
        return true;
    }
  }

  /** What rows get at a step, as of the earlier date or another: all inputs up to the step's are those of `now`. */
  outcomes(
    step: ChangeCause,
    rows: readonly number[],
    asOf = this.input.before.plan.options.asOf,
  ): Map<number, TreeOutcome> {
    return this.outcomesOf(
      rows.map((row) => ({ row, state: this.stateAt(step, row) })),
      this.groundAt(step),
      asOf,
    );
  }

  /** What trees get on a ground. */
  outcomesOf(
    trees: readonly TreeAtStep[],
    ground: PlanGround,
    asOf = this.input.before.plan.options.asOf,
  ): Map<number, TreeOutcome> {
    return outcomesOfStep(trees, asOf, ground, this.input.now.plan.prescriptions, (one) => this.presentIdOf(one));
  }

  /** A conflict's id under the id that the thing it is with has now. */
  presentIdOf = (conflict: ConflictRecord): string => renamedThing(conflict.conflictId, conflict, this.#things);

  /** The tree as it is at a step. Until time itself is exchanged it has grown to the earlier date only. */
  stateAt(step: ChangeCause, row: number): TreeAfterWork {
    return this.#asSaid(step, row, this.#stateBeforeWords(step, row));
  }

  #asSaid(step: ChangeCause, row: number, state: TreeAfterWork): TreeAfterWork {
    const said = this.#wordsAt(step).get(this.input.now.plan.trees[row]!.id);
    return stateAsSaid(state, said, this.#reestimate);
  }

  #wordsAt = (step: ChangeCause): WordsByTree => (isBefore("word", step) ? this.#wordsNow : this.#wordsBefore);

  #stateBeforeWords(step: ChangeCause, row: number): TreeAfterWork {
    const { before, now, treesByOldRules } = this.input;
    const tree = treeBeforeWords(now.plan.trees[row]!);
    const { id } = tree;
    const old = (): Tree => ({ ...treeBeforeWords(before.plan.trees[this.oldRowOf.get(row)!]!), id });
    if (step === "model") return this.#before.get(id) ?? treeAfterWork(old(), []);
    if (step === "work" || step === "word") return this.#worked.get(id) ?? treeAfterWork(old(), []);
    if (step === "growth") return this.#now.get(id) ?? treeAfterWork(tree, []);
    const isByOldRules = treesByOldRules !== null && step !== "rule";
    return this.#asWorked(row, this.#grownBefore(row, isByOldRules ? treesByOldRules[row]! : this.recordsOf(row).now));
  }

  /** A tree of the new inventory, grown to the earlier date where it has grown to the later one. */
  #grownBefore(row: number, tree: Tree): Tree {
    const { before, now } = this.input;
    const since = this.recordsOf(row).now.inventoried?.asOf ?? now.plan.trees[row]!.inventoried?.asOf;
    const { asOf } = before.plan.options;
    return since === undefined
      ? tree
      : agedTree(treeAsInventoried(tree), since, asOf, before.standard.pruning.droopMPerYear);
  }

  /** A tree with other figures of the inventory, as its recorded work and what was said of it leave it. */
  asWorked = (row: number, tree: Tree): TreeAfterWork => this.#asSaid("data", row, this.#asWorked(row, tree));

  #asWorked(row: number, tree: Tree): TreeAfterWork {
    const { id } = this.input.now.plan.trees[row]!;
    const base = this.#nowBases.get(id);
    return base === undefined
      ? treeAfterWork(tree, [])
      : treeAfterWork({ ...tree, id }, this.#visits.get(id) ?? [], base.newer);
  }

  /** `LAYER/ID` that a thing has now, by the one it had. */
  presentThing = (key: string): string => this.#things.get(key) ?? key;

  /** The tree as the inventories say it, before and now; under its new id. */
  recordsOf(row: number): { before: Tree; now: Tree } {
    const { before, now } = this.input;
    const tree = treeBeforeWords(now.plan.trees[row]!);
    const oldRow = this.oldRowOf.get(row);
    const old = oldRow === undefined ? tree : treeBeforeWords(before.plan.trees[oldRow]!);
    return {
      before: this.#oldBases.get(tree.id)?.tree ?? { ...old, id: tree.id },
      now: this.#nowBases.get(tree.id)?.tree ?? tree,
    };
  }

  /** Whether a step can change what a row gets, beside what trees around it hide. */
  touches(step: ChangeCause, row: number): boolean {
    const { id } = this.input.now.plan.trees[row]!;
    if (step === "work") return this.#workedOn.has(id);
    if (step === "word") return this.#wordsBefore.has(id) || this.#wordsNow.has(id);
    if (step !== "data") return true;
    const { before, now } = this.recordsOf(row);
    return this.#now.has(id) || changedFields(before, now).length > 0;
  }

  groundAt(step: ChangeCause): PlanGround {
    const known = this.#grounds.get(step);
    if (known !== undefined) return known;
    const made = this.#ground(step);
    this.#grounds.set(step, made);
    return made;
  }

  #ground(step: ChangeCause): PlanGround {
    const { before, latest, now } = this.input;
    const firstSeen = new Map<string, IsoDate>(now.plan.conflicts.map((one) => [one.conflictId, one.firstSeen]));
    const isAfter = (other: ChangeCause): boolean => isBefore(other, step);
    const rulesOf = isAfter("rule") ? now : before;
    const ground = {
      ...groundOf(isAfter("surroundings") ? now : before, rulesOf),
      options: rulesOf.plan.options,
      firstSeen,
      words: this.#wordsAt(step),
    };
    if (step === "model") return { ...ground, sight: this.#renamed(before.plan.sight) };
    if (!isAfter("data")) return { ...ground, sight: this.#renamed(latest.plan.sight) };
    const isLast = STEPS.every((other) => isBefore(other, step) || !this.isActive(other));
    if (isLast) return { ...ground, sight: now.plan.sight };
    const states = now.plan.trees.map((_, row) => this.stateAt(step, row));
    return { ...ground, sight: sightAtStep(states, ground) };
  }

  #renamed(sight: readonly SightArea[]): SightArea[] {
    return sight.map((area) =>
      area.hidden === null
        ? area
        : {
            ...area,
            hidden: {
              ...area.hidden,
              trees: area.hidden.trees.map((one) => ({ ...one, treeId: this.rename(one.treeId) })),
            },
          },
    );
  }
}

/** Trees that something is recorded of, as the inventory in force says them, by id. */
const basesOf = ({ bases }: WorkRecord): Map<string, RecordedBase> =>
  new Map(bases.flatMap((base) => (base.replacedIn == null ? [[base.tree.id, base] as const] : [])));

/** What stands around by one revision's layers and another's rules. */
function groundOf(layersOf: PlanInputs, rulesOf: PlanInputs): Pick<PlanGround, "surroundings" | "standard"> {
  const { standard, plan } = rulesOf;
  return {
    standard,
    surroundings: buildSurroundings(layersOf.layers, layersOf.columns, standard, plan.options).surroundings,
  };
}
