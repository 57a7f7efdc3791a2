/** The sender of a text as an E.164 number, by libphonenumber with its smallest metadata. */
import { type CountryCode, isSupportedCountry, parsePhoneNumberFromString } from "libphonenumber-js/min";
import { PhoneNumber } from "../model/orders/order.ts";

export type Sender =
  | { readonly type: "phone"; readonly phone: PhoneNumber }
  /** Three to eight digits a network gave out: cannot be answered by number. */
  | { readonly type: "short-code" }
  /** A name instead of a number: cannot be answered at all. */
  | { readonly type: "name" }
  | { readonly type: "unreadable" };

/** Characters of a number with all that people put between digits. The library's own patterns are slow on long texts. */
const LONGEST = 40;

export const isCountry = (country: string): country is CountryCode => isSupportedCountry(country);

// Validity is not checked: new ranges are assigned faster than any list of them is updated.
function possible(text: string, country: string): PhoneNumber | null {
  const parsed = parsePhoneNumberFromString(text, isCountry(country) ? country : undefined);
  if (parsed === undefined || !parsed.isPossible()) return null;
  const phone = PhoneNumber.safeParse(parsed.number);
  return phone.success ? phone.data : null;
}

/** The sender of a text. `country` (ISO 3166-1) is for numbers without a country code. */
export function readSender(raw: string, country: string): Sender {
  const [text = ""] = raw.trim().replace(/^tel:/i, "").split(";", 1);
  if (/\p{L}/u.test(text)) return { type: "name" };
  if (text.length > LONGEST) return { type: "unreadable" };
  const digits = text.replace(/[^0-9]/g, "");
  const bare = !text.startsWith("+");
  if (bare && digits.length >= 3 && digits.length <= 6) return { type: "short-code" };
  // Some gateways leave the plus sign out of a whole number.
  const phone = possible(text, country) ?? (bare ? possible(`+${digits}`, country) : null);
  if (phone !== null) return { type: "phone", phone };
  return bare && digits.length >= 3 && digits.length <= 8 ? { type: "short-code" } : { type: "unreadable" };
}
