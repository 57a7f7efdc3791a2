/** @jsxImportSource preact */
/** One table: fields for counts, with arrow keys between them, and the promised and free numbers. */
import { giveFile } from "../kit/file.ts";
import { Tap } from "../parts/tap.tsx";
import type { Actions } from "./actions.ts";
import { isCount, readSheet, sheetOf } from "./sheet.ts";
import { becomes, type State, typedIn, wrongIn } from "./state.ts";
import type { Table } from "./tables.ts";

const MOVES: Readonly<Record<string, readonly [down: number, across: number]>> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  Enter: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/** Whether an arrow key would leave the field instead of moving within its text. */
const atEdge = (field: HTMLInputElement, key: string): boolean =>
  key === "ArrowLeft"
    ? field.selectionEnd === 0
    : key !== "ArrowRight" || field.selectionStart === field.value.length;

type Props = { readonly table: Table; readonly state: State; readonly actions: Actions };
type CellProps = Props & { readonly row: number; readonly column: number };

function Cell({ table, state, actions, row, column }: CellProps) {
  const { key, title, down, across } = table;
  const [line, head] = [down.heads[row], across.heads[column]];
  if (line === undefined || head === undefined) return null;
  const piece = table.piece(line.id, head.id);
  const idAt = (down: number, across: number): string => `cell-${key}-${down}-${across}`;
  const id = idAt(row, column);
  const { onHand, promised, free } = state.counts(piece);
  const low = becomes(state, piece) < promised;
  const notes = [
    `${free} free`,
    ...(promised === 0 ? [] : [`${promised} promised`]),
    ...(low ? ["below promised"] : []),
  ];
  const why = wrongIn(state, piece);

  function move(event: KeyboardEvent & { readonly currentTarget: HTMLInputElement }): void {
    const field = event.currentTarget;
    const by = MOVES[event.key];
    const whole = field.selectionStart === 0 && field.selectionEnd === field.value.length;
    if (by === undefined || !(whole || atEdge(field, event.key))) return;
    const next = document.getElementById(idAt(row + by[0], column + by[1]));
    if (next === null) return;
    event.preventDefault();
    next.focus();
  }

  function paste(event: ClipboardEvent): void {
    const text = event.clipboardData?.getData("text") ?? "";
    if (!/[\t\n,;]/.test(text.trim())) return;
    event.preventDefault();
    const { cells, faults } = readSheet(text, table, { down: row, across: column });
    actions.type(cells);
    const bad = [...cells.values()].filter((one) => !isCount(one)).length;
    const marked =
      bad === 0 ? "" : ` ${bad === 1 ? "1 cell is" : `${bad} cells are`} marked: no whole number.`;
    actions.say(`${cells.size - bad} counts were pasted.${marked} ${faults.join(" ")}`.trim());
  }

  return (
    <td>
      <input
        id={id}
        class={low ? "below" : undefined}
        inputMode="numeric"
        autocomplete="off"
        maxLength={5}
        placeholder={String(onHand)}
        aria-label={key === "transfers" ? `${line.name} transfers` : `${title}, ${line.name}, ${head.name}`}
        aria-describedby={`${id}-note`}
        aria-invalid={why === null ? undefined : true}
        value={typedIn(state, piece)}
        onInput={({ currentTarget: { value } }) => actions.type(new Map([[piece, value]]))}
        onFocus={({ currentTarget }) => currentTarget.select()}
        onKeyDown={move}
        onPaste={paste}
      />
      <span id={`${id}-note`} class={why === null ? "note" : "note fault"}>
        {why ?? notes.map((note) => <span key={note}>{note}</span>)}
      </span>
    </td>
  );
}

export function Grid({ table, state, actions }: Props) {
  const { key, title, down, across, piece } = table;
  const wide = across.heads.length > 1;
  const sum = (pieces: readonly string[]): number =>
    pieces.reduce((all, one) => all + becomes(state, one), 0);
  const shown = (one: string): string => typedIn(state, one) || String(state.counts(one).onHand);
  const inRow = (row: string): readonly string[] => across.heads.map(({ id }) => piece(row, id));
  return (
    <div class={key === "transfers" ? "stock-table transfers" : "stock-table"}>
      <h2 id={`title-${key}`}>{title}</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by the keyboard */}
      <section class="wide" tabIndex={0} aria-labelledby={`title-${key}`}>
        <table>
          <caption class="offstage">{`${title}: ${down.what} down, ${across.what} across`}</caption>
          <thead>
            <tr>
              <th scope="col">{down.what}</th>
              {across.heads.map(({ id, name }) => (
                <th key={id} scope="col">
                  {name}
                </th>
              ))}
              {wide ? (
                <th scope="col" class="number">
                  Total
                </th>
              ) : null}
            </tr>
          </thead>
          <tbody>
            {down.heads.map(({ id, name }, row) => (
              <tr key={id}>
                <th scope="row">{name}</th>
                {across.heads.map((head, column) => (
                  <Cell
                    key={head.id}
                    table={table}
                    state={state}
                    actions={actions}
                    row={row}
                    column={column}
                  />
                ))}
                {wide ? <td class="number total">{sum(inRow(id))}</td> : null}
              </tr>
            ))}
            <tr class="totals">
              <th scope="row">Total</th>
              {across.heads.map(({ id }) => (
                <td key={id} class="number total">
                  {sum(down.heads.map((line) => piece(line.id, id)))}
                </td>
              ))}
              {wide ? <td class="number total">{sum(down.heads.flatMap(({ id }) => inRow(id)))}</td> : null}
            </tr>
          </tbody>
        </table>
      </section>
      <p class="row">
        <Tap onTap={() => actions.copy(sheetOf(table, shown, "\t"))}>Copy for a spreadsheet</Tap>
        <Tap onTap={() => giveFile(`${key}.csv`, "text/csv", sheetOf(table, shown, ","))}>As a csv file</Tap>
      </p>
    </div>
  );
}
