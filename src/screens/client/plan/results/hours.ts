/** Hour by hour: garments asked for against what the presses can make. */

import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { uPlot } from "../../kit/chart.ts";
import { element } from "../../kit/dom.ts";
import { tableOf, whole } from "../figures.ts";

const HEIGHT = 260;
const INK = "#14181d";
const GRID = { stroke: "#c9ccd1", width: 1 };
const FONT = "15px system-ui, sans-serif";

/** The chart and its table; `fit` draws it once it stands on the page and has a width. */
export function drawHours({ demand }: Plan): { readonly drawn: HTMLElement[]; readonly fit: () => void } {
  const { hours } = demand;
  const place = element("div", {
    class: "chart",
    role: "img",
    "aria-label":
      "Garments asked for by hour against what the presses can make. The table below has the same figures.",
  });
  const drawn = [
    element(
      "ul",
      { class: "key", "aria-hidden": "true" },
      element("li", { class: "asked" }, "asked for, middle day"),
      element("li", { class: "busy" }, "asked for, busy day (1 in 20 is busier)"),
      element("li", { class: "capacity" }, "the presses can make"),
    ),
    place,
    tableOf(
      "Hour by hour",
      ["From", "Asked for, middle day", "Busy day", "Presses can make", "Met in a mean day"].map(
        (name, at) => ({
          name,
          isNumber: at > 0,
        }),
      ),
      hours.map(({ from, garments, capacity, pressed }) => [
        garments.p95 > (capacity ?? Number.POSITIVE_INFINITY) ? `${from} pinch` : from,
        whole(garments.p50),
        whole(garments.p95),
        capacity === null ? "no limit" : whole(capacity),
        whole(pressed),
      ]),
    ),
  ];
  return { drawn, fit: () => chartIn(place, hours) };
}

function chartIn(place: HTMLElement, hours: Plan["demand"]["hours"]): void {
  const axis = { stroke: INK, font: FONT, grid: GRID, ticks: GRID };
  const paths = uPlot.paths.bars?.({ size: [0.6, 60] });
  const line = (label: string, width: number, dash?: number[]): uPlot.Series => ({
    label,
    stroke: INK,
    width,
    points: { show: false },
    ...(dash === undefined ? {} : { dash }),
  });
  const chart = new uPlot(
    {
      width: place.clientWidth,
      height: HEIGHT,
      legend: { show: false },
      cursor: { show: false },
      scales: {
        x: { time: false, range: [-0.6, hours.length - 0.4] },
        y: { range: (_, __, most) => [0, Math.max(4, most * 1.1)] },
      },
      axes: [
        { ...axis, incrs: [1, 2, 3, 4], values: (_, splits) => splits.map((at) => hours[at]?.from ?? "") },
        { ...axis, size: 46 },
      ],
      series: [
        {},
        { ...line("asked for", 2), fill: "#c7d6e4", ...(paths === undefined ? {} : { paths }) },
        line("busy day", 2, [4, 5]),
        line("presses can make", 4, [14, 6]),
      ],
    },
    [
      hours.map((_, at) => at),
      hours.map(({ garments }) => garments.p50),
      hours.map(({ garments }) => garments.p95),
      hours.map(({ capacity }) => capacity),
    ],
    place,
  );
  new ResizeObserver(() => {
    if (place.clientWidth > 0 && place.clientWidth !== chart.width)
      chart.setSize({ width: place.clientWidth, height: HEIGHT });
  }).observe(place);
}
