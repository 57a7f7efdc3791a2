/** Every fault of a request at once, each with its place and how to fix it. */
import type { SheetDesign, SheetFault, SheetRequest, SheetSize } from "../../model/planning/sheets.ts";

const MOST_KINDS = 200;
const MOST_TRANSFERS = 5_000;
const MOST_SIZES = 20;
const MOST_INCHES = 1_000;
const MOST_MONEY = 1_000_000_000;
const MOST_STEPS = 1_000_000_000;

export function faultsOf(request: SheetRequest): SheetFault[] {
  const faults: SheetFault[] = [];
  const say = (pointer: string, fault: string, mend: string) => faults.push({ pointer, fault, mend });
  const { designs, sheets, unit } = request;

  if (designs.length === 0) say("/designs", "there is no design", "list at least one design");
  if (designs.length > MOST_KINDS) {
    say(
      "/designs",
      `${designs.length} designs are more than ${MOST_KINDS} kinds`,
      "plan them in several requests",
    );
  }
  const total = designs.reduce((sum, design) => sum + Math.max(0, design.count), 0);
  if (total > MOST_TRANSFERS) {
    say(
      "/designs",
      `${total} transfers are more than ${MOST_TRANSFERS}`,
      "plan them in several requests, or lower the counts",
    );
  }
  if (sheets.length === 0)
    say("/sheets", "there is no sheet size", "list at least one sheet size with its prices");
  if (sheets.length > MOST_SIZES)
    say("/sheets", `${sheets.length} sheet sizes are more than ${MOST_SIZES}`, "leave some out");
  repeated(designs, "/designs", say);
  repeated(sheets, "/sheets", say);

  // Past these limits every design would repeat the same story; the first few say enough.
  const looked = designs.slice(0, MOST_KINDS);
  for (const [at, design] of looked.entries()) ofDesign(design, `/designs/${at}`, request, say);
  for (const [at, size] of sheets.slice(0, MOST_SIZES).entries()) ofSize(size, `/sheets/${at}`, unit, say);
  if (!isMoney(request.extraLayoutPrice)) {
    say(
      "/extraLayoutPrice",
      "the price of an extra layout is not a whole number from 0",
      "give it in minor units, such as cents; 0 where it costs nothing",
    );
  }
  if (!Number.isInteger(request.steps) || request.steps < 1_000 || request.steps > MOST_STEPS) {
    say(
      "/steps",
      `${request.steps} is not a step budget`,
      `give a whole number from 1000 to ${MOST_STEPS}, or leave it out`,
    );
  }
  if (!Number.isInteger(request.seed))
    say("/seed", "the seed is not a whole number", "give a whole number, or leave it out");
  ofQuestion(request, total, say);
  if (faults.length === 0) tooLarge(request, say);
  return faults;
}

type Say = (pointer: string, fault: string, mend: string) => void;

const isMoney = (amount: number) => Number.isInteger(amount) && amount >= 0 && amount <= MOST_MONEY;

function repeated(list: readonly { readonly id: string }[], pointer: string, say: Say): void {
  const seen = new Map<string, number>();
  list.forEach(({ id }, at) => {
    const first = seen.get(id);
    if (first === undefined) seen.set(id, at);
    else say(`${pointer}/${at}/id`, `"${id}" is also the id of ${pointer}/${first}`, "give each its own id");
  });
}

function ofLength(
  value: number,
  pointer: string,
  what: string,
  unit: string,
  leastIsZero: boolean,
  say: Say,
): void {
  const most = unit === "in" ? MOST_INCHES : MOST_INCHES * 2.54;
  if (leastIsZero ? value < 0 : value <= 0) {
    say(
      pointer,
      `${what} ${value} is ${value === 0 ? "zero" : "negative"}`,
      leastIsZero ? "give 0 or more" : "give a size above 0",
    );
  } else if (value > most) {
    say(pointer, `${what} ${value} ${unit} is more than ${most} ${unit}`, "check the unit of the request");
  } else if (!leastIsZero && value < 0.01)
    say(pointer, `${what} ${value} ${unit} is too small to cut`, "check the unit of the request");
}

function ofDesign(design: SheetDesign, pointer: string, { unit, question }: SheetRequest, say: Say): void {
  ofLength(design.width, `${pointer}/width`, "width", unit, false, say);
  ofLength(design.height, `${pointer}/height`, "height", unit, false, say);
  if (!Number.isInteger(design.count) || design.count < (question.ask === "affordable" ? 1 : 0)) {
    say(
      `${pointer}/count`,
      `${design.count} transfers cannot be wanted`,
      "give a whole number; leave out a design that is not wanted",
    );
  }
  if (
    design.valueOfOneMore !== undefined &&
    (design.valueOfOneMore < 0 || design.valueOfOneMore > MOST_MONEY)
  ) {
    say(
      `${pointer}/valueOfOneMore`,
      "the value of one more is negative or absurd",
      "give minor units from 0, or leave it out",
    );
  }
}

function ofSize(size: SheetSize, pointer: string, unit: string, say: Say): void {
  ofLength(size.width, `${pointer}/width`, "width", unit, false, say);
  ofLength(size.height, `${pointer}/height`, "height", unit, false, say);
  ofLength(size.margin, `${pointer}/margin`, "margin", unit, true, say);
  ofLength(size.gap, `${pointer}/gap`, "gap", unit, true, say);
  const shorter = Math.min(size.width, size.height);
  if (size.width > 0 && size.height > 0) {
    if (size.gap >= shorter) {
      say(
        `${pointer}/gap`,
        `the gap ${size.gap} ${unit} is as large as the sheet, ${shorter} ${unit}`,
        `give less than ${shorter} ${unit}; a quarter inch is common`,
      );
    }
    if (2 * size.margin >= shorter) {
      say(
        `${pointer}/margin`,
        `two margins of ${size.margin} ${unit} leave nothing of ${shorter} ${unit}`,
        `give less than ${shorter / 2} ${unit}`,
      );
    }
  }
  const least = size.minimumCopies;
  const wholeLeast = Number.isInteger(least) && least >= 1 && least <= 100_000;
  if (!wholeLeast)
    say(`${pointer}/minimumCopies`, `${least} is not a number of copies`, "give a whole number from 1");
  const [first] = size.prices;
  if (!first)
    say(
      `${pointer}/prices`,
      "the price table is empty",
      "give at least one line: copies and price per sheet",
    );
  else if (wholeLeast && first.copies > least) {
    say(
      `${pointer}/prices/0/copies`,
      `there is no price for ${least} to ${first.copies - 1} copies`,
      `start the table at ${least} copies, or set minimumCopies to ${first.copies}`,
    );
  }
  size.prices.forEach((line, at) => {
    const here = `${pointer}/prices/${at}`;
    const before = size.prices[at - 1];
    if (!Number.isInteger(line.copies) || line.copies < 1 || line.copies > 100_000) {
      say(`${here}/copies`, `${line.copies} is not a number of copies`, "give a whole number from 1");
    } else if (before && line.copies <= before.copies) {
      say(
        `${here}/copies`,
        `${line.copies} copies come after ${before.copies}`,
        "put the lines in rising order of copies, each number once",
      );
    }
    if (!isMoney(line.price) || line.price === 0) {
      say(
        `${here}/price`,
        `${line.price} is not a price per sheet`,
        "give minor units, such as cents, above 0",
      );
    } else if (before && line.price > before.price) {
      say(
        `${here}/price`,
        `the price rises from ${before.price} to ${line.price} with more copies`,
        "check the table: more copies should not cost more each",
      );
    }
  });
}

function ofQuestion({ question, designs }: SheetRequest, total: number, say: Say): void {
  if (question.ask !== "affordable") {
    if (total === 0) say("/designs", "no transfer is wanted", "give at least one design a count");
    return;
  }
  const { sheets, money } = question;
  if (sheets === undefined && money === undefined) {
    say("/question", "it is not said what can be afforded", "give sheets, money, or both");
  }
  const valued = designs.filter((design) => design.valueOfOneMore !== undefined).length;
  if (valued > 0 && valued < designs.length) {
    const at = designs.findIndex((design) => design.valueOfOneMore === undefined);
    say(
      `/designs/${at}/valueOfOneMore`,
      "some designs have a value and this one has none",
      "give every design a value, or none",
    );
  }
  if (sheets !== undefined && (!Number.isInteger(sheets) || sheets < 1 || sheets > 100_000)) {
    say("/question/sheets", `${sheets} is not a number of sheets`, "give a whole number from 1");
  }
  if (money !== undefined && (!isMoney(money) || money === 0)) {
    say("/question/money", `${money} is not an amount of money`, "give minor units, such as cents, above 0");
  }
}

/** Designs larger than every sheet: by how much on the sheet that is nearest, and whether turning helps. */
function tooLarge({ designs, sheets, unit }: SheetRequest, say: Say): void {
  designs.forEach((design, at) => {
    const over = sheets.map((size) => {
      const wide = size.width - 2 * size.margin;
      const high = size.height - 2 * size.margin;
      return {
        size,
        plain: Math.max(design.width - wide, design.height - high),
        turned: Math.max(design.height - wide, design.width - high),
      };
    });
    if (over.some(({ plain, turned }) => plain <= 1e-9 || (design.mayTurn && turned <= 1e-9))) return;
    const nearest = over.reduce((a, b) =>
      Math.min(b.plain, b.turned) < Math.min(a.plain, a.turned) ? b : a,
    );
    const size = `${design.width} x ${design.height} ${unit}`;
    if (nearest.turned <= 1e-9) {
      say(
        `/designs/${at}/mayTurn`,
        `"${design.name}" (${size}) is ${shown(nearest.plain)} ${unit} too large for every sheet as it is, but fits "${nearest.size.name}" turned`,
        "allow it to be turned",
      );
      return;
    }
    const missing = Math.min(nearest.plain, nearest.turned);
    say(
      `/designs/${at}`,
      `"${design.name}" (${size}) is ${shown(missing)} ${unit} too large for "${nearest.size.name}" inside its margins, turned or not`,
      `make it ${shown(missing)} ${unit} smaller, or add a larger sheet`,
    );
  });
}

const shown = (length: number) => String(Number(length.toFixed(3)));
