/** The bar above every page: what the page is, whether it is connected, its own buttons, and the way to all others. */
import type { Child } from "hono/jsx";
import { Freshness } from "./layout.tsx";
import type { Place } from "./place.ts";

/** The crew's pages by what they are for: their names, and their addresses from the stall's. */
const CREW_PAGES = [
  [
    "Sell",
    [
      ["Press", "/crew/*"],
      ["Counter", "/crew/*/counter"],
      ["Board", "/at/*/board"],
    ],
  ],
  [
    "Stock",
    [
      ["Count", "/crew/*/stock"],
      ["Set-up", "/crew/*/setup"],
      ["Print", "/crew/*/prints"],
    ],
  ],
  [
    "Day",
    [
      ["How the day is going", "/crew/*/day"],
      ["Close-out", "/crew/*/closeout"],
      ["Foot traffic", "/crew/*/passers-by"],
    ],
  ],
] as const;

type CrewPage = (typeof CREW_PAGES)[number][1][number][0];

/** Turns the night theme on and off on this device; menu/theme.entry.ts hears the tap. */
export function NightSwitch() {
  return (
    <button type="button" data-theme-switch="" aria-pressed="false">
      Night
    </button>
  );
}

type MenuProps = {
  /** The label of its links, for screen readers. */
  readonly label: string;
  readonly groups: readonly (readonly [
    heading: string,
    links: readonly (readonly [name: string, address: string])[],
  ])[];
  /** The name of the link to the page that is open. */
  readonly here?: string;
  readonly children?: Child;
};

/** A page's links by groups, and under them the ways that every page has. */
function Menu({ label, groups, here, children }: MenuProps) {
  return (
    <details class="menu no-print">
      <summary class="button">Menu</summary>
      <nav aria-label={label}>
        {groups.map(([group, links]) => (
          <section>
            <h2>{group}</h2>
            {links.map(([name, address]) => (
              <a class="button" href={address} aria-current={name === here ? "page" : undefined}>
                {name}
              </a>
            ))}
          </section>
        ))}
        <div class="ways tiles">
          {children}
          <a class="button" href="/help">
            Help
          </a>
          <a class="button" href="/">
            All pages
          </a>
          <NightSwitch />
        </div>
      </nav>
      <script type="module" src="/assets/menu.js"></script>
    </details>
  );
}

function CrewMenu({ fair, stall, here }: Place & { readonly here: CrewPage }) {
  const groups = CREW_PAGES.map(
    ([heading, pages]) =>
      [
        heading,
        pages.map(([name, address]) => [name, address.replace("*", `${fair}/${stall}`)] as const),
      ] as const,
  );
  return (
    <Menu label="The stall’s pages" groups={groups} here={here}>
      {here === "Press" || here === "Counter" ? (
        <button id="chime" type="button" aria-pressed="false">
          Chime for new orders
        </button>
      ) : null}
      <button id="add-tablet" type="button" hidden>
        Add a tablet…
      </button>
    </Menu>
  );
}

export type AppBarProps = {
  readonly title: Child;
  /** The title's element, if the page's script renames it. */
  readonly titleId?: string;
  /** Whether the page polls, and so shows how fresh it is. */
  readonly asks?: boolean;
  /** Of a crew's page: the stall, and which of its pages this is. */
  readonly crew?: Place & { readonly here: CrewPage };
  /** Of a page that belongs to no stall: its menu. */
  readonly menu?: MenuProps;
  readonly children?: Child;
};

export function AppBar({ title, titleId, asks = false, crew, menu, children }: AppBarProps) {
  return (
    <header class="top">
      <h1 id={titleId}>{title}</h1>
      {asks ? <Freshness /> : null}
      {children === undefined ? null : <div class="row no-print">{children}</div>}
      {crew === undefined ? null : <CrewMenu {...crew} />}
      {menu === undefined ? null : <Menu {...menu} />}
    </header>
  );
}
