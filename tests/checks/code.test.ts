/**
 * ISO/IEC 18004: a code reads back to the exact text. Read by jsqr 1.4.0 (Apache-2.0), a decoder that
 * shares nothing with the encoder.
 */
import jsQR from "jsqr";
import { describe, expect, it } from "vitest";
import { terminalCode } from "../../src/local/code.ts";

const MODULE_PIXELS = 4;

/** The terminal's output as pixels: light half blocks on a dark ground. */
function pixels(drawn: string): { data: Uint8ClampedArray; side: number; height: number } {
  const rows = drawn
    .split("\n")
    .flatMap((line) => [
      [...line].map((character) => character === "█" || character === "▀"),
      [...line].map((character) => character === "█" || character === "▄"),
    ]);
  const side = (rows[0]?.length ?? 0) * MODULE_PIXELS;
  const height = rows.length * MODULE_PIXELS;
  const data = new Uint8ClampedArray(side * height * 4);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < side; x++) {
      const light = rows[Math.floor(y / MODULE_PIXELS)]?.[Math.floor(x / MODULE_PIXELS)] === true;
      data.set([light ? 255 : 0, light ? 255 : 0, light ? 255 : 0, 255], (y * side + x) * 4);
    }
  }
  return { data, side, height };
}

describe("a code in the terminal", () => {
  it.each([
    "http://192.168.1.20:8787/at/brackenfield/tern",
    "https://fair.example/crew/brackenfield/tern#key=crew.1.Zm9vYmFyYmF6cXV4Zm9vYmFyYmF6cXV4Zm9vYmFyYmF6",
    "sms:+12125550100?body=tern%20menu",
    "¿Talla M, ñandú azul? €12",
  ])("reads back as %s", (text) => {
    const { data, side, height } = pixels(terminalCode(text));
    expect(jsQR(data, side, height)?.data).toBe(text);
  });
});
