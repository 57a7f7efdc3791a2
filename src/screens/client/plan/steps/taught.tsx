/** @jsxImportSource preact */
/** What earlier fairs changed in this plan: each figure before and after, its sample, and a tick to leave it out. */
import type { Plan } from "../../../../model/planning/plan-answer.ts";
import type { TaughtEffect } from "../../../../planning/taught-effects.ts";
import { spelt } from "../../kit/spelling.ts";
import type { Actions } from "../actions.ts";
import { hasLessons, isLeftOut, leavingOut, TAUGHT } from "../day/after.ts";
import { about, whole } from "../figures.tsx";
import { namesIn, wordAt } from "../groups/names.ts";
import { planOf, type State, standing } from "../state.ts";

type Props = { readonly state: State; readonly actions: Actions };

const WAYS: Readonly<Record<Plan["best"], string>> = {
  "press-on-site": "press on site",
  "print-ahead": "print everything ahead",
  mixed: "print the sure sellers ahead",
};

/** What a tick changes in the advice and in the profit; of one that is off, what it would. */
function effectWords(
  effects: readonly TaughtEffect[] | null,
  part: string,
  { day }: Pick<State, "day">,
): string {
  if (effects === null) return "";
  const effect = effects.find((one) => one.part === part);
  if (effect === undefined) return "Nothing was counted.";
  const { blanks, moves, profit, way } = effect;
  const names = namesIn(day.plan).blanks;
  const signed = (pieces: number): string => `${pieces > 0 ? "+" : "−"}${whole(Math.abs(pieces))}`;
  const most = moves.map(({ sku, pieces }) => {
    const [blank = "", ...choice] = sku.split(".");
    return `${signed(pieces)} ${[names.get(blank) ?? blank, ...choice].join(", ")}`;
  });
  const bring =
    moves.length === 0
      ? "the same blanks"
      : `${blanks === 0 ? "as many" : signed(blanks)} ${Math.abs(blanks) === 1 ? "blank" : "blanks"} (above all ${most.join(" and ")})`;
  const money = about(Math.abs(profit), wordAt(day.plan, "#/currency", "USD"));
  const sum = /[1-9]/.test(money)
    ? `${money} ${profit > 0 ? "more" : "less"} profit expected`
    : "the same profit expected";
  const run = way === null ? "" : `; best to ${WAYS[way]}`;
  const isOut = isLeftOut(day, part);
  if (moves.length === 0 && way === null && !/[1-9]/.test(money))
    return isOut ? "Ticked, it would change nothing." : "It changes nothing.";
  return `${isOut ? "Ticked, it would change" : "It changes"}: ${bring}, ${sum}${run}.`;
}

const percent = (share: number): string => `${(share * 100).toFixed(1)} %`;

export function Taught({ state, actions }: Props) {
  if (!hasLessons(state.day)) return null;
  const taught = planOf(state)?.taught ?? [];
  const { answer } = state.answers.taught ?? {};
  const effects = answer?.part === "taught" && standing(state, "taught") === "now" ? answer.answer : null;
  return (
    <section id="taught" class="wide" tabindex={0} aria-label="What earlier fairs changed">
      <p id="taught-standing" role="status" class="help">
        {effects === null ? "Working out what each changes…" : "What each changes is up to date."}
      </p>
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
                      actions.change("organiser", "#/leftOut", leavingOut(state.day, part, !checked))
                    }
                  />
                  {spelt(name)}
                </label>
                <p id={`taught-${part}-effect`} class="help">
                  {effectWords(effects, part, state)}
                </p>
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
