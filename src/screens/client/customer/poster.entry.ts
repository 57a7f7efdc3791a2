/** The poster: puts the stall's own name, garments and prices on it and prints it. */
import type { MenuView } from "../../../model/menu/menu-view.ts";
import { garmentOf, onSale } from "../garment/garments.ts";
import { apiAt } from "../kit/api.ts";
import { byId, element, pageData } from "../kit/dom.ts";
import { bundleLines, rangeWords, taxLines } from "../prints/posted.ts";

byId("print").addEventListener("click", () => window.print());

const api = apiAt(`/v1/fairs/${pageData("fair")}/stalls/${pageData("stall")}`, () => null);
const { status, body } = await api("/menu");
/** As many garments as a poster shows; each in the next of its colours, so that they are not all alike. */
const MOST_SHOWN = 3;
if (status === 200) {
  const view = body as MenuView; // the route's documented answer
  byId("stall-name").textContent = view.stall;
  byId("garments").replaceChildren(
    ...onSale(view, MOST_SHOWN).map(({ offer, ...look }) =>
      element(
        "div",
        {},
        garmentOf(look),
        element("p", { class: "large" }, `${offer.name} `, element("b", {}, rangeWords(offer, view))),
      ),
    ),
  );
  const tax = taxLines(view);
  byId("prices").replaceChildren(
    ...bundleLines(view).map(({ words, others }) =>
      element(
        "p",
        {},
        element("b", {}, words),
        ...others.flatMap(([lang, name]) => [" · ", element("span", { lang }, name)]),
      ),
    ),
    ...(tax === null ? [] : [element("p", {}, `${tax.en} · `, element("span", { lang: "es" }, tax.es))]),
  );
}
