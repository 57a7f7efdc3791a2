/** The old address of a stall that has moved: the customer's token goes along to the new one, which takes it as its own. */
import { byId, pageData } from "../kit/dom.ts";
import { tokenOf } from "./token.ts";

const token = tokenOf(`${pageData("fair")}/${pageData("stall")}`).get();
if (token !== null)
  byId<HTMLAnchorElement>("new-address").hash = new URLSearchParams({ customer: token }).toString();
