/** A saved stall read a piece at a time: its rows come out in parts, however large the file is. */
import type { StallPart } from "../../../model/accounts/whole-stall.ts";

/** A part ends after this many characters of rows. */
const PART_LENGTH = 1_000_000;
/** Half of the rows that a part may have: a wish of two words makes a short row. */
const PART_ROWS = 10_000;

type Row = { readonly list: string; readonly row: string };

/** Every list of a file whose rows are parts, by the names that lead to it. */
const LISTS: ReadonlyMap<string, keyof StallPart> = new Map([
  ["journal", "journal"],
  ["issued", "issued"],
  ["stops", "stops"],
  ["pictures", "pictures"],
  ["people.persons", "persons"],
  ["people.conversations", "conversations"],
  ["people.texts", "texts"],
  ["people.orders", "orders"],
]);

/** Finds the rows of the lists in a JSON text that comes in pieces, cut anywhere. */
class RowReader {
  /** The open names down to the present place; list items have none. */
  readonly #open: string[] = [];
  #name = "";
  #string: string | null = null;
  #escaped = false;
  /** How many were open when the row began; null between rows. */
  #rowAt: number | null = null;
  #row = "";
  #whole = false;

  get whole(): boolean {
    return this.#whole;
  }

  *read(piece: string): Generator<Row> {
    let begun = 0;
    for (let at = 0; at < piece.length; at++) {
      const sign = piece[at];
      if (this.#string !== null) {
        this.#inString(sign);
        continue;
      }
      if (sign === '"') this.#string = "";
      else if (sign === ":" && this.#rowAt === null) this.#name = this.#last;
      else if (sign === "{" || sign === "[") {
        const list = this.#open.slice(1).join(".");
        if (this.#rowAt === null && LISTS.has(list)) [this.#rowAt, begun] = [this.#open.length, at];
        this.#open.push(this.#rowAt === null ? this.#name : "");
      } else if (sign === "}" || sign === "]") {
        this.#open.pop();
        this.#whole = this.#open.length === 0;
        if (this.#rowAt !== this.#open.length) continue;
        const row = this.#row + piece.slice(begun, at + 1);
        yield { list: this.#open.slice(1).join("."), row };
        [this.#rowAt, this.#row] = [null, ""];
      }
    }
    if (this.#rowAt !== null) this.#row += piece.slice(begun);
  }

  #last = "";

  #inString(sign = ""): void {
    const ends = sign === '"' && !this.#escaped;
    this.#escaped = sign === "\\" && !this.#escaped;
    if (!ends) {
      // Names are short; what a row holds is read later.
      if (this.#rowAt === null) this.#string += sign;
      return;
    }
    this.#last = this.#string ?? "";
    this.#string = null;
  }
}

/**
 * The parts of a file, in order, each of about this many characters. Throws a SyntaxError if the file is not a whole
 * JSON text.
 */
export async function* partsOf(
  pieces: AsyncIterable<string>,
  partLength = PART_LENGTH,
): AsyncGenerator<StallPart> {
  const reader = new RowReader();
  let part: Record<string, unknown[]> = {};
  let [length, rows] = [0, 0];
  for await (const piece of pieces) {
    for (const { list, row } of reader.read(piece)) {
      if (length > 0 && (length + row.length > partLength || rows >= PART_ROWS)) {
        yield part as StallPart; // the stall reads it by its schema
        [part, length, rows] = [{}, 0, 0];
      }
      const name = LISTS.get(list) ?? list;
      part[name] ??= [];
      part[name].push(JSON.parse(row));
      length += row.length;
      rows += 1;
    }
  }
  if (!reader.whole) throw new SyntaxError("the file ends early");
  yield part as StallPart; // as above
}

/** A file's text as it is read from the disk. */
export async function* textOf(file: Blob): AsyncGenerator<string> {
  const decoder = new TextDecoder();
  const reader = file.stream().getReader();
  for (;;) {
    const { value, done } = await reader.read();
    if (done) break;
    yield decoder.decode(value, { stream: true });
  }
  yield decoder.decode();
}
