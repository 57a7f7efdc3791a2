import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { describe, expect, it } from "vitest";
import { schemaFiles } from "../../src/model/schema-files.ts";
import { exampleMenu } from "../stall/test-stall.ts";

const folder = fileURLToPath(new URL("../../schemas", import.meta.url));
const examples = fileURLToPath(new URL("../../examples", import.meta.url));
const json = (file: string): unknown => JSON.parse(readFileSync(file, "utf8"));

/** Draft 2020-12 as ajv 8 (MIT) knows it, in its strict mode. */
const checker = () => {
  const ajv = new Ajv2020({ strict: true, allowUnionTypes: true });
  addFormats["default"](ajv);
  return ajv;
};

describe("the schema files", () => {
  it("are exactly what `npm run schemas` would write", () => {
    const made = new Map(schemaFiles());
    expect(readdirSync(folder).sort()).toEqual([...made.keys()].sort());
    for (const [name, text] of made) expect(readFileSync(`${folder}/${name}`, "utf8"), name).toBe(text);
  });
  it.each(schemaFiles().map(([name]) => name))("%s is a valid draft 2020-12 schema", (name) => {
    expect(() => checker().compile(json(`${folder}/${name}`) as object)).not.toThrow();
  });
  it("accept the examples and refuse what the worker would refuse", () => {
    const menu = checker().compile(json(`${folder}/menu.json`) as object);
    const whole = json(`${examples}/tern/menu.json`) as Record<string, unknown>;
    expect(menu(whole), JSON.stringify(menu.errors)).toBe(true);
    expect(menu({ ...whole, offers: [] })).toBe(false);
    expect(menu({ ...whole, colour: "navy" })).toBe(false);
    const fair = checker().compile(json(`${folder}/fair.json`) as object);
    expect(fair(json(`${examples}/fair.json`)), JSON.stringify(fair.errors)).toBe(true);
  });
  it.each([
    ["plan-request", "plan"],
    ["sheets-request", "sheets"],
    ["presses-request", "presses"],
    ["power-request", "power"],
    ["pitch-request", "pitch"],
  ])("%s.json accepts the example", (schema, example) => {
    const valid = checker().compile(json(`${folder}/${schema}.json`) as object);
    expect(valid(json(`${examples}/${example}.json`)), JSON.stringify(valid.errors)).toBe(true);
  });
  it("agree with the parsed menu, defaults filled in", () => {
    expect(exampleMenu().rules.holdMinutes).toBe(3);
  });
});
