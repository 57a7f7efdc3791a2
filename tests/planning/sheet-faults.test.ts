import { describe, expect, test } from "vitest";
import { SheetRequest } from "../../src/model/planning/sheets.ts";
import { planSheets } from "../../src/planning/sheets/sheets.ts";
import { COMMON_SHEET } from "./ganging.ts";

const front = { id: "front", name: "heron front", width: 10, height: 11, count: 20 };

function faults(parts: object): Record<string, string> {
  const answer = planSheets(SheetRequest.parse({ designs: [front], sheets: [COMMON_SHEET], ...parts }));
  if (answer.kind !== "refused") throw new Error("the request was not refused");
  for (const { mend } of answer.faults) expect(mend).not.toBe("");
  return Object.fromEntries(answer.faults.map(({ pointer, fault }) => [pointer, fault]));
}

describe("requests that make no sense", () => {
  test("a design larger than every sheet says by how much, and whether turned it fits", () => {
    const wide = { ...front, width: 13, height: 10 };
    expect(faults({ designs: [{ ...wide, mayTurn: false }] })["/designs/0/mayTurn"]).toMatch(
      /2\.25 in too large .* fits "common sheet" turned/,
    );
    expect(faults({ designs: [{ ...front, width: 15, height: 12 }] })["/designs/0"]).toMatch(
      /1\.5 in too large .* turned or not/,
    );
    expect(planSheets(SheetRequest.parse({ designs: [wide], sheets: [COMMON_SHEET] })).kind).toBe("plan");
  });

  test("sizes of zero and below, and counts that are no counts", () => {
    const designs = [
      { ...front, width: 0 },
      { ...front, id: "b", height: -3 },
      { ...front, id: "c", count: 1.5 },
      { ...front, id: "d", count: -1 },
    ];
    expect(Object.keys(faults({ designs }))).toEqual([
      "/designs/0/width",
      "/designs/1/height",
      "/designs/2/count",
      "/designs/3/count",
    ]);
  });

  test("a gap or margins as large as the sheet", () => {
    expect(faults({ sheets: [{ ...COMMON_SHEET, gap: 12 }] })["/sheets/0/gap"]).toMatch(
      /as large as the sheet/,
    );
    expect(faults({ sheets: [{ ...COMMON_SHEET, margin: 6 }] })["/sheets/0/margin"]).toMatch(/leave nothing/);
  });

  test("too many kinds and too many transfers", () => {
    const designs = Array.from({ length: 10_000 }, (_, at) => ({ ...front, id: `d${at}` }));
    const answer = planSheets(SheetRequest.parse({ designs, sheets: [COMMON_SHEET] }));
    if (answer.kind !== "refused") throw new Error("not refused");
    expect(answer.faults.map(({ fault }) => fault)).toEqual([
      "10000 designs are more than 200 kinds",
      "200000 transfers are more than 5000",
    ]);
    expect(faults({ designs: [{ ...front, count: 5001 }] })["/designs"]).toMatch(/5001 transfers/);
  });

  test("price tables with holes, out of order, or without a price", () => {
    const prices = [
      { copies: 5, price: 900 },
      { copies: 20, price: 700 },
      { copies: 10, price: 0 },
      { copies: 30, price: 800 },
    ];
    expect(faults({ sheets: [{ ...COMMON_SHEET, prices }] })).toEqual({
      "/sheets/0/prices/0/copies": "there is no price for 1 to 4 copies",
      "/sheets/0/prices/2/copies": "10 copies come after 20",
      "/sheets/0/prices/2/price": "0 is not a price per sheet",
      "/sheets/0/prices/3/price": "the price rises from 0 to 800 with more copies",
    });
    expect(faults({ sheets: [{ ...COMMON_SHEET, prices: [] }] })["/sheets/0/prices"]).toMatch(/empty/);
  });

  test("all faults at once, each with its pointer", () => {
    const found = faults({
      designs: [front, { ...front, width: -1 }],
      sheets: [{ ...COMMON_SHEET, minimumCopies: 0 }],
      extraLayoutPrice: -5,
      steps: 3,
      seed: 0.5,
      question: { ask: "affordable" },
    });
    expect(Object.keys(found).sort()).toEqual([
      "/designs/1/id",
      "/designs/1/width",
      "/extraLayoutPrice",
      "/question",
      "/seed",
      "/sheets/0/minimumCopies",
      "/steps",
    ]);
  });

  test("nothing asked for", () => {
    expect(faults({ designs: [], sheets: [] })).toMatchObject({ "/sheets": "there is no sheet size" });
    expect(faults({ designs: [{ ...front, count: 0 }] })["/designs"]).toBe("no transfer is wanted");
  });
});
