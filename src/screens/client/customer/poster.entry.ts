/** The poster: puts the stall's own name on it and prints it. */
import type { MenuView } from "../../../model/menu/menu-view.ts";
import { apiAt } from "../kit/api.ts";
import { byId, pageData } from "../kit/dom.ts";

byId("print").addEventListener("click", () => window.print());

const api = apiAt(`/v1/fairs/${pageData("fair")}/stalls/${pageData("stall")}`, () => null);
const { status, body } = await api("/menu");
if (status === 200) byId("stall-name").textContent = (body as MenuView).stall; // the route's documented answer
