/** How a stall's English is spelt: its currency says where it sells. */
import type { Currency } from "./money.ts";

export type Spelling = "american" | "british";

// Where prices are in these, English is spelt the American way.
const AMERICAN: ReadonlySet<Currency> = new Set<Currency>(["USD"]);

/** The spelling of English that people at a stall with this currency are used to. */
export const spellingOf = (currency: Currency): Spelling => (AMERICAN.has(currency) ? "american" : "british");
