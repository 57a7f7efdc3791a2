/** Bundles as customers read them: what they are, and what they saved. */
import type { Language } from "../../model/basics/words.ts";
import type { Menu } from "../../model/menu/catalogue.ts";
import type { ChatOrder } from "../talk/ordering-port.ts";
import { nameIn } from "../talk/range.ts";
import { price } from "./price.ts";
import type { Saved } from "./shape.ts";

/** The bundles of an order by name, each with its saving. */
export const savedBy = (
  menu: Menu,
  language: Language,
  { bundles = [] }: Pick<ChatOrder, "bundles">,
): readonly Saved[] =>
  bundles.flatMap(({ bundle, saving }) => {
    const found = menu.bundles?.find(({ id }) => id === bundle);
    return found === undefined ? [] : [{ name: nameIn(language, found), saving: price(menu, saving) }];
  });

/** The bundles as the menu says them: "Any 2 tees $40". */
export const bundlesOnSale = (menu: Menu, language: Language): readonly string[] =>
  (menu.bundles ?? [])
    .filter(({ offered }) => offered)
    .map((bundle) => `${nameIn(language, bundle)} ${price(menu, bundle.price)}`);
