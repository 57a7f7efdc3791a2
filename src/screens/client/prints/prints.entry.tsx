/** @jsxImportSource preact */
/** The stall's papers: prices for customers, settings and cautions for the crew, a tag for each order. */

import { render } from "preact";
import type { MenuView } from "../../../model/menu/menu-view.ts";
import type { OpenOrders } from "../../../model/orders/open-orders.ts";
import { keyRefused, notice, openCrew, wholeMenu } from "../crew/crew.ts";
import { looksIn, NO_LOOKS } from "../garment/garments.ts";
import { byId, pageData } from "../kit/dom.ts";
import { spellAs } from "../kit/spelling.ts";
import { local } from "../kit/texts-kept.ts";
import { type State, tagsOf } from "./state.ts";
import { type Actions, Prints } from "./view.tsx";

function show(first: State, place: string): void {
  let state = first;
  const root = byId("sheets");
  const change = (to: Partial<State>): void => {
    state = { ...state, ...to };
    spellAs(state.menu.currency);
    render(<Prints state={state} actions={actions} />, root);
  };
  const actions: Actions = {
    choose: (sheet) => change({ sheet }),
    from: (from) => change({ from }),
    print() {
      const last = tagsOf(state).at(-1)?.number;
      window.print();
      // The next time, tags begin after those.
      if (last !== undefined && (state.sheet === "tags" || state.sheet === "strip"))
        local.setItem(place, String(last + 1));
    },
  };
  change({});
}

const crew = openCrew();
if (crew !== null) {
  const [menu, view, open] = await Promise.all([
    wholeMenu(crew.api),
    crew.api("/menu"),
    crew.api("/open-orders"),
  ]);
  if (menu !== null) {
    const seen = view.status === 200 ? (view.body as MenuView) : null; // as the routes document, both
    const orders = open.status === 200 ? (open.body as OpenOrders).orders : [];
    const place = `tags ${crew.place}`;
    show(
      {
        stall: seen?.stall ?? pageData("stall"),
        menu,
        looks: seen === null ? NO_LOOKS : looksIn(seen),
        orders,
        sheet: "card",
        from: local.getItem(place) ?? "",
      },
      place,
    );
  } else if (!keyRefused(view))
    notice("There is no menu to print yet, or no connection. Set the stall up, then open this page again.");
}
