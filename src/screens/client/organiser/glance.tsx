/** @jsxImportSource preact */
/** The answer in words: which stalls need a look, and the fair in total. */
import type { StallPace, Throughput } from "../../../model/fair/throughput.ts";
import { moneyWords } from "../crew/words/money.ts";
import { clockOf } from "./chart.ts";
import { minutesWords } from "./minutes.ts";
import { type Moment, SIGNS, type Sign, signsOf } from "./signs.ts";
import { reasonsWords } from "./unmet.ts";

const NAMED = 6;

/** The signs that an organiser acts on; the rest is in the table. */
const ASKS_FOR_A_LOOK: readonly Sign[] = SIGNS.filter((sign) => sign !== "keeping up" && sign !== "closed");

function names(stalls: readonly StallPace[]): string {
  const named = stalls
    .slice(0, NAMED)
    .map(({ name }) => name)
    .join(", ");
  return stalls.length <= NAMED ? named : `${named} and ${stalls.length - NAMED} more`;
}

/** Which stalls need a look. */
export function Glance({
  stalls,
  moment,
}: {
  readonly stalls: readonly StallPace[];
  readonly moment: Moment;
}) {
  const found = ASKS_FOR_A_LOOK.map((sign) => ({
    sign,
    such: stalls.filter((stall) => signsOf(stall, moment).includes(sign)),
  }));
  const nobody = found.filter(({ such }) => such.length === 0).map(({ sign }) => sign);
  return (
    <dl id="glance" class="tiles">
      {found
        .filter(({ such }) => such.length > 0)
        .map(({ sign, such }) => (
          <div key={sign} class={`card ${sign.replaceAll(" ", "-")}`}>
            <dt>{`${sign}: ${such.length}`}</dt>
            <dd>{names(such)}</dd>
          </div>
        ))}
      {nobody.length === 0 ? null : (
        <div key="none" class="card none">
          <dt>No stall is</dt>
          <dd>{nobody.join(", ")}</dd>
        </div>
      )}
    </dl>
  );
}

/** A figure, its label, a note in small print, and whether it is about this moment only. */
type Figure = readonly [value: number | string, of: string, note?: string, kind?: "now"];

function textFigures(
  { textsIn, textsOut }: Throughput["total"],
  texts: Throughput["texts"],
): readonly Figure[] {
  const { segmentsToday, mostToday, cost, badSignatures } = texts;
  const price = cost === null ? "" : `, about ${moneyWords(cost.amount, cost.currency)} for these days`;
  return [
    [`${textsIn} / ${textsOut}`, "texts in / out"],
    [segmentsToday, "text segments today", `of at most ${mostToday}${price}`],
    ...(badSignatures === 0 ? [] : [[badSignatures, "texts with a wrong signature"] as const]),
  ];
}

/** The five figures of a fair, and the further ones. */
function figuresOf({ total, texts, stalls, timeZone }: Throughput): readonly (readonly Figure[])[] {
  const { orders: late, medianMinutes } = total.overQuote;
  const kept = total.promised === 0 ? "–" : `${Math.round((total.kept / total.promised) * 100)} %`;
  const ends = total.backlogEnds === null ? null : clockOf(timeZone).format(Date.parse(total.backlogEnds));
  const takings = total.takings.map(({ amount, currency }) => moneyWords(amount, currency)).join(" + ");
  const isShared = total.sharing > 0;
  const promises: Figure = [kept, "promises kept"];
  const sharing = `of ${total.sharing} of ${stalls.length} stalls, the others do not share`;
  return [
    [
      [total.placed, "orders"],
      [total.pressed, "garments pressed"],
      [total.backlog, "still to press", ends === null ? "" : `expected done at ${ends}`, "now"],
      [minutesWords(total.waitMinutes.median), "usual wait"],
      isShared ? [takings, "takings", sharing] : promises,
    ],
    [
      ...(isShared ? [promises] : []),
      [total.garments, "garments ordered"],
      [total.collected, "orders handed over"],
      [total.perHour, "pressed in the last hour", "", "now"],
      [total.perPressHour ?? "–", "garments per press-hour"],
      [minutesWords(total.waitMinutes.p90), "90 % waited under"],
      [late, "ready after the promise", late === 0 ? "" : `mostly by ${minutesWords(medianMinutes)}`],
      [total.dropped, "orders cancelled"],
      [total.unmet, "requests turned away", reasonsWords(total)],
      ...textFigures(total, texts),
    ],
  ];
}

const FigureRow = ({ id, figures }: { readonly id: string; readonly figures: readonly Figure[] }) => (
  <dl id={id} class="figures-row">
    {figures.map(([value, of, note = "", kind]) => (
      <div key={of} class={kind}>
        <dt>
          {of}
          {note === "" ? null : <small>{note}</small>}
        </dt>
        <dd>{value}</dd>
      </div>
    ))}
  </dl>
);

/** The fair in total. */
export function Total({ pace }: { readonly pace: Throughput }) {
  const [five = [], further = []] = figuresOf(pace);
  return (
    <div id="total">
      <FigureRow id="five" figures={five} />
      <details>
        <summary class="no-print">More figures</summary>
        <FigureRow id="further" figures={further} />
      </details>
    </div>
  );
}
