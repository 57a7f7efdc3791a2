/** The form of a first run: its values are kept in this browser until the fair is made. */
import { MINOR_DIGITS } from "../../../model/basics/minor-digits.ts";
import { byId, element } from "../kit/dom.ts";
import { local } from "../kit/texts-kept.ts";
import { dayRows, showZones, tomorrow } from "./day-rows.ts";
import type { Day } from "./days.ts";
import type { Wanted } from "./making.ts";
import { slugOf } from "./short-name.ts";

const PLACE = "first run";
const FIELDS = ["fair-name", "stall-name", "fair", "stall", "zone", "currency"] as const;
type FieldName = (typeof FIELDS)[number];

const entry = (name: FieldName): HTMLInputElement => byId<HTMLInputElement>(name);

type Kept = { readonly fields: Partial<Record<FieldName, string>>; readonly days: readonly Day[] };

function kept(): Kept | null {
  const text = local.getItem(PLACE);
  return text === null ? null : (JSON.parse(text) as Kept); // written below only
}

export const forget = (): void => local.removeItem(PLACE);

export type Asked = { readonly wanted: Wanted; readonly currency: string };

/** Sets the form up. `read` returns its values, or null if some are missing, which are then marked. */
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
    local.setItem(PLACE, JSON.stringify({ fields, days: rows.typed() }));
  };
  const rows = dayRows(changed);
  showZones();
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
  rows.show(before?.days ?? [tomorrow()]);

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
      const openings = rows.openings(wanted.timeZone);
      if (!whole || openings === null) return null;
      return { wanted: { ...wanted, openings }, currency: entry("currency").value };
    },
  };
}
