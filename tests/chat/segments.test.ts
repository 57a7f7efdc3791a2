import fc from "fast-check";
import split from "split-sms";
import { describe, expect, it } from "vitest";
import { inTextAlphabet, outsideTextAlphabet, septetsOf } from "../../src/chat/fitting/alphabet.ts";
import { segments } from "../../src/chat/fitting/segments.ts";

const GSM =
  "@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà";

const gsmText = fc.string({ unit: fc.constantFrom(...GSM, ..."^{}\\[~]|€"), maxLength: 500 });
const anyText = fc.string({ unit: "binary", maxLength: 200 });
// Long runs near the limits, with wide characters at the end of a segment.
const nearLimits = fc
  .tuple(fc.constantFrom(66, 67, 69, 70, 133, 134, 151, 152, 153, 159, 160, 305, 306), gsmText, anyText)
  .chain(([n, gsm, any]) => fc.constantFrom("a".repeat(n) + gsm, "á".repeat(n) + any, "a".repeat(n) + any));

describe("segments", () => {
  it("agrees with an independent library (split-sms 0.1.7, MIT) on 3,000 strings", () => {
    const compare = (text: string): void => {
      // Known difference by design: none here; both give one part for an empty text.
      const theirs = split.split(text);
      const ours = segments(text);
      expect(ours.alphabet === "GSM-7").toBe(theirs.characterSet === "GSM");
      expect(ours.parts).toBe(theirs.parts.length);
      expect(ours.units).toBe(ours.alphabet === "GSM-7" ? theirs.bytes : theirs.bytes / 2);
    };
    for (const texts of [gsmText, anyText, nearLimits]) {
      fc.assert(fc.property(texts, compare), { numRuns: 1000, seed: 20270501 });
    }
  });

  it("counts every character of the basic plane as that library does", () => {
    for (let code = 0; code < 0x10000; code++) {
      if (code >= 0xd800 && code <= 0xdfff) continue;
      const character = String.fromCodePoint(code);
      const septets = septetsOf(character);
      const theirs = split.split(character);
      if (septets === undefined) expect(theirs.characterSet, `U+${code.toString(16)}`).toBe("Unicode");
      else expect([theirs.characterSet, theirs.bytes]).toEqual(["GSM", septets]);
    }
  });
});

describe("writing in the text alphabet", () => {
  it("leaves nothing that would turn a text into UCS-2, and nothing twice changed", () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const written = inTextAlphabet(text);
        expect(segments(written).alphabet).toBe("GSM-7");
        expect(inTextAlphabet(written)).toBe(written);
      }),
      { seed: 20270501, numRuns: 500 },
    );
  });

  it.each([
    ["¿Qué talla? ñandú, é ü", "¿Qué talla? ñandu, é ü"],
    ["áíóú ÁÍÓÚ", "aiou AIOU"],
    ["“Ship’s” – 5 … ç", '"Ship\'s" - 5 ... c'],
    ["Tee 👕👕 L", "Tee ? L"],
    ["a\u00a0b\u202fc", "a b c"],
    ["\u202e1\u202c", "1"],
    ["Łódź œuf ½", "Lodz oeuf ?"],
  ])("writes %j as %j", (text, written) => {
    expect(inTextAlphabet(text)).toBe(written);
  });

  it("names the characters a stall typed that texts do not have", () => {
    expect(outsideTextAlphabet("Ñandú “real”")).toEqual(["ú", "“", "”"]);
  });
});
