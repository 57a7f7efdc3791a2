/** A scannable code in the terminal. */
import { encode } from "uqr";

// ISO/IEC 18004 asks for four light modules around a code.
const QUIET = 4;

/**
 * The code of a text as lines of half blocks, two rows of modules a line. Light modules are drawn, dark ones
 * left out, so that it reads on the dark ground most terminals have.
 */
export function terminalCode(text: string): string {
  const { data } = encode(text, { ecc: "M", border: QUIET });
  const light = (row: number, column: number): boolean => !(data[row]?.[column] ?? false);
  const lines: string[] = [];
  for (let row = 0; row < data.length; row += 2) {
    const characters = (data[row] ?? []).map((_, column) => {
      const upper = light(row, column);
      const lower = row + 1 < data.length && light(row + 1, column);
      return upper && lower ? "█" : upper ? "▀" : lower ? "▄" : " ";
    });
    lines.push(characters.join(""));
  }
  return lines.join("\n");
}
