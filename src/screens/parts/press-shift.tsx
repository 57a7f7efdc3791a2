/** The parts of the press screen about the shift: hands, web orders, and how long orders are taken. */

export function Shift() {
  return (
    <>
      <p id="intake-say"></p>
      <p id="backlog-say"></p>
      <button id="keep-open" type="button"></button>
      <p id="hands-say"></p>
      <fieldset class="row">
        <legend class="offstage">Hands at the presses</legend>
        <button id="hands-fewer" type="button">
          One fewer
        </button>
        <button id="hands-more" type="button">
          One more
        </button>
        <button id="hands-each" type="button">
          One for each press
        </button>
      </fieldset>
      <p id="web-say"></p>
      <button id="web" type="button"></button>
    </>
  );
}

/** Shown above everything else once last orders were called. */
export function LastOrders() {
  return (
    <div id="last-orders" class="notice needs-you" role="status" hidden>
      <p id="last-orders-say"></p>
      <button id="last-orders-open" type="button"></button>
    </div>
  );
}
