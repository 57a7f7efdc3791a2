/** One visual language: every style takes its sizes, colours and lines from the tokens. */
import { globSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const root = fileURLToPath(new URL("../../src/screens/", import.meta.url));
const TOKENS = "styles/parts/tokens.css";
const files = globSync("styles/**/*.css", { cwd: root }).sort();
const css = new Map(
  files.map((file) => [file, readFileSync(root + file, "utf8").replaceAll(/\/\*.*?\*\//gs, "")]),
);
const tokens = css.get(TOKENS) ?? "";
/** The lines of all styles but those of some files, each with its file, that a pattern finds. */
const found = (pattern: RegExp, ...but: readonly string[]): readonly string[] =>
  [...css].flatMap(([file, text]) =>
    but.includes(file)
      ? []
      : text
          .split("\n")
          .filter((line) => pattern.test(line))
          .map((line) => `${file}: ${line.trim()}`),
  );

/** The board's numbers are as large as its window allows: their height is worked out there. */
const FITTED = /font-size: var\(--digits\);/;

it("has no colour but those of the tokens", () => {
  expect(files).toContain(TOKENS);
  const NAMES = "white|black|red|green|blue|yellow|orange|gr[ae]y|brown|silver|gold";
  const COLOUR = new RegExp(`#[0-9a-f]{3,8}\\b|\\b(?:rgb|hsl|oklch|lab)a?\\(|: (?:${NAMES})\\b`, "i");
  // Only text between braces: a selector may look like a colour (#add).
  const coloured = [...css].flatMap(([file, text]) =>
    [...text.matchAll(/\{([^{}]*)\}/g)]
      .filter(([, body = ""]) => file !== TOKENS && COLOUR.test(body))
      .map(([, body = ""]) => `${file}: ${body.trim()}`),
  );
  expect(COLOUR.test("background: #fffdf5;") && COLOUR.test("color: white;")).toBe(true);
  expect(coloured).toEqual([]);
});

it("has seven sizes of type and no others", () => {
  const sizes = new Set([...tokens.matchAll(/(--t\d):/g)].map(([, name]) => name));
  expect([...sizes].sort()).toEqual(["--t0", "--t1", "--t2", "--t3", "--t4", "--t5", "--t6"]);
  const odd = found(/font-size:/).filter((line) => !/font-size: (?:var\(--t[0-6]\)|inherit);/.test(line));
  expect(odd.filter((line) => !(line.startsWith("styles/board.css") && FITTED.test(line)))).toEqual([]);
  expect(found(/\bfont: (?!inherit|400 var\(--t1\))/, TOKENS)).toEqual([]);
  // Only the tokens' own file says how large they are.
  expect(found(/^\s*--t\d:/, TOKENS)).toEqual([]);
});

it("draws a dashed line only where something is torn", () => {
  expect(found(/\b(?:dashed|dotted)\b/, "styles/parts/perforation.css")).toEqual([]);
});

it("says sides by the direction of reading", () => {
  const sides = /\b(?:margin|padding|border)-(?:left|right)\b|^\s*(?:left|right):|text-align: (?:left|right)/;
  expect(found(sides)).toEqual([]);
});

it("uses no token that nothing sets", () => {
  const scripts = globSync("client/**/*.{ts,tsx}", { cwd: root }).map((file) =>
    readFileSync(root + file, "utf8"),
  );
  const set = new Set(
    [...css.values()].flatMap((text) => [...text.matchAll(/(--[\w-]+):/g)].map(([, name]) => name)),
  );
  for (const text of scripts)
    for (const [given] of text.matchAll(/setProperty\("--[\w-]+"|style=\{\{[\s\S]*?\}\}/g))
      for (const [, name] of given.matchAll(/"(--[\w-]+)"/g)) set.add(name);
  const used = [...css].flatMap(([file, text]) =>
    [...text.matchAll(/var\((--[\w-]+)/g)].map(([, name]) => [file, name] as const),
  );
  expect(used.filter(([, name]) => !set.has(name))).toEqual([]);
});

it("keeps yellow for what is ready or needs somebody", () => {
  const users = found(/var\(--mark\)/, TOKENS).map((line) => line.split(":")[0]);
  const rules = [...css].flatMap(([file, text]) =>
    [...text.matchAll(/([^{}]+)\{([^{}]*var\(--mark\)[^{}]*)\}/g)].map(([, selector]) => [
      file,
      selector?.trim(),
    ]),
  );
  expect(users.length).toBeGreaterThan(0);
  const MEANING = /ready|needs-you|open-now|swamped|gone-quiet|unsent|conflicts/;
  expect(rules.filter(([, selector]) => !MEANING.test(selector ?? ""))).toEqual([]);
});

/** WCAG 2.2, relative luminance and contrast ratio (definitions of both, https://www.w3.org/TR/WCAG22/). */
function contrast(one: string, other: string): number {
  const luminance = (hex: string): number => {
    const [r = 0, g = 0, b = 0] = [1, 3, 5]
      .map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255)
      .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

it("can be read by day and by night: 7 to 1 for what is read, as WCAG 2.2 asks at level AAA", () => {
  expect(contrast("#ffffff", "#000000")).toBeCloseTo(21, 6);
  const [day = "", night = ""] = tokens.split('[data-theme="night"]');
  const read = (text: string) =>
    new Map([...text.matchAll(/(--[\w-]+): (#[0-9a-f]{6});/g)].map(([, name = "", hex = ""]) => [name, hex]));
  const PAIRS = [
    ["--ink", "--paper"],
    ["--ink", "--sheet"],
    ["--ink", "--tag"],
    ["--ink", "--info"],
    ["--ink-2", "--paper"],
    ["--ink-2", "--sheet"],
    ["--on-action", "--action"],
    ["--action", "--paper"],
    ["--on-mark", "--mark"],
    ["--good", "--paper"],
    ["--stop", "--paper"],
    ["--stop", "--sheet"],
  ] as const;
  for (const theme of [read(day), new Map([...read(day), ...read(night.split("@media print")[0] ?? "")])])
    for (const [ink, paper] of PAIRS) {
      const ratio = contrast(theme.get(ink) ?? "", theme.get(paper) ?? "");
      expect([ink, paper, ratio >= 7]).toEqual([ink, paper, true]);
    }
});
