/** The pace by the quarter of an hour, of the fair or of one stall: a chart, and the same figures as a table. */
import type { Throughput } from "../../../model/fair/throughput.ts";
import { byId, element, pageData } from "../kit/dom.ts";
import { everyQuarter, type Quarter } from "./buckets.ts";
import { clockOf, type PaceChart, paceChart } from "./chart.ts";

let chart: PaceChart | null = null;

/** The clock of the table: on a day on which the time changes it names the time as well. */
function tableClock(quarters: readonly Quarter[], timeZone: string): Intl.DateTimeFormat {
  const offset = new Intl.DateTimeFormat("en", { timeZone, timeZoneName: "longOffset" });
  const ends = [quarters[0], quarters.at(-1)].map((quarter) =>
    quarter === undefined
      ? ""
      : (offset.formatToParts(Date.parse(quarter.start)).find(({ type }) => type === "timeZoneName")?.value ??
        ""),
  );
  if (ends[0] === ends[1]) return clockOf(timeZone);
  return new Intl.DateTimeFormat("en-GB", {
    hour: "2-digit",
    minute: "2-digit",
    timeZone,
    timeZoneName: "shortOffset",
  });
}

function drawTable(quarters: readonly Quarter[], timeZone: string): void {
  const clock = tableClock(quarters, timeZone);
  const day = new Intl.DateTimeFormat(undefined, { weekday: "short", timeZone });
  const number = (value: number): HTMLElement => element("td", { class: "number" }, String(value));
  byId("clock").textContent = `Times are the fair's own, ${timeZone}. The latest is on top.`;
  const rows = quarters.toReversed().map(({ start, placed, pressed, collected, dropped, unmet, backlog }) => {
    const at = new Date(start);
    const time = element("time", { datetime: start }, `${day.format(at)} ${clock.format(at)}`);
    return element(
      "tr",
      {},
      element("th", { scope: "row" }, time),
      ...[placed, pressed, collected, dropped, unmet, backlog].map(number),
    );
  });
  byId<HTMLTableElement>("buckets").tBodies[0]?.replaceChildren(...rows);
}

/** A stall's pages that its customers see, in the order of the page's links. */
const WAYS = ["/board", "", "/poster"] as const;

function showWays(stall: string | undefined): void {
  byId("chosen-ways").hidden = stall === undefined;
  for (const [n, link] of byId("chosen-ways").querySelectorAll("a").entries())
    link.href = `/at/${pageData("fair")}/${stall}${WAYS[n] ?? ""}`;
}

/** Draws the quarters of the chosen stall, or of all where none is. */
export function drawQuarters(pace: Throughput, chosen: string | null, now: number): void {
  const { timeZone, span } = pace;
  const stall = chosen === null ? undefined : pace.stalls.find((one) => one.stall === chosen);
  byId("pace-heading").textContent = `Pace, by 15 minutes: ${stall?.name ?? "all stalls"}`;
  byId("all-stalls").hidden = stall === undefined;
  showWays(stall?.stall);
  const until = span.to === null ? now : Math.min(now, Date.parse(span.to) - 1);
  const quarters = everyQuarter(stall?.buckets ?? pace.buckets, until);
  byId("no-quarters").hidden = quarters.length > 0;
  byId("quarters").hidden = quarters.length === 0;
  if (quarters.length === 0) return;
  drawTable(quarters, timeZone);
  chart ??= paceChart(timeZone);
  chart.draw(quarters);
}
