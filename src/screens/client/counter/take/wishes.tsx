/** @jsxImportSource preact */
/** Wishes on a garment beyond the menu: the stall's chips, and a line in the customer's own words. */
import type { Currency } from "../../../../model/basics/money.ts";
import { WISH_WORDS } from "../../../../model/menu/wish-words.ts";
import type { GarmentWish } from "../../../../model/menu/wishes.ts";
import { moneyWords } from "../../crew/words/money.ts";
import type { Choice } from "./pad.ts";

type Props = {
  readonly wishes: readonly GarmentWish[];
  readonly currency: Currency;
  readonly choice: Choice;
  readonly choose: (part: Partial<Choice>) => void;
};

export function Wishes({ wishes, currency, choice, choose }: Props) {
  const taken = choice.wishes ?? [];
  if (wishes.length === 0) return null;
  const more = (surcharge: number): string =>
    surcharge === 0 ? "" : ` ${surcharge > 0 ? "+" : "−"}${moneyWords(Math.abs(surcharge), currency)}`;
  return (
    <details open={taken.length > 0 || (choice.note ?? "") !== ""}>
      <summary>A wish on it</summary>
      <div class="stack">
        <fieldset id="wishes" class="choices">
          <legend>Wishes</legend>
          {wishes.map(({ id, name, surcharge }) => (
            <label key={id}>
              <input
                type="checkbox"
                checked={taken.includes(id)}
                onChange={({ currentTarget: { checked } }) =>
                  choose({ wishes: checked ? [...taken, id] : taken.filter((other) => other !== id) })
                }
              />
              <span>{`${name}${more(surcharge)}`}</span>
            </label>
          ))}
        </fieldset>
        <div>
          <label for="wish-note">In their own words</label>
          <input
            id="wish-note"
            autocomplete="off"
            maxLength={WISH_WORDS}
            value={choice.note ?? ""}
            onInput={({ currentTarget: { value } }) => choose({ note: value })}
          />
        </div>
      </div>
    </details>
  );
}
