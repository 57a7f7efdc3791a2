/** @jsxImportSource preact */
/** The pictures on the set-up page: a design's artwork, sent at once and apart from the menu, and an offer as it will look. */
import type { DesignId, OfferId } from "../../../../model/basics/ids.ts";
import { lookOf } from "../../../../model/garment/look.ts";
import { Garment } from "../../parts/garment.tsx";
import { Tap } from "../../parts/tap.tsx";
import type { FormContext } from "../actions.ts";

/** An offer as it looks by the last menu that made sense. */
export function OfferPicture({
  offer,
  desk: { state },
}: {
  readonly offer: string;
  readonly desk: FormContext;
}) {
  const { looked, pictures } = state;
  const of = (design: DesignId) => pictures.find((one) => one.design === design)?.picture;
  const look = looked === null ? undefined : lookOf(looked.menu, of, offer as OfferId); // an id of this menu, else none
  return (
    <div class="garment-shown">
      <Garment look={look} />
    </div>
  );
}

export function DesignPicture({ design, desk }: { readonly design: string; readonly desk: FormContext }) {
  const { state, actions } = desk;
  const id = `picture-of-${design}`;
  const offer = state.looked?.menu.offers.find((one) => one.design === (design as DesignId))?.id; // an id of this menu
  return (
    <fieldset class="picture-of">
      <legend>Picture</legend>
      <OfferPicture offer={offer ?? ""} desk={desk} />
      <div class="ask">
        <label for={id}>Artwork</label>
        <input
          id={id}
          type="file"
          accept="image/png,image/jpeg,image/webp"
          aria-describedby={`${id}-help`}
          onChange={({ currentTarget: { files } }) => {
            const file = files?.[0];
            if (file !== undefined) actions.picture(design, file);
          }}
        />
        <p id={`${id}-help`} class="help">
          PNG, JPEG or WebP, best with a clear background. It’s made small here and saved at once.
        </p>
        <p class="small" role="status">
          {state.said[id]}
        </p>
        <Tap onTap={() => actions.picture(design, null)}>Take the picture away</Tap>
      </div>
    </fieldset>
  );
}
