/** A rule that did not hold while simulating. */
export class RuleBroken extends Error {
  /** The rule's name: shrinking keeps to the same one. */
  readonly rule: string;

  constructor(rule: string, what: string) {
    super(`${rule}: ${what}`);
    this.rule = rule;
  }
}

/** Throws if two things that must be equal are not. */
export function same(rule: string, what: string, one: unknown, other: unknown): void {
  const [first, second] = [JSON.stringify(one), JSON.stringify(other)];
  if (first !== second) throw new RuleBroken(rule, `${what}: ${first} is not ${second}`);
}
