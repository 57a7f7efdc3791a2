/** The answer in words: which stalls need a look, and the fair in total. */
import type { StallPace, Throughput } from "../../../model/fair/throughput.ts";
import { moneyWords } from "../crew/words/money.ts";
import { byId, element } from "../kit/dom.ts";
import { clockOf } from "./chart.ts";
import { minutesWords } from "./minutes.ts";
import { type Moment, SIGNS, type Sign, signsOf } from "./signs.ts";
import { reasonsWords } from "./unmet.ts";

const NAMED = 6;

/** The signs that an organiser acts on; the rest is in the table. */
const ASKS_FOR_A_LOOK: readonly Sign[] = SIGNS.filter((sign) => sign !== "keeping up" && sign !== "closed");

function names(stalls: readonly StallPace[]): string {
  if (stalls.length === 0) return "nobody";
  const named = stalls
    .slice(0, NAMED)
    .map(({ name }) => name)
    .join(", ");
  return stalls.length <= NAMED ? named : `${named} and ${stalls.length - NAMED} more`;
}

const pair = (term: string, description: string, kind = ""): HTMLElement =>
  element("div", { class: kind }, element("dt", {}, term), element("dd", {}, description));

/** A figure, what it counts, and in small what else there is to say of it. */
function figure(value: number | string, of: string, note = "", kind = ""): HTMLElement {
  const noted = note === "" ? null : element("small", {}, note);
  return element("div", { class: kind }, element("dt", {}, of, noted), element("dd", {}, String(value)));
}

/** Which stalls need a look. */
export function drawGlance({ stalls }: Throughput, moment: Moment): void {
  const found = ASKS_FOR_A_LOOK.map((sign) => ({
    sign,
    such: stalls.filter((stall) => signsOf(stall, moment).includes(sign)),
  }));
  const nobody = found.filter(({ such }) => such.length === 0).map(({ sign }) => sign);
  byId("glance").replaceChildren(
    ...found
      .filter(({ such }) => such.length > 0)
      .map(({ sign, such }) => pair(`${sign}: ${such.length}`, names(such), sign.replaceAll(" ", "-"))),
    ...(nobody.length === 0 ? [] : [pair("No stall is", nobody.join(", "), "none")]),
  );
}

function textFigures({ textsIn, textsOut }: Throughput["total"], texts: Throughput["texts"]): HTMLElement[] {
  const { segmentsToday, mostToday, cost, badSignatures } = texts;
  const price = cost === null ? "" : `, about ${moneyWords(cost.amount, cost.currency)} for these days`;
  return [
    figure(`${textsIn} / ${textsOut}`, "texts in / out"),
    figure(segmentsToday, "text segments today", `of at most ${mostToday}${price}`),
    ...(badSignatures === 0 ? [] : [figure(badSignatures, "texts with a wrong signature")]),
  ];
}

/** The fair in total. */
export function drawTotal({ total, texts, stalls, timeZone }: Throughput): void {
  const { orders: late, medianMinutes } = total.overQuote;
  const kept = total.promised === 0 ? "–" : `${Math.round((total.kept / total.promised) * 100)} %`;
  const ends = total.backlogEnds === null ? null : clockOf(timeZone).format(Date.parse(total.backlogEnds));
  const takings = total.takings.map(({ amount, currency }) => moneyWords(amount, currency)).join(" + ");
  const shared =
    total.sharing === 0
      ? []
      : [
          figure(
            takings,
            "takings",
            `of ${total.sharing} of ${stalls.length} stalls, the others do not share`,
          ),
        ];
  const promises = figure(kept, "promises kept");
  byId("five").replaceChildren(
    figure(total.placed, "orders"),
    figure(total.pressed, "garments pressed"),
    figure(total.backlog, "still to press", ends === null ? "" : `expected done at ${ends}`, "now"),
    figure(minutesWords(total.waitMinutes.median), "usual wait"),
    ...(shared.length === 0 ? [promises] : shared),
  );
  byId("further").replaceChildren(
    ...(shared.length === 0 ? [] : [promises]),
    figure(total.garments, "garments ordered"),
    figure(total.collected, "orders handed over"),
    figure(total.perHour, "pressed in the last hour", "", "now"),
    figure(total.perPressHour ?? "–", "pressed a press-hour"),
    figure(minutesWords(total.waitMinutes.p90), "9 in 10 within"),
    figure(late, "ready after the promise", late === 0 ? "" : `mostly by ${minutesWords(medianMinutes)}`),
    figure(total.dropped, "orders dropped"),
    figure(total.unmet, "asks unmet", reasonsWords(total)),
    ...textFigures(total, texts),
  );
}
