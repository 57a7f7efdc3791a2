import type {
  MoneyGiven,
  PassersByGiven,
  ShareGiven,
  ShareRangeGiven,
  WeightGiven,
} from "../../model/planning/plan-given.ts";
import type { FaultPath, Faults } from "./faults.ts";

/** An uncertain figure: its 5, 50 and 95 % points. */
export type GivenRange = { readonly low: number; readonly likely: number; readonly high: number };

/** Reads figures as people write them; what cannot be read is a fault and counts as 0. */
export type Reader = {
  /** In minor units of the plan's currency, a whole number. */
  readonly money: (given: MoneyGiven, path: FaultPath) => number;
  /** Between 0 and 1. */
  readonly share: (given: ShareGiven, path: FaultPath) => number;
  /** 0 or more: only its part of the whole list counts. */
  readonly weight: (given: WeightGiven, path: FaultPath) => number;
  readonly shareRange: (given: ShareRangeGiven, path: FaultPath) => GivenRange;
  readonly passersBy: (given: PassersByGiven, path: FaultPath) => GivenRange;
  /** Minutes after midnight. */
  readonly clock: (given: string) => number;
};

const SYMBOLS: Readonly<Record<string, readonly string[]>> = {
  $: ["USD", "CAD", "AUD", "NZD", "MXN"],
  "€": ["EUR"],
  "£": ["GBP"],
};

/** Digits of the currency's minor unit (ISO 4217, as the platform's own tables hold them). */
export function minorDigits(currency: string): number {
  const format = new Intl.NumberFormat("en", { style: "currency", currency });
  return format.resolvedOptions().maximumFractionDigits ?? 2;
}

export function reader(currency: string, faults: Faults): Reader {
  const unit = 10 ** minorDigits(currency);

  const money = (given: MoneyGiven, path: FaultPath): number => {
    if (typeof given === "number") return Math.round(given * unit);
    const parts = /^([$€£])?\s*(\d{1,7}(?:[.,]\d{1,3})?)\s*([$€£])?$/u.exec(given.trim());
    if (parts === null) {
      faults.add(path, `"${given}" cannot be read as money`, 'write it like 24.50, "24.50" or "$24.50"');
      return 0;
    }
    const symbol = parts[1] ?? parts[3];
    if (symbol !== undefined && SYMBOLS[symbol]?.includes(currency) !== true) {
      faults.add(
        path,
        `is in ${symbol}, but the plan is in ${currency}`,
        "give every sum in the plan's currency",
      );
    }
    return Math.round(Number((parts[2] ?? "0").replace(",", ".")) * unit);
  };

  const share = (given: ShareGiven, path: FaultPath): number => {
    if (typeof given === "number") return given;
    const parts = /^\s*(\d{1,3}(?:[.,]\d+)?)\s*%\s*$/.exec(given);
    const value = parts === null ? Number(given) : Number((parts[1] ?? "").replace(",", ".")) / 100;
    if (given.trim() !== "" && value >= 0 && value <= 1) return value;
    faults.add(path, `"${given}" is not a share between 0 and 1`, 'write it like 0.27 or "27 %"');
    return 0;
  };

  const weight = (given: WeightGiven, path: FaultPath): number => {
    if (typeof given === "number") return given;
    const parts = /^(\d{1,7}(?:[.,]\d+)?)\s*(%?)$/.exec(given.trim());
    if (parts !== null) return Number((parts[1] ?? "").replace(",", ".")) / (parts[2] === "%" ? 100 : 1);
    faults.add(path, `"${given}" cannot be read as a share`, 'write it like 0.27, "27 %" or 3');
    return 0;
  };

  const inOrder = (range: GivenRange, path: FaultPath): GivenRange => {
    if (range.low <= range.likely && range.likely <= range.high) return range;
    faults.add(
      path,
      "low, likely and high are not in order",
      "put the smallest in low and the largest in high",
    );
    return range;
  };

  return {
    money,
    share,
    weight,
    shareRange: (given, path) => {
      if (typeof given !== "object") {
        const likely = share(given, path);
        return { low: likely, likely, high: likely };
      }
      const range = {
        low: share(given.low, [...path, "low"]),
        likely: share(given.likely, [...path, "likely"]),
        high: share(given.high, [...path, "high"]),
      };
      return inOrder(range, path);
    },
    passersBy: (given, path) =>
      typeof given === "object" ? inOrder(given, path) : { low: given, likely: given, high: given },
    clock: (given) => {
      const [hours, minutes] = given.split(":");
      return Number(hours) * 60 + Number(minutes);
    },
  };
}

/** A share that was already checked, as a number. */
export function shareNumber(given: ShareGiven): number {
  if (typeof given === "number") return given;
  return given.includes("%") ? Number.parseFloat(given.replace(",", ".")) / 100 : Number(given);
}
