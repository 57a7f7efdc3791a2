/** The first run: three questions, and then the keys, shown once. */
import { type Spelling, spelt } from "../../model/basics/region.ts";
import { AppBar, NightSwitch } from "../parts/app-bar.tsx";
import { Page } from "../parts/layout.tsx";

function Asked({
  id,
  label,
  help,
  type = "text",
}: {
  id: string;
  label: string;
  help: string;
  type?: string;
}) {
  return (
    <div class="asked">
      <label for={id}>{label}</label>
      <input
        id={id}
        type={type}
        autocomplete="off"
        maxlength={200}
        aria-describedby={`${id}-help ${id}-fault`}
      />
      <p id={`${id}-help`} class="small">
        {help}
      </p>
      <p id={`${id}-fault`} class="fault"></p>
    </div>
  );
}

function Picked({ id, label }: { id: string; label: string }) {
  return (
    <div class="asked">
      <label for={id}>{label}</label>
      <select id={id} aria-describedby={`${id}-fault`}></select>
      <p id={`${id}-fault`} class="fault"></p>
    </div>
  );
}

/** The fair's days and its clock, which day-rows.ts fills. */
function Hours() {
  return (
    <>
      <div id="days"></div>
      <p id="days-fault" class="fault"></p>
      <button id="day-add" type="button">
        Add a day
      </button>
      <Picked id="zone" label="Time zone" />
    </>
  );
}

export function StartPage() {
  return (
    <Page title="Start a fair" screen="start" shares={["crew"]}>
      <AppBar title="Start a fair">
        <a class="button" href="/">
          All pages
        </a>
        <NightSwitch />
      </AppBar>
      <main id="main" tabindex={-1}>
        <p id="trouble" class="notice" role="alert" hidden></p>
        <form id="first" novalidate>
          <div id="secret-part" hidden>
            <Asked
              id="secret"
              type="password"
              label="The owner's secret"
              help="OWNER_SECRET, as it was set when this was deployed."
            />
          </div>
          <h2>1. The fair</h2>
          <Asked id="fair-name" label="The fair's name" help="As visitors call it." />
          <Hours />
          <h2>2. Your stall</h2>
          <Asked
            id="stall-name"
            label="The stall's name"
            help="Shown at the start of every text; keep it short."
          />
          <h2>3. Money</h2>
          <Picked id="currency" label="Prices are in" />
          <details id="short">
            <summary>Short names in the addresses</summary>
            <Asked id="fair" label="The fair's" help="Small letters and digits, with hyphens between." />
            <Asked
              id="stall"
              label="The stall's"
              help="Customers may text it first, to say which stall they mean."
            />
          </details>
          <button id="make" class="main" type="submit">
            Make the fair and the stall
          </button>
        </form>
        <section id="keys" aria-labelledby="keys-title" hidden>
          <h2 id="keys-title" tabindex={-1}>
            Save these links now: they won’t be shown again
          </h2>
          <p>
            Scan each code with the device it is for, or keep the links somewhere safe. Whoever has a link can
            do what it opens. If a link is lost, make a new one later; the old one then stops.
          </p>
          <div id="cards" class="cards tiles"></div>
          <p class="row no-print">
            <a id="go-on" class="button main" href="/">
              Go on: set up the menu
            </a>
            <a id="go-keys" class="button" href="/">
              Hours, keys and further stalls
            </a>
          </p>
        </section>
      </main>
    </Page>
  );
}

type KeysProps = { readonly fair: string; readonly spelling: Spelling };

export function KeysPage({ fair, spelling }: KeysProps) {
  return (
    <Page title="Hours, stalls, keys" screen="keys" styles={["crew", "start"]} data={{ fair }}>
      <AppBar title={`Settings of ${fair}`} titleId="title">
        <a class="button" href={`/fair/${fair}`}>
          Live view
        </a>
        <a class="button" href={`/fair/${fair}/gateway`}>
          Text gateway
        </a>
        <NightSwitch />
      </AppBar>
      <main id="main" tabindex={-1}>
        <p id="trouble" class="notice" role="alert" hidden></p>
        <div id="cards" class="cards tiles"></div>
        <h2>Name and hours</h2>
        <form id="hours-form" novalidate>
          <div class="asked">
            <label for="fair-name-now">The fair's name</label>
            <input id="fair-name-now" autocomplete="off" maxlength={60} />
          </div>
          <Hours />
          <p class="row">
            <button id="hours-save" class="main" type="submit">
              Save name and hours
            </button>
            <span id="hours-said" role="status"></span>
          </p>
          <p class="small">Every stall opens, closes and calls last orders by these hours.</p>
        </form>
        <h2>Stalls</h2>
        <div class="asked">
          <label for="overlap">When a new key is made, the old one</label>
          <select id="overlap">
            <option value="15" selected>
              works 15 minutes more
            </option>
            <option value="0">stops at once</option>
            <option value="60">works an hour more</option>
            <option value="1440">works a day more</option>
          </select>
        </div>
        <ul id="stalls" class="ruled"></ul>
        <form id="add-form" class="asked">
          <label for="add-name">Add a stall: its name</label>
          <div class="row">
            <input id="add-name" autocomplete="off" maxlength={40} />
            <button type="submit">Add it</button>
          </div>
        </form>
        <h2>{spelt("The organiser’s own key", spelling)}</h2>
        <form id="organiser-form" class="asked">
          <label for="secret">The owner's secret</label>
          <div class="row">
            <input id="secret" type="password" autocomplete="off" maxlength={200} />
            <button type="submit">{spelt("Make a new organiser key", spelling)}</button>
          </div>
        </form>
      </main>
    </Page>
  );
}
