/** Recognises card numbers, so that none is ever kept: the stall notes a tender, not a card. */

/** The check digit of ISO/IEC 7812-1, annex B: from the right, every second digit doubled and its digits summed. */
function checkDigitHolds(digits: string): boolean {
  let sum = 0;
  for (let place = 0; place < digits.length; place += 1) {
    const digit = Number(digits[digits.length - 1 - place]);
    const weighed = place % 2 === 1 ? digit * 2 : digit;
    sum += weighed > 9 ? weighed - 9 : weighed;
  }
  return sum % 10 === 0;
}

const SHORTEST = 13;
const LONGEST = 19;

const RUN = /[0-9](?:[ .-]?[0-9])*/g;

/**
 * Whether a text contains a possible card number: 13 to 19 digits, in one piece or in groups with spaces, dots or
 * hyphens, with a correct check digit.
 */
export function looksLikeCardNumber(text: string): boolean {
  for (const [run] of text.matchAll(RUN)) {
    const groups = run.split(/[ .-]/);
    for (let from = 0; from < groups.length; from += 1) {
      let digits = "";
      for (const group of groups.slice(from)) {
        digits += group;
        if (digits.length > LONGEST) break;
        if (digits.length >= SHORTEST && checkDigitHolds(digits)) return true;
      }
    }
  }
  return false;
}

/** The text with what could be a card's number left out, for what must be answered whatever it holds. */
export const withoutCardNumbers = (text: string): string =>
  text.replace(RUN, (run) => (looksLikeCardNumber(run) ? "…" : run));
