/** The parts of the close-out that are tapped: the day, closing it, opening it again, the count, the crowd. */
import { NoKey } from "./crew-parts.tsx";

/** What an account page has above everything else: a missing key, a refusal. */
export function AccountNotices() {
  return (
    <div class="notices no-print">
      <NoKey />
      <p id="notice" class="notice" role="alert" hidden></p>
    </div>
  );
}

export function WhichDay() {
  return (
    <div class="row acts no-print">
      <label for="day">Day</label>
      <select id="day"></select>
      <p id="stage" class="stage" role="status"></p>
    </div>
  );
}

export function CountStep({ stock }: { stock: string }) {
  return (
    <section class="no-print" aria-labelledby="count-title">
      <h2 id="count-title">1 Count</h2>
      <p id="counted"></p>
      <p class="row">
        <a class="button" href={stock}>
          Count the stock
        </a>
      </p>
      <form id="crowd" class="row">
        <span>
          <label for="passers-by">People who came past</label>
          <input id="passers-by" inputmode="numeric" autocomplete="off" maxlength={8} />
        </span>
        <span>
          <label for="sure">How sure is that</label>
          <select id="sure">
            <option value="0.05">Counted at the gate</option>
            <option value="0.2" selected>
              A fair estimate
            </option>
            <option value="0.5">A guess</option>
          </select>
        </span>
        <button type="submit">Keep the number</button>
        <p class="help">If the organiser knows it. Else the crew’s own count is used for the next plan.</p>
      </form>
    </section>
  );
}

export function CloseStep() {
  return (
    <section class="no-print" aria-labelledby="close-title">
      <h2 id="close-title">4 Close</h2>
      <p id="open-orders"></p>
      <p class="row">
        <button id="close" class="main" type="button">
          Close this day…
        </button>
        <button id="reopen" class="danger" type="button" hidden>
          Open it again…
        </button>
        <button id="save-lessons" type="button">
          Save what it taught
        </button>
      </p>
    </section>
  );
}

export function DayDialogs() {
  return (
    <>
      <dialog id="close-dialog" aria-labelledby="close-ask">
        <h2 id="close-ask">Close this day?</h2>
        <p>Its counts are frozen. What is done after that counts to the next day.</p>
        <ul id="close-first"></ul>
        <p class="row">
          <button id="close-now" class="main" type="button">
            Close the day
          </button>
          <button id="close-not" type="button">
            Not yet
          </button>
        </p>
      </dialog>
      <dialog id="reopen-dialog" aria-labelledby="reopen-title">
        <h2 id="reopen-title">Open this day again</h2>
        <p>Whatever is done from now on counts to that day, until it is closed once more.</p>
        <form id="reopen-form" method="dialog">
          <label for="reason">Why</label>
          <input id="reason" autocomplete="off" maxlength={80} required />
          <p class="row">
            <button id="reopen-now" class="danger" type="submit">
              Open it again
            </button>
            <button id="reopen-not" type="button">
              Leave it closed
            </button>
          </p>
        </form>
      </dialog>
    </>
  );
}

export function SaveStall() {
  return (
    <section class="no-print" aria-labelledby="save-title">
      <h2 id="save-title">Take the stall along</h2>
      <p>
        To another fair: menu, stock on hand and lessons, no customer. Or the whole stall, names and numbers
        included: keep that file as safe as the stall itself.
      </p>
      <p class="row">
        <button id="save-carry" type="button">
          Save for another fair
        </button>
        <button id="save-everything" type="button">
          Save the whole stall
        </button>
      </p>
    </section>
  );
}

/** Shown where the stall is empty: only then can it become another. */
export function LoadStall() {
  return (
    <section id="load" class="no-print" aria-labelledby="load-title" hidden>
      <h2 id="load-title">This stall is empty</h2>
      <p>Set its menu, or begin with a file that was saved on another stall’s close-out page.</p>
      <label for="load-file">A saved stall</label>
      <input id="load-file" type="file" accept="application/json,.json" />
    </section>
  );
}
