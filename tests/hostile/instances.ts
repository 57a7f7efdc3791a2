/** Values that a JSON Schema of the OpenAPI document allows, drawn from a seeded chance. */
import fc from "fast-check";
import type { Random } from "../../src/maths/random.ts";

export type Schema = {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly allOf?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | Schema;
  readonly propertyNames?: Schema;
  readonly items?: Schema;
  readonly prefixItems?: readonly Schema[];
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
  readonly format?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
};

export type Schemas = Readonly<Record<string, Schema>>;

const PER_PATTERN = 40;
const INSTANTS = ["2027-05-01T09:00:00Z", "2027-05-01T17:30:00+02:00", "2027-12-31T23:59:59.999Z"];
const DAYS = ["2027-05-01", "2028-02-29", "2026-12-31"];
const WORDS = ["navy", "L", "tee", "Anna", "Ω≈ç√", "a b", "0", "-1", "👕", "naïve"];
/** A list is at most this much longer than it must be, and a value nests at most so deep. */
const MORE_ITEMS = 2;
const DEEPEST = 12;

/** Draws values of schemas that refer to one another by name. */
export class Instances {
  readonly #schemas: Schemas;
  readonly #random: Random;
  readonly #strings = new Map<string, readonly string[]>();

  constructor(schemas: Schemas, random: Random) {
    this.#schemas = schemas;
    this.#random = random;
  }

  /** A value that the schema allows, as far as the schema says it all. */
  of(schema: Schema, depth = 0): unknown {
    const random = this.#random;
    if (schema.$ref !== undefined) {
      const name = schema.$ref.split("/").at(-1) ?? "";
      const named = this.#schemas[name];
      if (named === undefined) throw new Error(`the document names ${schema.$ref} and does not hold it`);
      return this.of(named, depth);
    }
    if ("const" in schema) return schema.const;
    if (schema.enum !== undefined) return random.pick(schema.enum);
    const choices = schema.anyOf ?? schema.oneOf;
    if (choices !== undefined) return this.of(random.pick(choices), depth + 1);
    if (schema.allOf !== undefined) {
      return Object.assign({}, ...schema.allOf.map((part) => this.of(part, depth + 1)));
    }
    const type = typeof schema.type === "object" ? random.pick(schema.type) : schema.type;
    switch (type) {
      case "object":
        return this.#object(schema, depth);
      case "array":
        return this.#list(schema, depth);
      case "string":
        return this.#string(schema);
      case "integer":
      case "number":
        return this.#number(schema, type);
      case "boolean":
        return random.chance(0.5);
      case "null":
        return null;
      default:
        return random.pick<unknown>([1, "any", null, true]);
    }
  }

  #object({ properties = {}, required = [], additionalProperties, propertyNames }: Schema, depth: number) {
    const random = this.#random;
    const optional = depth > DEEPEST ? 0 : 0.5;
    const fields = Object.entries(properties).filter(
      ([name]) => required.includes(name) || random.chance(optional),
    );
    const whole: Record<string, unknown> = {};
    for (const [name, schema] of fields) whole[name] = this.of(schema, depth + 1);
    if (typeof additionalProperties === "object" && depth < DEEPEST) {
      for (let n = random.below(3); n > 0; n--) {
        const name = propertyNames === undefined ? random.pick(WORDS) : String(this.of(propertyNames, depth));
        whole[name] = this.of(additionalProperties, depth + 1);
      }
    }
    return whole;
  }

  #list({ items, prefixItems, minItems = 0, maxItems = Infinity }: Schema, depth: number): unknown[] {
    if (prefixItems !== undefined) return prefixItems.map((item) => this.of(item, depth + 1));
    const more = depth > DEEPEST ? 0 : this.#random.below(MORE_ITEMS + 1);
    const length = Math.min(maxItems, minItems + more);
    return Array.from({ length }, () => this.of(items ?? {}, depth + 1));
  }

  #string({ format, pattern, minLength = 0, maxLength = 40 }: Schema): string {
    const random = this.#random;
    if (format === "date-time") return random.pick(INSTANTS);
    if (format === "date") return random.pick(DAYS);
    if (pattern !== undefined) return random.pick(this.#matching(pattern, minLength, maxLength));
    const word = random.pick(WORDS).padEnd(minLength, "x");
    return word.slice(0, Math.max(minLength, maxLength));
  }

  #matching(pattern: string, least: number, most: number): readonly string[] {
    const key = `${least} ${most} ${pattern}`;
    const known = this.#strings.get(key);
    if (known !== undefined) return known;
    const expression = new RegExp(pattern, /\\[pu]/.test(pattern) ? "u" : "");
    const drawn = fc.sample(
      fc.stringMatching(expression, { maxLength: Math.max(least, Math.min(most, 60)) }),
      {
        numRuns: PER_PATTERN,
        seed: this.#random.below(2 ** 31),
      },
    );
    const fitting = drawn.filter(({ length }) => length >= least && length <= most);
    const strings = fitting.length > 0 ? fitting : drawn;
    this.#strings.set(key, strings);
    return strings;
  }

  #number({ minimum, maximum, exclusiveMinimum, exclusiveMaximum }: Schema, type: string): number {
    const random = this.#random;
    const whole = type === "integer";
    const step = whole ? 1 : 1e-6;
    const low = minimum ?? (exclusiveMinimum === undefined ? -100 : exclusiveMinimum + step);
    const high = maximum ?? (exclusiveMaximum === undefined ? low + 1000 : exclusiveMaximum - step);
    const near = random.chance(0.7) ? Math.min(high, low + 50) : high;
    const value = low + random.next() * (near - low);
    return whole ? Math.min(high, Math.ceil(value)) : value;
  }
}
