/** How a value of a request is written by hand, and read; unreadable text stays as typed. */
import { minorDigits } from "../../../../planning/request/given.ts";
import type { Json } from "../../kit/json-pointer.ts";

export type Writing = {
  readonly shown: (value: Json | undefined) => string;
  /** `before` is the present value: a bare number keeps its unit. */
  readonly read: (text: string, before: Json | undefined) => Json | undefined;
};

/** A figure if it is one, else the words as typed: the planner reports their fault. */
function typed(text: string): Json | undefined {
  const trimmed = text.trim();
  if (trimmed === "") return undefined;
  return /^-?(?:\d+\.?\d*|\.\d+)$/.test(trimmed) ? Number(trimmed) : trimmed;
}

const plainly = (value: Json | undefined): string =>
  value === undefined || value === null
    ? ""
    : typeof value === "object"
      ? JSON.stringify(value)
      : String(value);

export const PLAIN: Writing = { shown: plainly, read: typed };

/** Money that a request holds in minor units, written in whole ones: 1250 is 12.50. */
export function inMinorUnits(currency: string): Writing {
  const digits = minorDigits(/^[A-Z]{3}$/.test(currency) ? currency : "USD");
  return {
    shown: (value) => (typeof value === "number" ? (value / 10 ** digits).toFixed(digits) : plainly(value)),
    read: (text) => {
      const found = /^\s*[$€£]?\s*(\d+(?:[.,]\d+)?)\s*[$€£]?\s*$/u.exec(text);
      if (found === null) return typed(text);
      return Math.round(Number((found[1] ?? "").replace(",", ".")) * 10 ** digits);
    },
  };
}

/** Words people write for units, as the requests spell them. */
const UNITS: Readonly<Record<string, string>> = {
  '"': "in",
  inch: "in",
  inches: "in",
  "'": "ft",
  foot: "ft",
  feet: "ft",
  f: "F",
  c: "C",
  l: "L",
  litres: "L",
  liters: "L",
  gallons: "gal",
  kilos: "kg",
  lbs: "lb",
  pounds: "lb",
  "l/h": "L/h",
};

/** A figure with its unit in one entry, "10 ft"; a bare figure keeps the unit it had, or takes the first. */
export function withUnit(...units: readonly string[]): Writing {
  const fieldOf = (value: Json | undefined, name: string): Json | undefined =>
    typeof value === "object" && value !== null && !Array.isArray(value)
      ? (value as { readonly [name: string]: Json })[name] // neither null nor a list
      : undefined;
  return {
    shown: (value) => {
      const [figure, unit] = [fieldOf(value, "value"), fieldOf(value, "unit")];
      return figure === undefined ? plainly(value) : `${plainly(figure)} ${plainly(unit)}`.trim();
    },
    read: (text, before) => {
      const found = /^\s*(-?\d+(?:[.,]\d+)?)\s*°?\s*([a-zA-Z"'/]*)\s*$/.exec(text);
      if (found === null) return typed(text);
      const [, figure = "", word = ""] = found;
      const unit =
        word === "" ? (fieldOf(before, "unit") ?? units[0] ?? "") : (UNITS[word.toLowerCase()] ?? word);
      return { value: Number(figure.replace(",", ".")), unit };
    },
  };
}

/** One voltage, or the span of a supply that takes many: "100 to 240". */
export const VOLTS: Writing = {
  shown: (value) => {
    const range = value as { readonly from?: Json; readonly to?: Json } | undefined; // looked at before it is used
    return typeof value === "object" && value !== null && range?.from !== undefined
      ? `${plainly(range.from)} to ${plainly(range.to)}`
      : plainly(value);
  },
  read: (text) => {
    const found = /^\s*(\d+(?:\.\d+)?)\s*(?:to|-|–)\s*(\d+(?:\.\d+)?)\s*$/.exec(text);
    return found === null ? typed(text) : { from: Number(found[1]), to: Number(found[2]) };
  },
};

/** Several words or figures separated by commas; an empty text removes the field. */
export const SEVERAL: Writing = {
  shown: (value) => (Array.isArray(value) ? value.map(plainly).join(", ") : plainly(value)),
  read: (text) => {
    const each = text.split(/[,;]/).flatMap((one) => typed(one) ?? []);
    return each.length === 0 ? undefined : each;
  },
};

/** Like SEVERAL, for names, even those that look like figures. */
export const NAMES: Writing = {
  shown: SEVERAL.shown,
  read: (text) => {
    const each = text.split(/[,;]/).map((one) => one.trim());
    return each.every((one) => one === "") ? undefined : each.filter((one) => one !== "");
  },
};

/** Words, even if they look like a figure. */
export const WORDS: Writing = {
  shown: plainly,
  read: (text) => (text.trim() === "" ? undefined : text.trim()),
};

/** A short name for stock sheets and addresses: "Forest green" is written forest-green. */
export const SHORT: Writing = {
  shown: plainly,
  read: (text) => {
    const short = text
      .trim()
      .toLowerCase()
      .replaceAll(/[^a-z0-9]+/g, "-")
      .replaceAll(/^-|-$/g, "");
    return short === "" ? undefined : short;
  },
};
