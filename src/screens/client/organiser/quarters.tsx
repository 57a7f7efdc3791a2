/** @jsxImportSource preact */
/** The pace by the quarter of an hour, of the fair or of one stall: a chart, and the same figures as a table. */
import { useLayoutEffect, useMemo, useRef } from "preact/hooks";
import { pageData } from "../kit/dom.ts";
import { Tap } from "../parts/tap.tsx";
import { Contact } from "./beside/contact.tsx";
import { everyQuarter, type Quarter } from "./buckets.ts";
import { clockOf, type PaceChart, paceChart } from "./chart.ts";
import type { Actions, State } from "./state.ts";

type Props = { readonly state: State; readonly actions: Actions };

/** The clock of the table: on a day on which the time changes it names the time as well. */
function tableClock(quarters: readonly Quarter[], timeZone: string): Intl.DateTimeFormat {
  const offset = new Intl.DateTimeFormat("en", { timeZone, timeZoneName: "longOffset" });
  const nameAt = (quarter: Quarter | undefined): string =>
    quarter === undefined
      ? ""
      : (offset.formatToParts(Date.parse(quarter.start)).find(({ type }) => type === "timeZoneName")?.value ??
        "");
  if (nameAt(quarters[0]) === nameAt(quarters.at(-1))) return clockOf(timeZone);
  return new Intl.DateTimeFormat("en-GB", {
    hour: "2-digit",
    minute: "2-digit",
    timeZone,
    timeZoneName: "shortOffset",
  });
}

const COLUMNS = [
  ["placed", "Orders in"],
  ["pressed", "Garments pressed"],
  ["collected", "Orders handed over"],
  ["dropped", "Orders dropped"],
  ["unmet", "Asks unmet"],
  ["backlog", "Still to press"],
] as const;

type Shown = { readonly quarters: readonly Quarter[]; readonly timeZone: string };

function Buckets({ quarters, timeZone }: Shown) {
  const clock = tableClock(quarters, timeZone);
  const day = new Intl.DateTimeFormat(undefined, { weekday: "short", timeZone });
  return (
    <table id="buckets" aria-describedby="clock">
      <thead>
        <tr>
          <th scope="col">From</th>
          {COLUMNS.map(([id, heading]) => (
            <th key={id} scope="col" class="number">
              {heading}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {quarters.toReversed().map((quarter) => {
          const at = new Date(quarter.start);
          return (
            <tr key={quarter.start}>
              <th scope="row">
                <time dateTime={quarter.start}>{`${day.format(at)} ${clock.format(at)}`}</time>
              </th>
              {COLUMNS.map(([id]) => (
                <td key={id} class="number">
                  {quarter[id]}
                </td>
              ))}
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** Drawn by the chart's own library, again only when there are other quarters. */
function Chart({ quarters, timeZone }: Shown) {
  const place = useRef<HTMLDivElement>(null);
  const chart = useRef<PaceChart | null>(null);
  useLayoutEffect(() => {
    if (place.current === null || quarters.length === 0) return;
    chart.current ??= paceChart(place.current, timeZone);
    chart.current.draw(quarters);
  }, [quarters, timeZone]);
  return (
    <div
      id="chart"
      class="chart"
      ref={place}
      role="img"
      aria-label="Chart of orders in, garments pressed and garments still to press. The table below has the same figures."
    />
  );
}

/** A stall's pages that its customers see. */
const PAGES = [
  ["Board", "/board"],
  ["Order page", ""],
  ["Poster", "/poster"],
] as const;

export function Quarters({ state: { pace, answered, moment, beside }, actions }: Props) {
  const { timeZone, span } = pace;
  const stall = pace.stalls.find((one) => one.stall === answered.chosen);
  const { now } = moment;
  // The answer is looked at once, however often it is drawn.
  const quarters = useMemo(
    () =>
      everyQuarter(
        stall?.buckets ?? pace.buckets,
        span.to === null ? now : Math.min(now, Date.parse(span.to) - 1),
      ),
    [pace, answered],
  );
  const none = quarters.length === 0;
  return (
    <div>
      <div class="row heading">
        <h2 id="pace-heading">{`Pace, by 15 minutes: ${stall?.name ?? "all stalls"}`}</h2>
        {stall === undefined ? null : (
          <Tap id="all-stalls" class="no-print" onTap={() => actions.ask({ chosen: null })}>
            Show all stalls
          </Tap>
        )}
      </div>
      {stall === undefined ? null : (
        <p class="row no-print">
          {PAGES.map(([name, path]) => (
            <a key={name} class="button" href={`/at/${pageData("fair")}/${stall.stall}${path}`}>
              {name}
            </a>
          ))}
        </p>
      )}
      {stall === undefined ? null : (
        <Contact
          key={stall.stall}
          contact={beside.contacts.find((one) => one.stall === stall.stall) ?? null}
          keep={(contact) => actions.keepContact(stall.stall, contact)}
        />
      )}
      <p id="no-quarters" hidden={!none}>
        Nothing happened in this time.
      </p>
      <div hidden={none}>
        <ul class="key" aria-hidden="true">
          <li class="hollow">orders in</li>
          <li class="solid">garments pressed</li>
          <li class="thick line">garments still to press</li>
        </ul>
        <Chart quarters={quarters} timeZone={timeZone} />
        <p id="clock">{`Times are the fair’s own, ${timeZone}. The latest is on top.`}</p>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by the keyboard */}
        <section class="wide tall" tabIndex={0} aria-labelledby="pace-heading">
          <Buckets quarters={quarters} timeZone={timeZone} />
        </section>
      </div>
    </div>
  );
}
