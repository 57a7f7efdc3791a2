/** The currency of a menu as typed. */
import { type CurrencyCode, MINOR_DIGITS } from "../../../../model/basics/minor-digits.ts";
import { type Json, valueAt } from "../../kit/json-pointer.ts";

/** What the menu says, where it is a currency; else dollars, so that sums can be read at all. */
export function currencyOf(menu: Json): CurrencyCode {
  const code = valueAt(menu, "#/currency");
  return typeof code === "string" && code in MINOR_DIGITS ? (code as CurrencyCode) : "USD"; // a key of the digits
}
