/** @jsxImportSource preact */
/** The stalls' table, sorted as asked; a stall's name chooses it. */
import type { StallPace } from "../../../model/fair/throughput.ts";
import { COLUMNS, type Column, sorted } from "./columns.ts";
import { type Moment, signsOf } from "./signs.ts";
import { type Actions, type State, sortedBy } from "./state.ts";

type Props = { readonly state: State; readonly actions: Actions };

const classOf = ({ isNumber, isNow, isFurther }: Column): string =>
  [isNumber ? "number" : "", isNow ? "now" : "", isFurther ? "further" : ""]
    .filter((name) => name !== "")
    .join(" ");

function Cell({ column, stall, moment }: { column: Column; stall: StallPace; moment: Moment }) {
  return (
    <td class={classOf(column)}>
      {column.id === "sign"
        ? signsOf(stall, moment).map((sign) => (
            <span key={sign} class={`sign ${sign.replaceAll(" ", "-")}`}>
              {sign}
            </span>
          ))
        : column.text(stall, moment)}
    </td>
  );
}

const [NAME, ...FIGURES] = COLUMNS;

export function Stalls({ state, actions }: Props) {
  const { pace, order, moment, chosen, every, most } = state;
  const stalls = order === null ? pace.stalls : sorted(pace.stalls, order, moment);
  const direction = order?.descending ? "descending" : "ascending";
  return (
    <table id="stalls" class={every ? "every" : undefined}>
      <caption class="offstage">One row a stall. A heading’s button sorts by it.</caption>
      <thead>
        <tr>
          {COLUMNS.map((column) => (
            <th
              key={column.id}
              scope="col"
              class={classOf(column)}
              aria-sort={order?.column === column ? direction : undefined}
            >
              <button type="button" onClick={() => actions.change((before) => sortedBy(before, column))}>
                {column.heading}
              </button>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {stalls.slice(0, most).map((stall) => (
          <tr key={stall.stall}>
            <th scope="row">
              <button
                type="button"
                aria-pressed={stall.stall === chosen}
                onClick={() => actions.ask({ chosen: stall.stall === chosen ? null : stall.stall })}
              >
                {NAME?.text(stall, moment)}
              </button>
            </th>
            {FIGURES.map((column) => (
              <Cell key={column.id} column={column} stall={stall} moment={moment} />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
