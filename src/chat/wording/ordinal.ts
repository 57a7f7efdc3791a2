/** English ordinals. */
const ENDINGS: Readonly<Record<string, string>> = { one: "st", two: "nd", few: "rd" };
const rules = new Intl.PluralRules("en", { type: "ordinal" });

/** "4th": a place in line. */
export const ordinal = (n: number): string => `${n}${ENDINGS[rules.select(n)] ?? "th"}`;
