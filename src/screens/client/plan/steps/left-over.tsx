/** @jsxImportSource preact */
/** What the fair before left of each design, with a tick to bring it again. */

import type { Actions } from "../actions.ts";
import { leftoversOf, stayingHome } from "../day/leftovers.ts";
import { namesIn } from "../groups/names.ts";
import type { State } from "../state.ts";

type Props = { readonly state: State; readonly actions: Actions };

export function LeftOver({ state: { day }, actions }: Props) {
  const left = leftoversOf(day);
  if (left.length === 0) return null;
  const names = namesIn(day.plan).designs;
  return (
    <section id="left-over" class="wide" tabindex={0} aria-label="What the fair before left">
      <table>
        <caption>What the fair before left</caption>
        <thead>
          <tr>
            <th scope="col">Bring again</th>
            <th scope="col" class="number">
              Transfers
            </th>
            <th scope="col" class="number">
              Printed garments
            </th>
          </tr>
        </thead>
        <tbody>
          {left.map(({ design, transfers, garments, staysHome }) => (
            <tr key={design}>
              <th scope="row">
                <label>
                  <input
                    type="checkbox"
                    id={`bring-${design}`}
                    checked={!staysHome}
                    onChange={({ currentTarget: { checked } }) =>
                      actions.change("organiser", ...stayingHome(day, design, !checked))
                    }
                  />
                  {names.get(design) ?? design}
                </label>
              </th>
              <td class="number">{transfers}</td>
              <td class="number">{garments}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p class="help">
        Is a date in the art? Untick the design if its date has passed: what is left of it then stays at home.
        Blanks that are left come along.
      </p>
    </section>
  );
}
