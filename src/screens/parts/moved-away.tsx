/** The part of the close-out page that takes the stall's new address, once its file is loaded there. */
export function MovedAway() {
  return (
    <section class="no-print" aria-labelledby="moved-title">
      <h2 id="moved-title">Send people on</h2>
      <p id="moved-now">
        Has the stall moved? Load its file at the new place first. This address then takes no more orders: its
        page and its texts say where the stall is.
      </p>
      <form id="moved-form" class="row">
        <label for="moved-to">Link to the new order page</label>
        <input id="moved-to" type="url" autocomplete="off" required placeholder="https://…/at/fair/stall" />
        <button id="moved-save" type="submit">
          Send people on
        </button>
        <button id="moved-undo" type="button" hidden>
          Undo: the stall is here
        </button>
      </form>
      <p id="moved-fault" class="fault" role="alert"></p>
    </section>
  );
}
