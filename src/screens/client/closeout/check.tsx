/** @jsxImportSource preact */
/** The results of a day: the figures at a glance, and the tables that print on one sheet. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { spelt } from "../kit/spelling.ts";
import { Tap } from "../parts/tap.tsx";
import { Planned } from "./planned.tsx";
import type { Actions, State } from "./state.ts";
import { type Cell, type Figures, tablesOf } from "./tables.ts";

type Props = { readonly state: State; readonly actions: Actions };

type RowProps = { readonly cells: readonly Cell[]; readonly headings?: readonly string[] };

const Row = ({ cells: [head, ...cells], headings = [] }: RowProps) => (
  <tr>
    <th scope="row">{head}</th>
    {[...cells.entries()].map(([at, cell]) => (
      <td
        key={at}
        class={cell === 0 || cell === null ? "number nought" : "number"}
        data-column={headings[at + 1]}
      >
        {cell ?? "–"}
      </td>
    ))}
  </tr>
);

/** A table without rows is not shown; one of many columns is a list on a phone. */
function FiguresTable({ id, title, headings, rows }: Figures) {
  if (rows.length === 0) return null;
  const kind = headings.length > 4 ? "wide stacked" : "wide";
  return (
    <div class="figures">
      <h3 id={`${id}-title`}>{title}</h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by the keyboard */}
      <section class={kind} tabIndex={0} aria-labelledby={`${id}-title`}>
        <table id={id}>
          <thead>
            <tr>
              {headings.map((heading, at) => (
                <th key={heading} scope="col" class={at === 0 ? "" : "number"}>
                  {heading}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map((cells) => (
              <Row key={cells[0]} cells={cells} headings={headings} />
            ))}
          </tbody>
        </table>
      </section>
    </div>
  );
}

type FoldedProps = { readonly summary: string; readonly children: ComponentChildren };

/** A folded part, which opens when the page is printed. */
function Folded({ summary, children }: FoldedProps) {
  const lid = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    const open = (): void => lid.current?.setAttribute("open", "");
    window.addEventListener("beforeprint", open);
    return () => window.removeEventListener("beforeprint", open);
  }, []);
  return (
    <details ref={lid}>
      <summary>{summary}</summary>
      {children}
    </details>
  );
}

export function Check({ state, actions }: Props) {
  const { account, menu } = state;
  const { glance, money, sheet, split, stock } = tablesOf(account, menu);
  return (
    <>
      <h2 class="no-print" id="check">
        3 Check
      </h2>
      {account.unpriced.length === 0 ? null : (
        <p class="notice no-print">
          {`No cost yet for ${account.unpriced.join(", ")}. Add it under Costs: until then, profit, waste and leftover stock leave them out.`}
        </p>
      )}
      <dl id="glance" class="figures-row">
        {glance.map(([name, figure]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{figure}</dd>
          </div>
        ))}
      </dl>
      <Planned state={state} actions={actions} />
      <div class="sheet">
        <section class="figures" aria-labelledby="money-title">
          <h3 id="money-title">Money</h3>
          <table id="money">
            <tbody>
              {money.map((cells) => (
                <Row key={cells[0]} cells={cells} />
              ))}
            </tbody>
          </table>
        </section>
        {sheet.map((table) => (
          <FiguresTable key={table.id} {...table} />
        ))}
      </div>
      <Folded summary={spelt("By size, colour and hour")}>
        <div class="sheet">
          {split.map((table) => (
            <FiguresTable key={table.id} {...table} />
          ))}
        </div>
      </Folded>
      <Folded summary="Piece by piece: blanks and transfers">
        {stock.map((table) => (
          <FiguresTable key={table.id} {...table} />
        ))}
      </Folded>
      <p class="row no-print">
        <Tap onTap={() => print()}>Print</Tap>
        <Tap onTap={actions.saveSheet}>Save as a table</Tap>
      </p>
    </>
  );
}
