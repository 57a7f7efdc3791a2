/** The papers of a plan that prints ahead: what it buys, packs and has printed, drawn and as CSV. */
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { PlanRequest } from "../../../src/model/planning/plan-request.ts";
import { SheetRequest } from "../../../src/model/planning/sheets.ts";
import { organiserSheet } from "../../../src/planning/organiser-sheet.ts";
import { planFair } from "../../../src/planning/plan.ts";
import { planSheets } from "../../../src/planning/sheets/sheets.ts";
import { type Json, rowsAt, valueAt, withValue } from "../../../src/screens/client/kit/json-pointer.ts";
import { FIRST } from "../../../src/screens/client/plan/day/first.ts";
import { fromPlan, sheetsFor } from "../../../src/screens/client/plan/day/parts.ts";
import { namesIn } from "../../../src/screens/client/plan/groups/names.ts";
import {
  blankLines,
  blanksCsv,
  layoutLines,
  transferLines,
  transfersCsv,
} from "../../../src/screens/client/plan/papers/orders.ts";
import {
  organiserCsv,
  packedCsv,
  packingOf,
  questionsCsv,
} from "../../../src/screens/client/plan/papers/packing.tsx";
import { inOneSentence } from "../../../src/screens/client/plan/results/plan.tsx";

const request = [
  ["#/way", "print-ahead"],
  ["#/scenarios", 100],
  ["#/traffic/passersBy", 600],
].reduce((all, [pointer, value]) => withValue(all, String(pointer), value), FIRST.plan);
const outcome = planFair(PlanRequest.parse(request));
if (!outcome.ok) throw new Error("the day cannot be planned");
const plan = outcome.value;

describe("printing ahead", () => {
  const made = plan.bring.ready.reduce((sum, { bring }) => sum + bring, 0);

  it("orders the blanks, at the money of the plan together with the transfers", () => {
    const lines = blankLines(plan, request);
    const pieces = lines.reduce((sum, line) => sum + line.pieces, 0);
    expect(made).toBeGreaterThan(0);
    expect(pieces).toBeGreaterThanOrEqual(made);
    const transfers = plan.bring.shopping.filter(({ kind }) => kind === "transfer");
    const paid = [...lines.map(({ total }) => total), ...transfers.map(({ cost }) => cost)];
    expect(paid.reduce((sum, one) => sum + one, 0)).toBe(plan.bring.outlay);
    // A larger size costs more, as typed.
    expect(new Set(lines.filter(({ size }) => size === "2XL").map(({ each }) => each))).toEqual(
      new Set([550]),
    );
  });

  it("has the sheets printed, and says what is brought", () => {
    const day = { ...FIRST, plan: request };
    const [design] = rowsAt(sheetsFor(day, fromPlan(day, plan)), "#/designs");
    expect(valueAt(design ?? null, "#/count")).toBeGreaterThanOrEqual(made);
    expect(inOneSentence(plan)).toContain(`; bring ${made} garments printed ahead.`);
  });
});

const rowsIn = (text: string) =>
  Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true }).data;

describe("the papers", () => {
  const renamed = withValue(request, "#/blanks/0/name", "Heavy tee");
  const names = namesIn(renamed);

  it("order transfers line by line, as the print house charges them, with what is on each sheet", () => {
    const day = { ...FIRST, plan: request };
    const sent = [
      [
        "#/sheets",
        [
          {
            id: "strip",
            name: "Strip",
            width: 11,
            height: 22,
            margin: 0.25,
            gap: 0.25,
            prices: [{ copies: 1, price: 500 }],
          },
        ],
      ],
      ["#/designs/0/count", 5],
      ["#/extraLayoutPrice", 300],
    ].reduce(
      (all: Json, [at, value]) => withValue(all, String(at), value as Json),
      sheetsFor(day, fromPlan(day, plan)),
    );
    const sheets = planSheets(SheetRequest.parse(sent));
    if (sheets.kind !== "plan") throw new Error(JSON.stringify(sheets));
    const layouts = layoutLines(sheets, sent, names.designs);
    expect(layouts.reduce((sum, { total }) => sum + total, 0)).toBe(sheets.cost.total);
    expect(layouts[0]).toMatchObject({ size: "11 × 22 in", on: [{ design: "Our design", pieces: 2 }] });
    const rows = rowsIn(transfersCsv(layouts, transferLines(sheets, sent, request), "USD"));
    const made = rows.filter(({ line }) => line?.startsWith("on layout"));
    const all = made.reduce((sum, row) => sum + Number(row["pieces in all"]), 0);
    expect(all).toBe(Number(rows.find(({ line }) => line === "design")?.["pieces in all"]));
    expect(made[0]).toMatchObject({ name: "Our design", size: "10 × 10 in", "pieces on a sheet": "2" });
  });

  it("order blanks line by line, in whole packs, at sums that add up", () => {
    const lines = blankLines(plan, request);
    const rows = rowsIn(blanksCsv(lines, "USD"));
    expect(rows).toHaveLength(lines.length);
    for (const row of rows) {
      expect(Number(row["packs"]) * Number(row["pieces a pack"])).toBeGreaterThanOrEqual(
        Number(row["pieces"]),
      );
      expect(row["total, USD"]).toBe((Number(row["pieces"]) * Number(row["each, USD"])).toFixed(2));
    }
  });

  it("ask what moves the profit most first, by sums rounded to what the imagined days know", () => {
    const sums = rowsIn(questionsCsv(plan)).flatMap(
      ({ why }) => /profit by (.+)$/.exec(why ?? "")?.[1] ?? [],
    );
    expect(sums.length).toBeGreaterThan(5);
    for (const sum of sums) expect(sum).toMatch(/^\$[\d,]+$/);
    const figures = sums.map((sum) => Number(sum.replace(/[$,]/g, "")));
    expect(figures).toEqual([...figures].sort((one, other) => other - one));
  });

  it("tell the organiser needs, questions and the day in whole quarter hours, a row each, and no formula", () => {
    const sheet = organiserSheet({
      stall: "Our stall",
      fair: "=1+1",
      opens: "10:00",
      closes: "18:00",
      pitch: null,
      power: null,
    });
    const reason = { ...sheet, pitch: ["=cmd", "A pitch 3 m wide."] };
    const rows = rowsIn(organiserCsv(reason));
    const part = (name: string) => rows.filter((row) => row["part"] === name);
    expect(part("need").map(({ what }) => what)).toEqual(["'=cmd", "A pitch 3 m wide."]);
    expect(part("question")).toHaveLength(sheet.questions.length);
    expect(part("our day").map(({ about, what }) => `${about} ${what}`)).toEqual(
      sheet.timetable.map(({ at, what }) => `${at} ${what}`),
    );
    for (const { about } of part("our day")) expect(about).toMatch(/^\d\d:(?:00|15|30|45)$/);
  });

  it("pack every garment and transfer once, by the names of the plan", () => {
    const rows = rowsIn(packedCsv(packingOf(plan, names, null)));
    const bought = rows.filter((row) => row["where"]?.startsWith("To buy"));
    expect(bought.at(-1)?.["what"]).toBe("Our design, transfer");
    const packed = rows.filter((row) => /^Tee, decorated/.test(row["where"] ?? ""));
    expect(packed.reduce((sum, row) => sum + Number(row["pieces"]), 0)).toBe(plan.bring.pieces);
    expect(packed[0]?.["what"]).toBe("Tee, black, S, printed");
    // The blank and the product on it share a short name.
    expect(bought[0]?.["what"]).toBe("Heavy tee, black, S");
    expect(rows.some((row) => row["what"] === "fire extinguisher")).toBe(true);
  });
});
