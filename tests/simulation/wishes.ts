/**
 * A fair with a known truth, played on the real `step`: what people want, how many passers-by buy, and popular stock
 * that runs out. The invented figures are round numbers, no source.
 */

import { drawPoisson } from "../../src/maths/counts.ts";
import { drawDirichlet } from "../../src/maths/dirichlet.ts";
import { standardNormal } from "../../src/maths/normal-draw.ts";
import { type Random, seededRandom } from "../../src/maths/random.ts";
import type { Lessons } from "../../src/model/accounts/lessons.ts";
import { jobId } from "../../src/model/basics/ids.ts";
import { Menu } from "../../src/model/menu/catalogue.ts";
import type { WantedLine } from "../../src/model/orders/order.ts";
import { StockEntry } from "../../src/model/orders/stock.ts";
import { lessonsOf } from "../../src/stall/day/lessons.ts";
import { step } from "../../src/stall/rules/step.ts";
import { accountDay } from "../../src/stall/state/account-day.ts";
import { type DayChoice, type DayRows, EMPTY_TOTALS } from "../../src/stall/state/day-rows.ts";
import { StallState } from "../../src/stall/state/state.ts";
import { ids } from "../ids.ts";
import { customerOf, OPENS } from "./stall.ts";

const HOUR = 3_600_000;
const SIZES = ["S", "M", "L", "XL", "2XL", "3XL"] as const;
const COLOURS = ["navy", "sand", "moss"] as const;
const OFFERS = ["heron", "otter", "kite"] as const;
const A = ids.press("A");

type Truth = {
  readonly sizes: readonly number[];
  readonly colours: readonly number[];
  readonly offers: readonly number[];
  /** Orders of a hundred who walk past. */
  readonly perHundred: number;
  readonly spoilage: number;
};

export type LivedFair = {
  readonly truth: Truth;
  readonly lessons: Lessons;
  /** Garments sold by size, in the order of `truth.sizes`. */
  readonly soldBySize: readonly number[];
  readonly askedBySize: readonly number[];
  /** Garments requested but not sold. */
  readonly unmet: number;
};

const menu: Menu = Menu.parse({
  currency: "USD",
  blanks: [
    {
      id: "tee",
      name: "Tee",
      platen: "flat",
      colours: COLOURS.map((id) => ({ id, name: id })),
      sizes: SIZES.map((id) => ({ id, name: id })),
    },
  ],
  designs: OFFERS.map((id) => ({
    id,
    name: id,
    kind: "screen-printed",
    widthInches: 10,
    heightInches: 10,
    settings: { temperatureFahrenheit: 365, dwellSeconds: 5, pressure: "firm", peel: "hot" },
  })),
  offers: OFFERS.map((id) => ({ id, name: id, blank: "tee", design: id, price: 2400 })),
  presses: [{ id: A, platen: "flat", garmentSeconds: 60 }],
});

function pickOf<T>(random: Random, values: readonly T[], shares: readonly number[]): T {
  let turn = random.next();
  for (const [index, share] of shares.entries()) {
    turn -= share;
    const value = values[index];
    if (turn < 0 && value !== undefined) return value;
  }
  const last = values.at(-1);
  if (last === undefined) throw new Error("nothing to pick from");
  return last;
}

/** The same number of every size, whatever people wear: the most wanted runs out first. */
function stockFor(expected: number): StockEntry[] {
  const each = Math.ceil((1.1 * expected) / (SIZES.length * COLOURS.length));
  const blanks = COLOURS.flatMap((colour) =>
    SIZES.map((size) => ({ sku: `tee.${colour}.${size}`, counted: each })),
  );
  const transfers = OFFERS.map((design) => ({ design, counted: Math.ceil(expected) * 3 }));
  return [...blanks, ...transfers].map((entry) => StockEntry.parse(entry));
}

const drawTruth = (random: Random): Truth => ({
  // Around common practice for adult tees, every crowd another.
  sizes: drawDirichlet(
    random,
    [0.15, 0.27, 0.29, 0.18, 0.08, 0.03].map((share) => 40 * share),
  ),
  colours: drawDirichlet(random, [5, 3, 2]),
  offers: drawDirichlet(random, [4, 3, 3]),
  perHundred: 2 + 3 * random.next(),
  spoilage: 0.01 + 0.03 * random.next(),
});

const withWish = (lines: readonly WantedLine[], wish: WantedLine): WantedLine[] => {
  const same = lines.find(
    ({ offer, colour, size }) => offer === wish.offer && colour === wish.colour && size === wish.size,
  );
  return same === undefined
    ? [...lines, wish]
    : lines.map((line) => (line === same ? { ...line, quantity: line.quantity + 1 } : line));
};

/** Lives one day of six hours; the same seed lives the same day. */
export function livedFair(seed: number): LivedFair {
  const random = seededRandom(seed);
  const truth = drawTruth(random);
  const perHour = [0.6, 1, 1.4, 1.3, 1, 0.7].map((share) =>
    Math.round(900 * share * (0.8 + 0.4 * random.next())),
  );
  const crowd = perHour.reduce((sum, people) => sum + people, 0);
  const state = new StallState();
  const run = (command: Parameters<typeof step>[1], now: number) => {
    const outcome = step(state, command, now);
    state.drain();
    return outcome;
  };
  const closes = OPENS + perHour.length * HOUR;
  const identity = {
    fair: "brackenfield",
    stall: "tern",
    name: "Tern & Tide",
    fairName: `Fair ${seed}`,
    timeZone: "America/New_York",
    openings: [{ opens: OPENS, closes }],
  } as unknown as Parameters<typeof lessonsOf>[0]; // plain ids
  run({ type: "open", identity }, OPENS);
  run({ type: "set-menu", menu }, OPENS);
  run({ type: "change-stock", entries: stockFor((crowd * truth.perHundred) / 100) }, OPENS);

  let people = 0;
  const visit = (now: number): void => {
    const customer = customerOf(++people);
    const garments = pickOf(random, [1, 2, 3], [0.72, 0.22, 0.06]);
    let lines: WantedLine[] = [];
    for (let garment = 0; garment < garments; garment++) {
      const wish = {
        offer: pickOf(random, OFFERS, truth.offers),
        colour: pickOf(random, COLOURS, truth.colours),
        size: pickOf(random, SIZES, truth.sizes),
        quantity: 1,
      } as unknown as WantedLine; // plain ids
      lines = withWish(lines, wish);
    }
    let asked = new Set<string>();
    let instead = false;
    const nameOf = ({ offer, colour, size }: WantedLine): string => `${offer} ${colour} ${size}`;
    while (lines.length > 0) {
      const asks = lines.flatMap((line, index) => (asked.has(nameOf(line)) ? [] : [index]));
      const wish = { first: asked.size === 0, instead };
      const { events, refusal } = run(
        { type: "place", customer, takenBy: "counter", lines, asks, wish, chance: random.next() },
        now,
      );
      if (refusal === null) {
        const number = events.flatMap((event) => (event.type === "placed" ? [event.order.number] : []))[0];
        if (number !== undefined) serve(number, now);
        return;
      }
      if (refusal.code !== "sold-out") throw new Error(refusal.code);
      const gone = lines.find(
        ({ offer, colour, size }) =>
          offer === refusal.offer && colour === refusal.colour && size === refusal.size,
      );
      if (gone === undefined) throw new Error("another line than one of the order's is sold out");
      asked = new Set([...asked, nameOf(gone)]);
      lines = lines.filter((line) => line !== gone);
      // Some take another colour of the same size; that is a need, and no new wish.
      const other = refusal.left.find(({ size, colour }) => size === gone.size && colour !== gone.colour);
      if (other === undefined || !random.chance(0.35)) continue;
      const taken = { ...gone, colour: other.colour, quantity: Math.min(gone.quantity, other.free) };
      instead ||= lines.length === 0;
      if (!lines.some((line) => nameOf(line) === nameOf(taken))) {
        if (lines.length > 0) asked = new Set([...asked, nameOf(taken)]);
        lines = [...lines, taken];
      }
    }
  };
  const serve = (number: number, now: number): void => {
    run({ type: "paid", number, tender: "cash" }, now);
    for (let n = 1; n <= (state.order(number)?.jobs.length ?? 0); ) {
      run({ type: "pull", press: A }, now);
      const job = jobId(number, n);
      if (random.chance(truth.spoilage / (1 + truth.spoilage)))
        run({ type: "spoiled", job, lost: "transfer", reason: "peeled-badly" }, now + 1);
      else {
        run({ type: "pressed", job }, now + 1);
        n++;
      }
    }
    run({ type: "closed", number, as: "collected" }, now + 1);
  };

  const told = random.chance(0.5);
  for (const [hour, passing] of perHour.entries()) {
    const orders = drawPoisson(random, (passing * truth.perHundred) / 100);
    const times = Array.from({ length: orders }, () => OPENS + (hour + random.next()) * HOUR - 2);
    for (const now of times.sort((one, other) => one - other)) visit(Math.max(OPENS, Math.round(now)));
    // Ten minutes of every hour are watched.
    let seen = 0;
    for (let person = 0; person < passing; person++) if (random.chance(1 / 6)) seen++;
    if (!told) run({ type: "count-passers-by", people: seen, seconds: 600 }, OPENS + (hour + 1) * HOUR - 1);
  }
  const day = accountDay(state, OPENS);
  if (told) {
    const uncertainty = 0.15;
    const spread = Math.exp(uncertainty * standardNormal(random));
    run({ type: "tell-crowd", day, crowd: { passersBy: Math.round(crowd * spread), uncertainty } }, closes);
  }
  const choices: DayChoice[] = state.dayChoices.under().map(([, row]) => row);
  const rows: DayRows = {
    totals: state.dayTotals.get(day) ?? EMPTY_TOTALS,
    pieces: new Map(),
    choices,
    costs: null,
  };
  const lessons = lessonsOf(identity, day, rows);
  if (lessons === null) throw new Error("the day taught nothing");
  const bySize = (many: (choice: DayChoice) => number): number[] =>
    SIZES.map((size) =>
      choices.filter((choice) => choice.size === size).reduce((sum, choice) => sum + many(choice), 0),
    );
  return {
    truth,
    lessons: { ...lessons, id: `${lessons.id}/${seed}` },
    soldBySize: bySize(({ garments }) => garments),
    askedBySize: bySize(({ wishes }) => wishes.size),
    unmet: choices.reduce((sum, { unmet }) => sum + (unmet["sold-out"] ?? 0), 0),
  };
}

export const wishNames = { sizes: SIZES, colours: COLOURS, offers: OFFERS } as const;
