/** @jsxImportSource preact */
/** What earlier fairs changed in this plan: each figure before and after, its sample, and a tick to leave it out. */
import { spelt } from "../../kit/spelling.ts";
import { hasLessons, isLeftOut, leavingOut, TAUGHT } from "../day/after.ts";
import { whole } from "../figures.ts";
import { planOf, type State } from "../state.ts";
import type { Ways } from "../ways.ts";

type Props = { readonly state: State; readonly ways: Ways };

const percent = (share: number): string => `${(share * 100).toFixed(1)} %`;

export function Taught({ state, ways }: Props) {
  if (!hasLessons(state.day)) return null;
  const taught = planOf(state)?.taught ?? [];
  return (
    <section id="taught" class="wide" tabindex={0} aria-label="What earlier fairs changed">
      <table>
        <caption>What earlier fairs changed</caption>
        <thead>
          <tr>
            <th scope="col">Figure</th>
            <th scope="col" class="number">
              Your guess
            </th>
            <th scope="col" class="number">
              With the fairs
            </th>
            <th scope="col" class="number">
              Rests on
            </th>
          </tr>
        </thead>
        {TAUGHT.map(([part, name]) => (
          <tbody key={part}>
            <tr>
              <th scope="rowgroup" colspan={4}>
                <label>
                  <input
                    type="checkbox"
                    id={`taught-${part}`}
                    checked={!isLeftOut(state.day, part)}
                    onChange={({ currentTarget: { checked } }) =>
                      ways.change("organiser", "#/leftOut", leavingOut(state.day, part, !checked))
                    }
                  />
                  {spelt(name)}
                </label>
              </th>
            </tr>
            {taught
              .filter((change) => change.part === part)
              .map(({ of, before, after, sample }) => (
                <tr key={of}>
                  <th scope="row">{of}</th>
                  <td class="number">{percent(before)}</td>
                  <td class="number">{percent(after)}</td>
                  <td class="number">{whole(sample)}</td>
                </tr>
              ))}
          </tbody>
        ))}
      </table>
    </section>
  );
}
