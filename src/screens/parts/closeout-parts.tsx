/** The parts of the close-out that are there whatever the day: notices, and the stall as a file. */
import { NoKey } from "./crew-parts.tsx";

/** The notices at the top of an account page: a missing key, a refusal. */
export function AccountNotices() {
  return (
    <div class="notices no-print">
      <NoKey />
      <p id="notice" class="notice" role="alert" hidden></p>
    </div>
  );
}

export function SaveStall() {
  return (
    <section class="no-print" aria-labelledby="save-title">
      <h2 id="save-title">Back up or move this stall</h2>
      <p>
        To another fair: menu, stock, rack and lessons, no customer. Or the whole stall, names and numbers
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

/** Shown if the stall is empty: only then can it load another. */
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
