/** @jsxImportSource preact */
/** Figures as a crew reads them, and the small pieces every result is drawn from. */

import type { ComponentChild, ComponentChildren } from "preact";
import { minorDigits } from "../../../planning/request/given.ts";
import { inPercent } from "../../../planning/words/amounts.ts";
import { honestStep } from "../../../planning/words/summary.ts";
import { spelt } from "../kit/spelling.ts";

/** An amount in whole units: nobody plans a day to the cent. */
export function about(minor: number, currency: string): string {
  const form = new Intl.NumberFormat("en", { style: "currency", currency, maximumFractionDigits: 0 });
  // A separate minus sign, joined to its amount, so that a loss is not overlooked; and no "-$0".
  const words = form.format(Math.abs(minor) / 10 ** minorDigits(currency));
  return Math.round(minor / 10 ** minorDigits(currency)) < 0 ? `−\u2060${words}` : words;
}

export const whole = (value: number): string => Math.round(value).toLocaleString("en");

/** A count that imagined days know to about one part in fifty. */
export function roughly(value: number): string {
  const step = honestStep(value / 50);
  return whole(Math.round(value / step) * step);
}

/** A chance in words of ten and hundred, never a bare 0 or 100 %. */
export function odds(chance: number): string {
  if (chance > 0 && chance < 0.01) return "under 1 %";
  if (chance < 1 && chance > 0.99) return "over 99 %";
  return inPercent(chance);
}

type BarProps = { readonly share: number; readonly from?: number; readonly kind?: string };

const inTrack = (part: number): string => String(Math.max(0, Math.min(1, part)));

/** A bar whose length the style sheet takes from --from and --share, in parts of its track. */
export const Bar = ({ share, from = 0, kind = "" }: BarProps) => (
  <span class="track" aria-hidden="true">
    <span
      class={`bar ${kind}`.trim()}
      aria-hidden="true"
      style={{ "--share": inTrack(share), "--from": inTrack(from) }}
    />
  </span>
);

/** A column of figures by its name, or one of words; the first column is of words. */
type Column = string | { readonly words: string };

type TableProps = {
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly ComponentChild[])[];
  /** A table of long words: a list of its rows on a phone. */
  readonly stacked?: boolean;
};

/** A table that scrolls alone if it is too wide; the first cell of each row is its heading. */
export function Table({ caption, columns, rows, stacked = false }: TableProps) {
  const named = columns.map((column) => spelt(typeof column === "string" ? column : column.words));
  const kind = (at: number) => (at > 0 && typeof columns[at] === "string" ? "number" : undefined);
  return (
    <section class={stacked ? "wide stacked" : "wide"} tabindex={0} aria-label={caption}>
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            {named.map((name, at) => (
              <th key={name} scope="col" class={kind(at)}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={String(row[0])}>
              {row.map((cell, at) =>
                at === 0 ? (
                  <th key={named[at]} scope="row">
                    {cell}
                  </th>
                ) : (
                  <td key={named[at]} class={kind(at)} data-column={named[at]}>
                    {cell}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

type Told = { readonly each: readonly string[] };

/** A list of sentences. */
export const Sentences = ({ each }: Told) => (
  <ul class="told">
    {each.map((one) => (
      <li key={one}>{spelt(one)}</li>
    ))}
  </ul>
);

/** Cautions of danger: never without their heading. */
export const Cautions = ({ each }: Told) => (
  <section class="notice cautions">
    <h3>Take care</h3>
    <Sentences each={each} />
  </section>
);

type FoldedProps = { readonly summary: string; readonly children: ComponentChildren };

/** A part that few people need, folded under a line that opens it. */
export const Folded = ({ summary, children }: FoldedProps) => (
  <details>
    <summary>{spelt(summary)}</summary>
    {children}
  </details>
);

/** Facts with their names. */
export const Facts = ({ each }: { readonly each: readonly (readonly [name: string, value: string])[] }) => (
  <dl class="figures-row">
    {each.map(([name, value]) => (
      <div key={name}>
        <dt>{name}</dt>
        <dd>{value}</dd>
      </div>
    ))}
  </dl>
);

/** Each word once, in the order in which they come first. */
export const unique = (all: readonly string[]): string[] => [...new Set(all)];
