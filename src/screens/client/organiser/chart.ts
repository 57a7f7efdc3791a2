/** Drawing the pace: orders in and garments out as bars, the backlog as a line. */
import { AXIS, ink, uPlot } from "../kit/chart.ts";
import { token } from "../kit/dom.ts";
import { type Quarter, spanOf } from "./buckets.ts";

const HEIGHT = 280;
/** Narrower bars could not be distinguished, so a narrow chart shows the latest quarters. */
const PIXELS_A_QUARTER = 15;

export type PaceChart = { readonly draw: (quarters: readonly Quarter[]) => void };

/** A clock of the fair's own time zone, "13:45". */
export const clockOf = (timeZone: string): Intl.DateTimeFormat =>
  new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", timeZone });

const bars = (align: -1 | 1): uPlot.Series.PathBuilder | null =>
  uPlot.paths.bars?.({ size: [0.4, 26], align, gap: 1 }) ?? null;

/** A chart in a place of the page. */
export function paceChart(place: HTMLElement, timeZone: string): PaceChart {
  const clock = clockOf(timeZone);
  // Hollow, solid and a line: distinguishable without colour.
  const bar = (label: string, fill: () => string, align: -1 | 1): uPlot.Series => {
    const paths = bars(align);
    return {
      label,
      stroke: ink,
      width: 2,
      fill,
      points: { show: false },
      ...(paths === null ? {} : { paths }),
    };
  };
  const chart = new uPlot(
    {
      width: place.clientWidth,
      height: HEIGHT,
      legend: { show: false },
      cursor: { show: false },
      tzDate: (seconds) => uPlot.tzDate(new Date(seconds * 1000), timeZone),
      scales: {
        x: { range: ({ data: [starts] }) => spanOf(starts) },
        y: { range: (_, __, max) => [0, Math.max(4, max * 1.1)] },
      },
      axes: [
        {
          ...AXIS,
          incrs: [900, 1800, 3600, 7200, 14400, 28800],
          values: (_, splits) => splits.map((at) => clock.format(at * 1000)),
        },
        { ...AXIS, size: 46, incrs: [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000] },
      ],
      series: [
        {},
        bar("orders in", () => token("--paper"), -1),
        bar("garments pressed", () => token("--action"), 1),
        { label: "still to press", stroke: ink, width: 4, points: { show: false } },
      ],
    },
    [[], [], [], []],
    place,
  );
  let all: readonly Quarter[] = [];
  const fill = (): void => {
    const quarters = all.slice(-Math.max(4, Math.floor(place.clientWidth / PIXELS_A_QUARTER)));
    chart.setData([
      quarters.map(({ start }) => Date.parse(start) / 1000),
      quarters.map(({ placed }) => placed),
      quarters.map(({ pressed }) => pressed),
      quarters.map(({ backlog }) => backlog),
    ]);
  };
  window.addEventListener("themechange", () => chart.redraw());
  new ResizeObserver(() => {
    if (place.clientWidth === chart.width) return;
    chart.setSize({ width: place.clientWidth, height: HEIGHT });
    fill();
  }).observe(place);
  return {
    draw(quarters) {
      all = quarters;
      fill();
    },
  };
}
