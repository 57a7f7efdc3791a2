/** An invented stall for trying the conversation: six offers on three blanks, in two languages. */
import { Menu } from "../../src/model/menu/catalogue.ts";
import type { Rules } from "../../src/model/menu/rules.ts";

const flat = { temperatureFahrenheit: 365, dwellSeconds: 5, pressure: "firm", peel: "hot" } as const;

const colours = {
  navy: { id: "navy", name: "Navy", translations: { es: "Azul marino" } },
  sand: { id: "sand", name: "Sand", translations: { es: "Arena" } },
  forest: { id: "forest", name: "Forest", translations: { es: "Verde bosque" } },
  black: { id: "black", name: "Black", translations: { es: "Negro" } },
  natural: { id: "natural", name: "Natural", translations: { es: "Crudo" } },
} as const;

const design = (id: string, name: string, es: string, widthInches = 9) => ({
  id,
  name,
  translations: { es },
  kind: "screen-printed",
  widthInches,
  heightInches: widthInches > 5 ? 10 : 2.25,
  settings: flat,
});

/**
 * 1 Longtail tee, 2 Red kite tee and 3 Otter tee come in navy, sand, forest and S to 2XL; the Otter tee in
 * youth S to L as well. 4 Tern cap comes in navy and black, one size. 5 Tern tote and 6 Heron tote come in
 * natural only, one size.
 */
export const exampleMenu = (rules: Partial<Rules> = {}): Menu =>
  Menu.parse({
    currency: "USD",
    blanks: [
      {
        id: "tee",
        name: "Tee",
        translations: { es: "Camiseta" },
        platen: "flat",
        colours: [colours.navy, colours.sand, colours.forest],
        sizes: [
          { id: "S", name: "S", chestInches: 18 },
          { id: "M", name: "M", chestInches: 20 },
          { id: "L", name: "L", chestInches: 22 },
          { id: "XL", name: "XL", chestInches: 24 },
          { id: "2XL", name: "2XL", chestInches: 26 },
          { id: "YS", name: "Youth S", translations: { es: "S juvenil" }, chestInches: 15, child: true },
          { id: "YM", name: "Youth M", translations: { es: "M juvenil" }, chestInches: 16, child: true },
          { id: "YL", name: "Youth L", translations: { es: "L juvenil" }, chestInches: 17, child: true },
        ],
      },
      {
        id: "cap",
        name: "Cap",
        translations: { es: "Gorra" },
        platen: "cap",
        colours: [colours.navy, colours.black],
        sizes: [{ id: "one", name: "One size", translations: { es: "Talla única" } }],
      },
      {
        id: "tote",
        name: "Tote",
        translations: { es: "Bolsa" },
        platen: "flat",
        colours: [colours.natural],
        sizes: [{ id: "one", name: "One size", translations: { es: "Talla única" } }],
      },
    ],
    designs: [
      design("longtail", "Longtail", "Mito"),
      design("red-kite", "Red kite", "Milano real"),
      design("otter", "Otter", "Nutria"),
      design("tern", "Tern", "Charrán", 4),
      design("heron", "Heron", "Garza"),
    ],
    offers: [
      offer("longtail-tee", "Longtail tee", "Camiseta mito", "tee", "longtail", 2400),
      offer("red-kite-tee", "Red kite tee", "Camiseta milano", "tee", "red-kite", 2400),
      { ...offer("otter-tee", "Otter tee", "Camiseta nutria", "tee", "otter", 2200), sizes: undefined },
      offer("tern-cap", "Tern cap", "Gorra charrán", "cap", "tern", 1800),
      offer("tern-tote", "Tern tote", "Bolsa charrán", "tote", "tern", 1500),
      offer("heron-tote", "Heron tote", "Bolsa garza", "tote", "heron", 1500),
    ],
    presses: [
      { id: "A", platen: "flat" },
      { id: "B", platen: "cap" },
    ],
    rules: { contact: "tern@brackenfield.example", ...rules },
  });

function offer(id: string, name: string, es: string, blank: string, design: string, price: number) {
  const sizes = blank === "tee" ? ["S", "M", "L", "XL", "2XL"] : undefined;
  return { id, name, translations: { es }, blank, design, price, sizes };
}
