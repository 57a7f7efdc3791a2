import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import addFormats from "ajv-formats";
import { describe, expect, it } from "vitest";
import { z } from "zod";
import { Plan } from "../../src/model/planning/plan-answer.ts";
import { PlanRequest } from "../../src/model/planning/plan-request.ts";
import { planned } from "./planned.ts";

function validator(schema: z.ZodType, io: "input" | "output") {
  const ajv = new Ajv2020({ strict: true, allowUnionTypes: true });
  addFormats(ajv);
  return ajv.compile(z.toJSONSchema(schema, { io, target: "draft-2020-12" }));
}

describe("the schemas as JSON Schema 2020-12", () => {
  const example: unknown = JSON.parse(
    readFileSync(new URL("../../examples/plan.json", import.meta.url), "utf8"),
  );

  it("accept the example request and refuse what the request's own schema refuses", () => {
    const valid = validator(PlanRequest, "input");
    expect(valid(example)).toBe(true);
    expect(valid({ blanks: [], offers: [] })).toBe(false);
    expect(valid({ ...z.looseObject({}).parse(example), scenarios: 5 })).toBe(false);
  });

  it("describe the plan that comes back", () => {
    const valid = validator(Plan, "output");
    expect(valid(planned({ ...PlanRequest.parse(example), scenarios: 100 }))).toBe(true);
  });
});
