import { cellNumber, fractionDigits } from "./cell-number.ts";

/** What is known of a column's cells so far. */
interface Column {
  isText: boolean;
  filled: number;
  /** Decimals of every number so far; -1 before the first, -2 where they differ. */
  decimals: number;
  /** Whether a number is not written as JSON writes it, `1.10` for example. */
  hasUnusual: boolean;
}

/**
 * Which columns of a table hold numbers: those where every filled cell is a plain number and no two different texts are the same number, so
 * that `1.1` and `1.10` as numbers of places stay apart. Fed with the rows one by one, from the first to the last; columns of mixed decimals
 * need the rows again (`needsMore`), twice at most.
 */
export class NumberColumns {
  readonly #columns: Column[] = [];
  readonly #mark: "." | ",";
  #round: "first" | "unusual" | "shortest" = "first";
  /** Texts by their number, for the columns that are looked at again. */
  readonly #texts = new Map<number, Map<number, string>>();

  constructor(mark: "." | ",") {
    this.#mark = mark;
  }

  add(cells: readonly string[]): void {
    if (this.#round === "first")
      for (let column = 0; column < cells.length; column += 1) this.#first(column, cells[column]!);
    else for (const [column, texts] of this.#texts) this.#again(column, texts, cells[column] ?? "");
  }

  /** To be asked after the last row: whether all rows must be added once more. */
  needsMore(): boolean {
    if (this.#round === "first") {
      this.#columns.forEach(({ isText, filled, decimals, hasUnusual }, column) => {
        // With as many decimals everywhere, different texts are different numbers.
        if (!isText && filled > 0 && hasUnusual && decimals === -2) this.#texts.set(column, new Map());
      });
      this.#round = "unusual";
      return this.#texts.size > 0;
    }
    const isDone = this.#round === "shortest";
    this.#round = "shortest";
    return !isDone && this.#texts.size > 0;
  }

  isNumber(column: number): boolean {
    const found = this.#columns[column];
    return found !== undefined && found.filled > 0 && !found.isText;
  }

  #first(at: number, cell: string): void {
    this.#columns[at] ??= { isText: false, filled: 0, decimals: -1, hasUnusual: false };
    const column = this.#columns[at];
    if (cell === "" || column.isText) return;
    const number = cellNumber(cell, this.#mark);
    if (number === null) {
      column.isText = true;
      return;
    }
    column.filled += 1;
    column.hasUnusual ||= !isShortest(number);
    // Minus nothing is nothing, and its texts differ.
    const decimals = number.startsWith("-") && Number(number) === 0 ? -2 : fractionDigits(number, ".");
    if (column.decimals === -1) column.decimals = decimals;
    else if (column.decimals !== decimals) column.decimals = -2;
  }

  #again(at: number, texts: Map<number, string>, cell: string): void {
    const number = cellNumber(cell, this.#mark);
    if (number === null) return;
    const value = Number(number);
    const known = texts.get(value);
    const isShort = isShortest(number);
    if (
      this.#round === "unusual" ? !isShort && known !== undefined && known !== number : isShort && known !== undefined
    ) {
      this.#columns[at]!.isText = true;
      this.#texts.delete(at);
    } else if (this.#round === "unusual" && !isShort) texts.set(value, number);
  }
}

const isShortest = (number: string): boolean => String(Number(number)) === number;
