/** What hangs at the stall on paper: the prices for customers, the settings and cautions for the crew. */
import type { Menu } from "../../../model/menu/catalogue.ts";
import { cautionsFor } from "../../../model/menu/cautions.ts";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import { lowestPrice, surchargeOf } from "../../../model/menu/prices.ts";
import { keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { moneyWords } from "../crew/words/money.ts";
import { dwellWords, pressesWords, temperature } from "../crew/words/settings.ts";
import { garmentOf, type Looks, looksIn, NO_LOOKS } from "../garment/garments.ts";
import { byId, element } from "../kit/dom.ts";
import { KIND_NAMES } from "../setup/form/kinds.ts";

/** How closely a list is set so that it stays on one page. */
const closeness = (rows: number): string => (rows > 24 ? "closest" : rows > 12 ? "closer" : "wide");

/** So many garments stand on a price card. */
const MOST_SHOWN = 6;

function priceCard(menu: Menu, looks: Looks): void {
  const sold = menu.offers
    .map((offer, index) => ({ offer, number: index + 1 }))
    .filter(({ offer }) => offer.offered);
  byId("card-garments").replaceChildren(
    ...sold.slice(0, MOST_SHOWN).flatMap(({ offer }) => {
      const look = looks.get(offer.id);
      return look === undefined ? [] : [garmentOf({ look })];
    }),
  );
  const list = byId("prices");
  list.className = closeness(sold.length);
  list.replaceChildren(
    ...sold.map(({ offer, number }) => {
      const blank = menu.blanks.find(({ id }) => id === offer.blank);
      const money = (amount: number): string => moneyWords(amount, menu.currency);
      const names = <One extends { readonly id: string; readonly name: string; readonly offered: boolean }>(
        entries: readonly One[],
        only: readonly string[] | undefined,
        more: (entry: One) => number = () => 0,
      ): string =>
        entries
          .filter(({ id, offered }) => offered && (only?.includes(id) ?? true))
          .map((entry) => (more(entry) === 0 ? entry.name : `${entry.name} +${money(more(entry))}`))
          .join(", ");
      const comes =
        blank === undefined
          ? ""
          : `${names(blank.colours, offer.colours)} · ${names(blank.sizes, offer.sizes, (size) => surchargeOf(offer, size))}`;
      const { lowest, varies } =
        blank === undefined ? { lowest: offer.price, varies: false } : lowestPrice(offer, blank);
      return element(
        "li",
        {},
        element("span", { class: "offer-number" }, String(number)),
        element(
          "span",
          { class: "offer" },
          element("b", {}, offer.name),
          element("span", { class: "comes" }, comes),
        ),
        element("span", { class: "price" }, `${varies ? "from " : ""}${money(lowest)}`),
      );
    }),
  );
  const share = menu.rules.taxPartsPerMillion / 10_000;
  byId("tax").textContent =
    share === 0
      ? ""
      : menu.rules.taxInPrice
        ? `Prices include sales tax of ${share} %.`
        : `Sales tax of ${share} % is added.`;
}

function crewSheet(menu: Menu): void {
  const rows = menu.designs.filter(({ offered }) => offered);
  byId("settings").className = closeness(rows.length);
  byId("settings-rows").replaceChildren(
    ...rows.map((design) => {
      const { settings } = design;
      const blanks = menu.offers.flatMap(({ design: id, blank }) =>
        id === design.id ? menu.blanks.filter((one) => one.id === blank) : [],
      );
      // What every platen asks for stands once, below.
      const cautions = [...new Set(blanks.flatMap((blank) => cautionsFor(blank, design)))].filter(
        (one) => !one.startsWith("Hot platen"),
      );
      return element(
        "tr",
        {},
        element("th", { scope: "row" }, design.name),
        element(
          "td",
          {},
          `${KIND_NAMES[design.kind]}, ${design.widthInches} × ${design.heightInches} in${design.placement === undefined ? "" : `, ${design.placement}`}`,
        ),
        element("td", {}, temperature(settings.temperatureFahrenheit)),
        element("td", {}, dwellWords(settings)),
        element("td", {}, settings.pressure),
        element("td", {}, `${settings.peel} peel`),
        element("td", {}, pressesWords(settings)),
        element("td", {}, cautions.join(" ")),
      );
    }),
  );
}

const crew = openCrew();
if (crew !== null) {
  const [menu, view] = await Promise.all([wholeMenu(crew.api), crew.api("/menu")]);
  if (menu === null) {
    if (!keyRefused(view))
      notice("There is no menu to print yet, or no connection. Set the stall up, then open this page again.");
  } else {
    if (view.status === 200)
      for (const place of document.querySelectorAll(".stall-name"))
        place.textContent = (view.body as MenuView).stall; // as the route documents
    priceCard(menu, view.status === 200 ? looksIn(view.body as MenuView) : NO_LOOKS); // as the route documents
    crewSheet(menu);
    byId("sheets").hidden = false;
  }
}
for (const what of ["card", "crew"] as const)
  byId(`print-${what}`).addEventListener("click", () => {
    document.body.dataset["prints"] = what;
    window.print();
  });
