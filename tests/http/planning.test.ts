import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { Client } from "../../src/local/client.ts";
import type { LoadedFair } from "../../src/local/example.ts";
import type { Problem } from "../../src/model/basics/problem.ts";
import { PitchPlan } from "../../src/model/planning/pitch.ts";
import { Plan } from "../../src/model/planning/plan-answer.ts";
import { PowerPlan } from "../../src/model/planning/power.ts";
import { PressesPlan } from "../../src/model/planning/presses.ts";
import { SheetPlan } from "../../src/model/planning/sheets.ts";
import { example, type Running, start } from "./running.ts";

type Json = Record<string, unknown>;
const request = (name: string): Json =>
  JSON.parse(readFileSync(new URL(`../../examples/${name}.json`, import.meta.url), "utf8")) as Json; // objects all
const plan = { ...request("plan"), scenarios: 100 };

let open: Running;
beforeAll(async () => {
  open = await start({ OPEN_PLANNING: "yes" });
});
afterAll(() => open.stop());

describe("planning by request", () => {
  it("answers the example of each kind", async () => {
    // One after the other: the worker plans one thing at a time.
    const answers = [
      await open.anyone.post("/v1/plans", plan),
      await open.anyone.post("/v1/sheets", { ...request("sheets"), steps: 500_000 }),
      await open.anyone.post("/v1/power", request("power")),
      await open.anyone.post("/v1/pitch", request("pitch")),
      await open.anyone.post("/v1/presses", request("presses")),
    ];
    expect(answers.map(({ status }) => status)).toEqual([200, 200, 200, 200, 200]);
    const [brought, sheets, power, pitch, presses] = answers.map(({ body }) => body);
    expect(Plan.parse(brought).bring.skus.some(({ bring }) => bring > 0)).toBe(true);
    expect(SheetPlan.parse(sheets).transfers.every(({ missing }) => missing === 0)).toBe(true);
    expect(PowerPlan.parse(power).cautions.length).toBeGreaterThan(0);
    expect(PitchPlan.parse(pitch).cautions.length).toBeGreaterThan(0);
    expect(PressesPlan.parse(presses).combinations.length).toBe(3 * 2 * 4);
  });

  it("answers the whole plan as a table if that is asked for", async () => {
    const table = await open.anyone.post<string>("/v1/plans", plan, { accept: "text/csv" });
    expect(table.status).toBe(200);
    expect(table.headers.get("content-type")).toMatch(/^text\/csv/);
    expect(table.body.split("\r\n")[0]).toBe("part,of,figure,value,unit");
    const fault = await open.anyone.post<Problem>("/v1/plans", { ...plan, seed: -1 }, { accept: "text/csv" });
    expect(fault.body.errors?.[0]?.pointer).toBe("#/seed");
  });

  it("names every fault by its pointer, with what would mend it", async () => {
    const wrongShape = await open.anyone.post<Problem>("/v1/plans", { ...plan, patienceMinutes: -3 });
    expect(wrongShape.status).toBe(422);
    expect(wrongShape.body).toMatchObject({ type: "/problems/plan-faults" });
    expect(wrongShape.body.errors?.[0]?.pointer).toBe("#/patienceMinutes");
    expect(wrongShape.body.errors?.[0]?.detail).toContain("at least 0");

    const noWeight = await open.anyone.post<Problem>("/v1/plans", {
      ...plan,
      weather: [{ name: "dry", chance: 0, crowd: 1 }],
    });
    expect(noWeight.status).toBe(422);
    expect(noWeight.body.errors?.map(({ pointer }) => pointer)).toEqual(["#/weather"]);
  });

  it.each([
    ["sheets", { designs: [{ id: "wide", name: "Wide", width: 60, height: 60, count: 1 }] }],
    ["power", { hours: -1 }],
    ["presses", { handling: [] }],
    ["pitch", { pitch: { width: { value: -10, unit: "ft" }, depth: { value: 10, unit: "ft" } } }],
  ])("refuses %s that make no sense", async (name, wrong) => {
    const { status, body } = await open.anyone.post<Problem>(`/v1/${name}`, { ...request(name), ...wrong });
    expect(status).toBe(422);
    expect(body.errors?.[0]?.pointer).toMatch(/^#\//);
    expect(body.errors?.[0]?.detail).toMatch(/; /);
  });
});

describe("planning if it is not open to all", () => {
  let closed: Running;
  let fair: LoadedFair;
  beforeAll(async () => {
    closed = await start();
    fair = await example(closed);
  });
  afterAll(() => closed.stop());

  const asked = async (path: string, key: string | null) =>
    (await new Client(closed.url, key ?? undefined).post(path, request("power"))).status;

  it("wants the owner's secret, or a key with the place it is signed for", async () => {
    const [tern, gannet] = fair.stalls;
    const atFair = `/v1/power?fair=${fair.fair}`;
    expect(await asked("/v1/power", null)).toBe(401);
    expect((await closed.owner.post("/v1/power", request("power"))).status).toBe(200);
    expect(await asked(atFair, fair.key)).toBe(200);
    expect(await asked("/v1/power", fair.key)).toBe(403);
    expect(await asked(`${atFair}&stall=${tern?.stall}`, tern?.key ?? "")).toBe(200);
    expect(await asked(`${atFair}&stall=${gannet?.stall}`, tern?.key ?? "")).toBe(403);
  });
});
