/** Setting a stall up: what is pressed, on what, at what price, by which rules, and how it reads in texts. */

import type { Child } from "hono/jsx";
import { AppBar } from "../parts/app-bar.tsx";
import { CrewNotices } from "../parts/crew-parts.tsx";
import { Page } from "../parts/layout.tsx";
import type { Place } from "../parts/place.ts";

function Section({
  id,
  title,
  lead,
  children,
}: {
  id: string;
  title: string;
  lead: string;
  children?: Child;
}) {
  return (
    <section class="part" aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`} tabindex={-1}>
        {title}
      </h2>
      <p class="lead">{lead}</p>
      <p id={`at-${id}-fault`} class="fault"></p>
      <div id={id}></div>
      {children}
    </section>
  );
}

function AddNamed({ list, label, placeholder }: { list: string; label: string; placeholder: string }) {
  return (
    <div class="adding">
      <label for={`${list}-name`}>{label}</label>
      <div class="pair">
        <input id={`${list}-name`} autocomplete="off" maxlength={40} placeholder={placeholder} />
        <button id={`${list}-add`} type="button">
          Add
        </button>
      </div>
    </div>
  );
}

function Begin({ fair, stall }: Place) {
  return (
    <section id="begin" class="begin" aria-labelledby="begin-title" hidden>
      <h2 id="begin-title">Where to begin</h2>
      <p class="row">
        <button id="begin-tee" class="main" type="button">
          Begin with a tee in S to 2XL
        </button>
        <a class="button" href={`/plan?fair=${fair}&stall=${stall}`}>
          Fill it from a planned day
        </a>
        <a class="button" href={`/crew/${fair}/${stall}/closeout`}>
          Load one saved at an earlier fair
        </a>
      </p>
      <label for="copy-link">Or copy the menu of an earlier fair: its crew link</label>
      <div class="pair">
        <input id="copy-link" autocomplete="off" spellcheck={false} placeholder="https://…/crew/…#key=…" />
        <button id="copy" type="button">
          Copy its menu
        </button>
      </div>
      <p id="copy-known" class="row"></p>
      <p id="copy-said" role="status"></p>
    </section>
  );
}

function Texts() {
  return (
    <aside class="texts" aria-labelledby="texts-title">
      <h2 id="texts-title">As a customer gets it in texts</h2>
      <p id="texts-none">
        It shows here as soon as there is something to sell: a garment, a design and a product.
      </p>
      <div id="texts-part" hidden>
        <div id="texts-log" class="handset" role="log" aria-labelledby="texts-title" tabindex={0}>
          <ol id="texts"></ol>
        </div>
        <p id="texts-sum" class="small"></p>
        <form id="say-form">
          <label for="say-text">Text it yourself</label>
          <div class="pair">
            <input id="say-text" autocomplete="off" autocapitalize="off" maxlength={600} />
            <button type="submit">Send</button>
          </div>
        </form>
        <button id="say-again" type="button">
          Run a sample order
        </button>
        <h3>Suggestions</h3>
        <ul id="advice" class="advice"></ul>
      </div>
    </aside>
  );
}

export function SetupPage({ fair, stall }: Place) {
  return (
    <Page title="Set up the stall" screen="setup" shares={["crew"]} data={{ fair, stall }}>
      <AppBar
        title={
          <>
            Set up <span id="stall-name">{stall}</span>
          </>
        }
        crew={{ fair, stall, here: "Set-up" }}
      >
        <button id="try" type="button" disabled>
          Try it
        </button>
      </AppBar>
      <main id="main" tabindex={-1}>
        <CrewNotices />
        <p id="loading" role="status">
          Fetching the menu…
        </p>
        <section id="meanwhile" class="meanwhile" aria-live="polite" hidden></section>
        <div id="editor" class="editor" hidden>
          <nav class="steps-rail" aria-label="Steps">
            <ol id="steps"></ol>
          </nav>
          <div class="form">
            <Begin fair={fair} stall={stall} />
            <Section id="blanks" title="Garments" lead="What you press on, in its colours and sizes.">
              <AddNamed list="blanks" label="Add a garment" placeholder="Tee" />
            </Section>
            <Section id="designs" title="Designs" lead="What is pressed on, and how hot, how long, how hard.">
              <AddNamed list="designs" label="Add a design" placeholder="Otter" />
            </Section>
            <Section
              id="offers"
              title="Products"
              lead="The menu customers choose from: a design on a garment at a price."
            >
              <button id="offers-add" type="button">
                Add a product
              </button>
            </Section>
            <Section id="presses" title="Presses" lead="One for each platen that stands at the stall.">
              <button id="presses-add" type="button">
                Add a press
              </button>
            </Section>
            <Section
              id="rules"
              title="Rules"
              lead="What suits a small stall is filled in. The fair's hours are the organiser's."
            >
              <details class="advanced">
                <summary>Advanced</summary>
                <div id="other-rules"></div>
              </details>
            </Section>
            <section class="part" aria-labelledby="check-title">
              <h2 id="check-title" tabindex={-1}>
                Check
              </h2>
              <p id="ready-to-sell" role="status"></p>
            </section>
          </div>
          <Texts />
        </div>
      </main>
      <footer id="bar" class="bar" hidden>
        <details>
          <summary>
            <span id="unsaved" role="status">
              All is saved.
            </span>
          </summary>
          <div id="review" class="review"></div>
        </details>
        <div class="row">
          <button id="save" class="main" type="button">
            Save
          </button>
          <button id="discard" class="danger" type="button" hidden>
            Discard changes
          </button>
        </div>
      </footer>
    </Page>
  );
}
