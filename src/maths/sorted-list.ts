/**
 * Items kept in the order of `compare`, which reads their key part K and must distinguish any two different items.
 * Search is binary; adding and removing move the items behind.
 */
export class SortedList<T extends K, K = T> {
  readonly #items: T[] = [];
  readonly #compare: (one: K, other: K) => number;

  constructor(compare: (one: K, other: K) => number) {
    this.#compare = compare;
  }

  get length(): number {
    return this.#items.length;
  }

  /** How many items sort before this one, whether or not it is in the list. */
  countBefore(item: K): number {
    let low = 0;
    let high = this.#items.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      const found = this.#items[middle] as T; // middle < length
      if (this.#compare(found, item) < 0) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  has(item: K): boolean {
    const found = this.#items[this.countBefore(item)];
    return found !== undefined && this.#compare(found, item) === 0;
  }

  add(item: T): void {
    this.#items.splice(this.countBefore(item), 0, item);
  }

  /** Takes the item out; an item that is not there is a bug of the caller, and is thrown. */
  remove(item: T): void {
    const index = this.countBefore(item);
    const found = this.#items[index];
    if (found === undefined || this.#compare(found, item) !== 0) throw new Error("SortedList: no such item");
    this.#items.splice(index, 1);
  }

  at(index: number): T | undefined {
    return this.#items.at(index);
  }

  first(count: number): readonly T[] {
    return this.#items.slice(0, count);
  }

  last(count: number): readonly T[] {
    return count === 0 ? [] : this.#items.slice(-count);
  }

  [Symbol.iterator](): IterableIterator<T> {
    return this.#items[Symbol.iterator]();
  }
}
