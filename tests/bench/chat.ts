/** Measures the conversation: texts an order takes, texts understood, and the time of a turn. */

import { converse } from "../../src/chat/converse.ts";
import type { OrderingPort } from "../../src/chat/talk/ordering-port.ts";
import { newTalk } from "../../src/chat/talk/talk.ts";
import { FRESH, read } from "../../src/chat/understand/read.ts";
import { ok } from "../../src/model/basics/result.ts";
import type { Menu } from "../../src/model/menu/catalogue.ts";
import { crowd, type Visit } from "../chat/crowd.ts";
import { exampleMenu } from "../chat/example.ts";
import { isWhole, written } from "../chat/notation.ts";
import { READINGS, type Row } from "../chat/readings.ts";
import { customer, openShop } from "../chat/stall.ts";
import { type Bench, type Figure, median } from "./figure.ts";

const CUSTOMERS = 500;
const ROUNDS = 7;
const TURNS_A_ROUND = 20_000;

const figure = (name: string, value: number, goal: Figure["goal"], unit: string): Figure => ({
  bench: "chat",
  name,
  figure: value,
  goal,
  unit,
});

const percent = (part: number, whole: number): number => (whole === 0 ? 100 : (100 * part) / whole);

function crowdFigures(): readonly Figure[] {
  const visits = crowd(CUSTOMERS, 20270501);
  const ordered = visits.filter(({ asWished }) => asWished !== null);
  const free = visits.filter(({ steps }) => !steps);
  const of = (some: readonly Visit[], what: "textsIn" | "textsOut" | "segmentsOut"): number =>
    median(some.map((visit) => visit[what]));
  return [
    figure(`customers of ${CUSTOMERS} who got an order`, ordered.length, null, "orders"),
    figure("texts in per order, median", of(ordered, "textsIn"), { atMost: 4 }, "texts"),
    figure("texts out per order, median", of(ordered, "textsOut"), { atMost: 4 }, "texts"),
    figure(
      "texts in per order by the steps, median",
      of(
        ordered.filter(({ steps }) => steps),
        "textsIn",
      ),
      null,
      "texts",
    ),
    figure(
      "texts in per order typed freely, median",
      of(
        ordered.filter(({ steps }) => !steps),
        "textsIn",
      ),
      null,
      "texts",
    ),
    figure("segments out per order, median", of(ordered, "segmentsOut"), null, "segments"),
    figure(
      "segments out for each text out",
      sum(ordered, "segmentsOut") / sum(ordered, "textsOut"),
      null,
      "segments",
    ),
    figure(
      "typed freely: understood at first try",
      percent(free.filter(({ atFirstTry }) => atFirstTry).length, free.length),
      { atLeast: 90 },
      "%",
    ),
    figure(
      "orders that are not what was wished",
      ordered.filter(({ asWished }) => asWished === false).length,
      { atMost: 0 },
      "orders",
    ),
  ];
}

const sum = (visits: readonly Visit[], what: "textsOut" | "segmentsOut"): number =>
  visits.reduce((total, visit) => total + visit[what], 0);

/** The share read correctly among the rows of a table that state a whole order. */
function tableFigures(name: string, rows: readonly Row[]): readonly Figure[] {
  const menu = exampleMenu();
  const whole = rows.filter(([, , reading]) => isWhole(reading));
  const readings = whole.map(([text, language, reading]) => ({
    reading,
    read: written(read(menu, language, FRESH, text)),
  }));
  const understood = readings.filter(({ reading, read: got }) => got === reading).length;
  const misread = readings.filter(({ reading, read: got }) => got !== reading && isWhole(got)).length;
  return [
    figure(
      `${name}: ${whole.length} rows of a whole order, understood`,
      percent(understood, whole.length),
      { atLeast: 90 },
      "%",
    ),
    figure(`${name}: such rows misread`, misread, { atMost: 0 }, "rows"),
  ];
}

/** The rows written by somebody who had not seen the code, if the file exists. */
async function unseenRows(): Promise<readonly Row[] | null> {
  try {
    const module: { UNSEEN: readonly { text: string; language: "en" | "es"; reading: string }[] } =
      await import(new URL("../chat/unseen.ts", import.meta.url).href);
    return module.UNSEEN.map(({ text, language, reading }) => [text, language, reading]);
  } catch {
    return null;
  }
}

/** The example menu with three more tees: nine offers. */
function nineOffers(): Menu {
  const menu = exampleMenu();
  const more = menu.offers.slice(0, 3).map((offer, n) => ({
    ...offer,
    id: `${offer.id}-${n}`,
    name: ["Gannet tee", "Bittern tee", "Curlew tee"][n] ?? "",
    translations: {},
    design: `more-${n}`,
  }));
  const designs = more.map(({ design }) => ({ ...menu.designs[0], id: design, name: design }));
  return { ...menu, offers: [...menu.offers, ...more], designs: [...menu.designs, ...designs] } as Menu; // brands put on
}

const SCRIPTS: readonly (readonly string[])[] = [
  ["hi", "1", "1", "3", "1", "yes"],
  ["1 navy L x2", "yes"],
  ["navy large longtail tee", "yes"],
  ["2 red kite L sand + 1 black cap", "1"],
  ["menu", "4", "2", "1", "1", "status"],
  ["curlew forset medium", "lol", "yes", "thanks"],
  ["hola", "quiero dos gorras negras por favor", "si"],
];

/** An ordering port that costs nothing, so that the turn alone is timed. */
function idlePort(port: OrderingPort): OrderingPort {
  return {
    ...port,
    free: () => 5,
    bill: () => ({ total: 2400, tax: 0 }),
    waitMinutes: () => 9,
    holding: true,
    orders: () => [],
    attempt: () => ok(null),
  };
}

/** Microseconds of each turn of the scripts, over and over. */
function timed(port: OrderingPort): number {
  const took: number[] = [];
  while (took.length < TURNS_A_ROUND) {
    for (const script of SCRIPTS) {
      let talk = newTalk("en");
      for (const text of script) {
        const before = performance.now();
        talk = converse(port, talk, { text, channel: "text" }).talk;
        took.push((performance.now() - before) * 1000);
      }
    }
  }
  return median(took);
}

function turnFigures(): readonly Figure[] {
  const port = idlePort(openShop(nineOffers()).port(customer(1)));
  timed(port);
  const rounds = Array.from({ length: ROUNDS }, () => timed(port));
  return [figure("one turn with a menu of 9 offers, median", median(rounds), { atMost: 50 }, "µs")];
}

export const bench: Bench = {
  name: "chat",
  run: async () => {
    const unseen = await unseenRows();
    return [
      ...crowdFigures(),
      ...tableFigures("table", READINGS),
      ...(unseen === null ? [] : tableFigures("unseen", unseen)),
      ...turnFigures(),
    ];
  },
};
