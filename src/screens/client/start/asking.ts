/** The form of a first run: what was typed is kept in this browser until the fair is made. */
import { MINOR_DIGITS } from "../../../model/minor-digits.ts";
import { byId, element } from "../kit/dom.ts";
import { slugOf } from "../setup/naming.ts";
import { type Day, openingOf } from "./days.ts";
import type { Wanted } from "./making.ts";

const PLACE = "first run";
const FIELDS = ["fair-name", "stall-name", "fair", "stall", "zone", "currency"] as const;
type FieldName = (typeof FIELDS)[number];

const entry = (name: FieldName): HTMLInputElement => byId<HTMLInputElement>(name);

type Kept = { readonly fields: Partial<Record<FieldName, string>>; readonly days: readonly Day[] };

function kept(): Kept | null {
  const text = localStorage.getItem(PLACE);
  return text === null ? null : (JSON.parse(text) as Kept); // written below only
}

export const forget = (): void => localStorage.removeItem(PLACE);

const tomorrow = (): Day => ({
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
    { class: "day" },
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
      "Take out",
    ),
  );
  return row;
}

const daysTyped = (): readonly Day[] =>
  [...byId("days").children].map((row) => {
    const part = (name: string): string =>
      row.querySelector<HTMLInputElement>(`[data-part=${name}]`)?.value ?? "";
    return { date: part("date"), opens: part("opens"), closes: part("closes") };
  });

export type Asked = { readonly wanted: Wanted; readonly currency: string };

/** Sets the form up; `read` gives what is wanted, or null where something is still missing, which is then told in place. */
export function asking(): {
  readonly read: () => Asked | null;
  readonly say: (name: FieldName, text: string) => void;
} {
  const before = kept();
  const named = new Set<FieldName>();
  const say = (name: FieldName, text: string): void => {
    byId(`${name}-fault`).textContent = text;
    if (text === "") entry(name).removeAttribute("aria-invalid");
    else entry(name).setAttribute("aria-invalid", "true");
  };
  const changed = (): void => {
    if (!named.has("fair")) entry("fair").value = slugOf(entry("fair-name").value) ?? "";
    if (!named.has("stall")) entry("stall").value = slugOf(entry("stall-name").value) ?? "";
    const fields = Object.fromEntries(FIELDS.map((name) => [name, entry(name).value]));
    localStorage.setItem(PLACE, JSON.stringify({ fields, days: daysTyped() }));
  };
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const zones = [...new Set([zone, ...Intl.supportedValuesOf("timeZone"), "UTC"])];
  byId("zone").append(...zones.map((one) => element("option", {}, one)));
  byId("currency").append(
    ...Object.keys(MINOR_DIGITS).map((code) => element("option", { selected: code === "USD" }, code)),
  );
  for (const name of FIELDS) {
    const value = before?.fields[name];
    if (value !== undefined) entry(name).value = value;
    entry(name).addEventListener("input", () => {
      if (name === "fair" || name === "stall") named.add(name);
      say(name, "");
      changed();
    });
  }
  for (const name of ["fair", "stall"] as const) {
    const derived = slugOf(before?.fields[`${name}-name`] ?? "") ?? "";
    if ((before?.fields[name] ?? derived) !== derived) named.add(name);
  }
  byId("days").append(...(before?.days ?? [tomorrow()]).map((day) => drawDay(day, changed)));
  byId("days").addEventListener("input", changed);
  byId("day-add").addEventListener("click", () => {
    const last = daysTyped().at(-1) ?? tomorrow();
    const next = new Date(Date.parse(`${last.date}T00:00:00Z`) + 86_400_000);
    const date = Number.isNaN(next.getTime()) ? tomorrow().date : next.toISOString().slice(0, 10);
    byId("days").append(drawDay({ ...last, date }, changed));
    changed();
  });

  return {
    say,
    read() {
      let whole = true;
      const need = (name: FieldName, text: string): string => {
        const value = entry(name).value.trim();
        say(name, value === "" ? text : "");
        if (value === "" && whole) entry(name).focus();
        whole &&= value !== "";
        return value;
      };
      const wanted = {
        fairName: need("fair-name", "Give the fair a name."),
        stallName: need("stall-name", "Give the stall a name."),
        fair: need("fair", "Give it a short name in letters and digits, for the address."),
        stall: need("stall", "Give it a short name in letters and digits, for the address."),
        timeZone: entry("zone").value,
      };
      const openings = daysTyped().map((day) => openingOf(wanted.timeZone, day));
      const days = openings.filter((one) => one !== null);
      byId("days-fault").textContent =
        days.length === openings.length ? "" : "A day still lacks its date, opening or closing time.";
      if (!whole || days.length !== openings.length) return null;
      return { wanted: { ...wanted, openings: days }, currency: entry("currency").value };
    },
  };
}
