/** What both crew pages have above everything else: a missing key, a refusal, what was not sent yet. */

export function CrewNotices() {
  return (
    <div class="notices">
      <div id="no-key" class="notice" hidden>
        <p>This page needs the crew’s key for this stall, and this browser has none that works.</p>
        <p>Open the crew link that the organiser gave you, once, on this tablet. It is kept after that.</p>
      </div>
      <p id="unkept" class="notice" role="status" hidden>
        This browser keeps nothing (a private window, or a full disk): taps that are not sent are lost when
        the page is closed.
      </p>
      <div id="unsent" class="notice" hidden>
        <p id="unsent-why" role="status"></p>
        <details id="unsent-what" hidden>
          <summary id="unsent-count"></summary>
          <ol id="unsent-list" class="kept-taps"></ol>
          <button id="unsent-again" type="button">
            Send now
          </button>
        </details>
      </div>
      <div id="news" class="notice" role="alert" hidden>
        <ul id="news-list" class="kept-taps"></ul>
      </div>
      <div id="newer" class="notice" role="status" hidden>
        <p>There is a newer version of this page. Load it when it suits: kept taps stay kept.</p>
        <button id="newer-load" type="button">
          Load it
        </button>
      </div>
      <p id="notice" class="notice" role="alert" hidden></p>
    </div>
  );
}
