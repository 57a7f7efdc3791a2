/**
 * Segment arithmetic against values worked by hand from 3GPP TS 23.038 and TS 23.040: 140 octets of user
 * data hold 160 septets (23.038, 6.1.2.1.1) or 70 UTF-16 units; a concatenated message spends 6 octets on
 * its header, leaving 153 septets or 67 units a part (23.040, 9.2.3.24.1).
 */
import { describe, expect, it } from "vitest";
import { segments } from "../../src/chat/fitting/segments.ts";

const TEE = "\u{1F455}";

describe("3GPP TS 23.038 and TS 23.040", () => {
  it.each([
    // 23.038, 6.2.1: one septet each; 160 septets in one message, then 153 a part.
    ["160 letters", "a".repeat(160), "GSM-7", 160, 1],
    ["161 letters", "a".repeat(161), "GSM-7", 161, 2],
    ["306 letters", "a".repeat(306), "GSM-7", 306, 2],
    ["307 letters", "a".repeat(307), "GSM-7", 307, 3],
    // 23.038, 6.2.1.1: a character of the extension table takes the escape and a second septet.
    ["80 euro signs", "€".repeat(80), "GSM-7", 160, 1],
    ["81 euro signs", "€".repeat(81), "GSM-7", 162, 2],
    ["every extension character", "\f^{}\\[~]|€", "GSM-7", 20, 1],
    // 23.040, 9.2.3.24.1: "A character represented by an escape-sequence shall not be split in the middle".
    ["an escape pair at the end of a part", `${"a".repeat(152)}€${"a".repeat(152)}`, "GSM-7", 306, 3],
    ["an escape pair that just fits", `${"a".repeat(151)}€${"a".repeat(152)}`, "GSM-7", 305, 2],
    ["76 euro signs a part", "€".repeat(152), "GSM-7", 304, 2],
    ["one euro sign more", "€".repeat(153), "GSM-7", 306, 3],
    // 23.038, 6.2.3: one character outside the alphabet turns the whole message into UCS-2.
    ["70 accented letters", "á".repeat(70), "UCS-2", 70, 1],
    ["71 accented letters", "á".repeat(71), "UCS-2", 71, 2],
    ["134 accented letters", "á".repeat(134), "UCS-2", 134, 2],
    ["135 accented letters", "á".repeat(135), "UCS-2", 135, 3],
    ["one curly quote among letters", `${"a".repeat(70)}’`, "UCS-2", 71, 2],
    // 23.040, 9.2.3.24.1: "A UCS2 character shall not be split in the middle".
    ["35 pictures of a shirt", TEE.repeat(35), "UCS-2", 70, 1],
    ["36 pictures of a shirt", TEE.repeat(36), "UCS-2", 72, 2],
    ["a surrogate pair at the end of a part", `${"á".repeat(66)}${TEE}${"á".repeat(66)}`, "UCS-2", 134, 3],
    // 23.038, 6.2.1: these Spanish letters and marks are in the alphabet; capital C with cedilla is, small is not.
    ["Spanish within the alphabet", "¿Qué talla? ñ Ñ ü é ¡", "GSM-7", 21, 1],
    ["capital C with cedilla", "Ç", "GSM-7", 1, 1],
    ["small c with cedilla", "ç", "UCS-2", 1, 1],
    ["nothing", "", "GSM-7", 0, 1],
  ] as const)("%s", (_, text, alphabet, units, parts) => {
    expect(segments(text)).toEqual({ alphabet, units, parts });
  });
});
