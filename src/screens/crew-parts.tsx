/** What both crew pages have above everything else: a missing key, a refusal, a write that was not sent. */

export function CrewNotices() {
  return (
    <div class="notices">
      <div id="no-key" class="notice" hidden>
        <p>This page needs the crew’s key for this stall, and this browser has none that works.</p>
        <p>Open the crew link that the organiser gave you, once, on this tablet. It is kept after that.</p>
      </div>
      <div id="unsent" class="notice" role="alert" hidden>
        <p id="unsent-what"></p>
        <p>No connection. It is kept on this tablet and goes out by itself when the signal is back.</p>
        <p class="row">
          <button id="unsent-again" type="button">
            Send again
          </button>
          <button id="unsent-let-go" type="button">
            Let it go
          </button>
        </p>
      </div>
      <p id="notice" class="notice" role="alert" hidden></p>
    </div>
  );
}
