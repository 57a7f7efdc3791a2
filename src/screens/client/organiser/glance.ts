/** The answer in words: which stalls need a look, and the fair in total. */
import type { StallPace, Throughput } from "../../../model/throughput.ts";
import { moneyWords } from "../crew/money.ts";
import { byId, element } from "../kit/dom.ts";
import { SIGNS, type Sign, signsOf } from "./signs.ts";

const NAMED = 6;

/** The signs that an organiser acts on; the rest is in the table. */
const ASKS_FOR_A_LOOK: readonly Sign[] = SIGNS.filter((sign) => sign !== "keeping up");

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

/** What the texts come to: segments of the day's cap, and an estimate of what they cost. */
function textWords({ segmentsToday, mostToday, cost }: Throughput["texts"]): string {
  const today = `${segmentsToday} of ${mostToday} segments today`;
  return cost === null ? today : `${today}, about ${moneyWords(cost.amount, cost.currency)} so far`;
}

export function drawGlance({ stalls, total, texts }: Throughput, now: number): void {
  byId("glance").replaceChildren(
    ...ASKS_FOR_A_LOOK.map((sign) => {
      const such = stalls.filter((stall) => signsOf(stall, now).includes(sign));
      const term = such.length === 0 ? sign : `${sign}: ${such.length}`;
      return pair(term, names(such), such.length === 0 ? "none" : sign.replaceAll(" ", "-"));
    }),
  );
  const { median, p90 } = total.waitMinutes;
  const kept = total.promised === 0 ? "–" : `${Math.round((total.kept / total.promised) * 100)} %`;
  byId("total").replaceChildren(
    pair("orders", String(total.placed)),
    pair("garments pressed", String(total.pressed)),
    pair("pressed an hour", String(total.perHour)),
    pair("still to press", String(total.backlog)),
    pair("usual wait", median === null ? "–" : `${Math.round(median)} min`),
    pair("9 in 10 within", p90 === null ? "–" : `${Math.round(p90)} min`),
    pair("promises kept", kept),
    pair("asks unmet", String(total.unmet)),
    pair("texts", textWords(texts)),
    ...(texts.badSignatures === 0 ? [] : [pair("texts with a wrong signature", String(texts.badSignatures))]),
  );
}
