/** @jsxImportSource preact */
/** Asks what was ruined on a garment, and why; a garment in the wrong size is good and goes on the rack. */
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { Choices, optionsOf } from "../../parts/choices.tsx";
import { Dialog } from "../../parts/dialog.tsx";
import { Tap } from "../../parts/tap.tsx";
import type { Actions } from "../actions.ts";
import { canBeSecond, otherSizes, ruinedChoices, type SpoilQuestion, WHY } from "../spoil.ts";

type Props = { readonly asked: SpoilQuestion; readonly menu: Menu | null; readonly actions: Actions };

export function SpoilDialog({ asked, menu, actions: { change, spoil } }: Props) {
  const answer = (part: Partial<SpoilQuestion>): void =>
    change((before) => ({ ...before, spoil: before.spoil && { ...before.spoil, missing: false, ...part } }));
  const close = (): void => change((before) => ({ ...before, spoil: null }));
  const isGood = asked.ruined === "wrong-size";
  return (
    <Dialog id="spoil" title={`${asked.job} spoiled`} closed={close}>
      <Choices
        id="ruined"
        legend="What is ruined?"
        options={optionsOf(ruinedChoices(menu, asked.made), asked.ruined)}
        choose={(ruined) => answer({ ruined })}
      />
      {isGood ? (
        <Choices
          id="made-size"
          legend="Which size is it?"
          options={optionsOf(otherSizes(menu, asked.made), asked.size)}
          choose={(size) => answer({ size })}
        />
      ) : (
        <Choices
          id="why"
          legend="Why?"
          options={optionsOf(WHY, asked.reason)}
          choose={(reason) => answer({ reason })}
        />
      )}
      {canBeSecond(asked) ? (
        <fieldset class="choices">
          <legend>Can it be sold?</legend>
          <label>
            <input
              type="checkbox"
              checked={asked.asSecond}
              onChange={({ currentTarget: { checked } }) => answer({ asSecond: checked })}
            />
            <span>Hang it on the rack as a second</span>
          </label>
        </fieldset>
      ) : null}
      <p role="alert">{!asked.missing ? "" : isGood ? "Choose its size." : "Choose why."}</p>
      <div class="row">
        <Tap class="main" onTap={spoil}>
          {isGood ? "Hang it on the rack" : "Mark as spoiled"}
        </Tap>
        <Tap onTap={close}>Back</Tap>
      </div>
    </Dialog>
  );
}
