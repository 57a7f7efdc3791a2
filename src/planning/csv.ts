/** Tables as RFC 4180 text. */
import Papa from "papaparse";

/** Words may hold anything: one that a spreadsheet would run as a formula is kept a word by an apostrophe. */
const word = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);

export const csv = (
  fields: readonly string[],
  data: readonly (readonly (string | number | null)[])[],
): string =>
  `${Papa.unparse(
    {
      fields: [...fields],
      data: data.map((row) => row.map((cell) => (typeof cell === "string" ? word(cell) : cell))),
    },
    { newline: "\r\n" },
  )}\r\n`;
