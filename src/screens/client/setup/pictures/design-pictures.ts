/** The pictures of designs on the set-up page: sent at once, shown on their garments, apart from the menu that is edited. */

import { nanoid } from "nanoid";
import type { DesignId, OfferId } from "../../../../model/basics/ids.ts";
import { lookOf } from "../../../../model/garment/look.ts";
import type { PictureFacts, PicturesView } from "../../../../model/garment/picture.ts";
import type { Menu } from "../../../../model/menu/catalogue.ts";
import { garmentOf } from "../../garment/garments.ts";
import { type Api, detailOf } from "../../kit/api.ts";
import { element } from "../../kit/dom.ts";
import { shrunk } from "./shrinking.ts";

export type DesignPictures = {
  /** The picture of a design and what sets it. */
  readonly drawDesign: (design: string) => HTMLElement;
  /** An offer as it will look. */
  readonly drawOffer: (offer: string) => HTMLElement;
  /** Draws what is shown again, as the menu is now. */
  readonly redraw: (menu: Menu) => void;
};

/** Pictures of this stall; `view` is what it has already. */
export function designPictures(api: Api, view: PicturesView | null): DesignPictures {
  const has = new Map<string, PictureFacts>(
    (view?.pictures ?? []).map(({ design, picture }) => [design, picture]),
  );
  const shown = new Map<HTMLElement, (menu: Menu) => SVGElement | null>();
  let latest: Menu | null = null;

  const fill = (place: HTMLElement, make: (menu: Menu) => SVGElement | null): void => {
    const made = latest === null ? null : make(latest);
    place.replaceChildren(...(made === null ? [] : [made]));
  };
  const redraw = (): void => {
    for (const [place, make] of shown) {
      if (place.isConnected || place.childElementCount === 0) fill(place, make);
      if (!place.isConnected && place.childElementCount > 0) shown.delete(place);
    }
  };
  const place = (make: (menu: Menu) => SVGElement | null): HTMLElement => {
    const made = element("div", { class: "garment-shown" });
    shown.set(made, make);
    fill(made, make);
    return made;
  };
  const drawn = (menu: Menu, offer: OfferId | undefined): SVGElement | null => {
    const look = offer === undefined ? undefined : lookOf(menu, (design) => has.get(design), offer);
    return look === undefined ? null : garmentOf({ look });
  };

  /** Sends a picture, or takes it away; what came of it in words. */
  async function send(design: string, picture: Blob | null): Promise<string> {
    const reply = await api(`/designs/${design}/picture`, {
      method: picture === null ? "DELETE" : "PUT",
      once: nanoid(),
      ...(picture === null ? {} : { body: picture }),
    });
    if (reply.status !== 200) return detailOf(reply);
    has.clear();
    for (const one of (reply.body as PicturesView).pictures) has.set(one.design, one.picture); // as the route documents
    redraw();
    return picture === null ? "Taken away." : "Saved. Customers see it now.";
  }

  return {
    drawDesign(design) {
      const id = `picture-of-${design}`;
      const said = element("p", { class: "small", role: "status" });
      const away = element(
        "button",
        {
          type: "button",
          onclick: async () => {
            said.textContent = await send(design, null);
          },
        },
        "Take the picture away",
      );
      const input = element("input", {
        id,
        type: "file",
        accept: "image/png,image/jpeg,image/webp",
        "aria-describedby": `${id}-help`,
        onchange: async ({ target }) => {
          const file = (target as HTMLInputElement).files?.[0]; // made here
          if (file === undefined) return;
          said.textContent = "Making it small enough…";
          const small = await shrunk(file);
          said.textContent =
            small === null
              ? "This browser can’t draw that file. Save the artwork as PNG, JPEG or WebP and pick it again."
              : await send(design, small);
        },
      });
      const onOffer = (menu: Menu): SVGElement | null =>
        drawn(menu, menu.offers.find((offer) => offer.design === (design as DesignId))?.id); // an id of this menu
      return element(
        "fieldset",
        { class: "picture-of" },
        element("legend", {}, "Picture"),
        place(onOffer),
        element(
          "div",
          { class: "ask" },
          element("label", { for: id }, "Artwork"),
          input,
          element(
            "p",
            { id: `${id}-help`, class: "help" },
            "PNG, JPEG or WebP, best with a clear background. It’s made small here and saved at once.",
          ),
          said,
          away,
        ),
      );
    },
    drawOffer: (offer) => place((menu) => drawn(menu, menu.offers.find(({ id }) => id === offer)?.id)),
    redraw(menu) {
      latest = menu;
      redraw();
    },
  };
}
