/** @jsxImportSource preact */
/** Hour by hour: garments asked for against what the presses can make. */

import { useLayoutEffect, useRef } from "preact/hooks";
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import { AXIS, ink, uPlot } from "../../kit/chart.ts";
import { token } from "../../kit/dom.ts";
import { Table, whole } from "../figures.tsx";

const HEIGHT = 260;

/** The chart and its table. */
export function Hours({ plan }: { readonly plan: Plan }) {
  const { hours } = plan.demand;
  const place = useRef<HTMLDivElement>(null);
  // The chart is drawn once its place is on the page and has a width.
  useLayoutEffect(() => (place.current === null ? undefined : chartIn(place.current, hours)), [hours]);
  return (
    <>
      <ul class="key" aria-hidden="true">
        <li class="asked">asked for, usual day</li>
        <li class="line">asked for, busy day (1 in 20 is busier)</li>
        <li class="thick line">the presses can make</li>
      </ul>
      <div
        class="chart"
        ref={place}
        role="img"
        aria-label="Garments asked for by hour against what the presses can make. The table below has the same figures."
      />
      <Table
        caption="Hour by hour"
        columns={["From", "Asked for, usual day", "Busy day", "Presses can make", "Met, on average"]}
        rows={hours.map(({ day, from, garments, capacity, pressed }) => [
          [
            ...(day === undefined ? [] : [`day ${day}`]),
            from,
            ...(capacity !== null && garments.p95 > capacity ? ["too much on a busy day"] : []),
          ].join(", "),
          whole(garments.p50),
          whole(garments.p95),
          capacity === null ? "no limit" : whole(capacity),
          whole(pressed),
        ])}
      />
    </>
  );
}

/** Draws the chart; what is returned takes it away again. */
function chartIn(place: HTMLElement, hours: Plan["demand"]["hours"]): () => void {
  const paths = uPlot.paths.bars?.({ size: [0.6, 60] });
  // Bars, a thin line and a thick one: distinguishable without colour.
  const line = (label: string, width: number): uPlot.Series => ({
    label,
    stroke: ink,
    width,
    points: { show: false },
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
        { ...AXIS, incrs: [1, 2, 3, 4], values: (_, splits) => splits.map((at) => hours[at]?.from ?? "") },
        { ...AXIS, size: 46 },
      ],
      series: [
        {},
        { ...line("asked for", 2), fill: () => token("--info"), ...(paths === undefined ? {} : { paths }) },
        line("busy day", 2),
        line("presses can make", 5),
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
  const again = (): void => chart.redraw();
  window.addEventListener("themechange", again);
  const widths = new ResizeObserver(() => {
    if (place.clientWidth > 0 && place.clientWidth !== chart.width)
      chart.setSize({ width: place.clientWidth, height: HEIGHT });
  });
  widths.observe(place);
  return () => {
    widths.disconnect();
    window.removeEventListener("themechange", again);
    chart.destroy();
  };
}
