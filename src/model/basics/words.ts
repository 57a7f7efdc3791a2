/** Text, short names, instants and languages. */

import { z } from "zod";
import { looksLikeCardNumber } from "./card-number.ts";

// Control characters, line and paragraph separators, and marks that reorder text: none belongs in a name, and each can
// forge what a screen, a log or a label says.
const PLAIN = /^[^\p{Cc}\u2028\u2029\u202A-\u202E\u2066-\u2069]*$/u;

/** One line that a person typed, digits and all: a telephone number may look like a card's. */
export const typedLine = (most: number) =>
  z
    .string()
    .trim()
    .min(1)
    .max(most)
    .regex(PLAIN, "must be plain text on one line, without control characters");

/** One line of text a person typed: trimmed, 1 to `most` characters, no control or direction marks, no card. */
export const plainText = (most: number) =>
  typedLine(most).refine(
    (text) => !looksLikeCardNumber(text),
    "looks like a card number, and none is ever kept here; note only that a card was used",
  );

const SLUG = /^[a-z0-9]+(?:-[a-z0-9]+)*$/;

/** A short name for a web address: lower-case letters and digits, parts joined by single hyphens. */
export const slug = () =>
  z.string().min(1).max(32).regex(SLUG, "must be lower-case letters and digits joined by single hyphens");

/** An RFC 3339 instant with its offset, "2027-05-01T13:05:09Z". */
export const instant = () => z.iso.datetime({ offset: true });

/** The languages the conversation is written in, as BCP 47 tags. */
export const Language = z.enum(["en", "es"]).meta({ id: "Language", description: "BCP 47 language tag" });
export type Language = z.infer<typeof Language>;
