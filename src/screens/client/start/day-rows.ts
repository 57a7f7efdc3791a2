/** A fair's days as rows to fill in: a date, and when it opens and closes. */
import { byId, element } from "../kit/dom.ts";
import { type Day, openingOf } from "./days.ts";

export const tomorrow = (): Day => ({
  date: new Date(Date.now() + 86_400_000).toISOString().slice(0, 10),
  opens: "10:00",
  closes: "18:00",
});

const dayEntry = (type: "date" | "time", label: string, value: string, n: number): HTMLElement => {
  const id = `${label.toLowerCase()}-${n}`;
  return element(
    "div",
    {},
    element("label", { for: id }, label),
    element("input", { id, type, value, required: true, "data-part": label.toLowerCase() }),
  );
};

let made = 0;
function drawDay(day: Day, changed: () => void): HTMLElement {
  made += 1;
  const row = element(
    "fieldset",
    { class: "tiles day" },
    element("legend", {}, `Day ${made}`),
    dayEntry("date", "Date", day.date, made),
    dayEntry("time", "Opens", day.opens, made),
    dayEntry("time", "Closes", day.closes, made),
    element(
      "button",
      {
        type: "button",
        onclick: () => {
          if (byId("days").childElementCount > 1) row.remove();
          changed();
        },
      },
      "Remove",
    ),
  );
  return row;
}

export type DayRows = {
  readonly typed: () => readonly Day[];
  readonly show: (days: readonly Day[]) => void;
  /** The spans on a zone's clock; null if a day is incomplete, which is then marked. */
  readonly openings: (zone: string) => readonly { readonly opens: string; readonly closes: string }[] | null;
};

/** Sets up the rows in the page's `days`, with the button that adds one; calls `changed` on every change. */
export function dayRows(changed: () => void): DayRows {
  const typed = (): readonly Day[] =>
    [...byId("days").children].map((row) => {
      const part = (name: string): string =>
        row.querySelector<HTMLInputElement>(`[data-part=${name}]`)?.value ?? "";
      return { date: part("date"), opens: part("opens"), closes: part("closes") };
    });
  byId("days").addEventListener("input", changed);
  byId("day-add").addEventListener("click", () => {
    const last = typed().at(-1) ?? tomorrow();
    const next = new Date(Date.parse(`${last.date}T00:00:00Z`) + 86_400_000);
    const date = Number.isNaN(next.getTime()) ? tomorrow().date : next.toISOString().slice(0, 10);
    byId("days").append(drawDay({ ...last, date }, changed));
    changed();
  });
  return {
    typed,
    show: (days) => byId("days").replaceChildren(...days.map((day) => drawDay(day, changed))),
    openings: (zone) => {
      const openings = typed().map((day) => openingOf(zone, day));
      const whole = openings.filter((one) => one !== null);
      byId("days-fault").textContent =
        whole.length === openings.length ? "" : "A day still lacks its date, opening or closing time.";
      return whole.length === openings.length ? whole : null;
    },
  };
}

/** Fills the page's list of clocks; the device's own comes first. */
export function showZones(): void {
  const own = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const zones = [...new Set([own, ...Intl.supportedValuesOf("timeZone"), "UTC"])];
  byId("zone").append(...zones.map((one) => element("option", {}, one)));
}
