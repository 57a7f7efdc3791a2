/** The notices at the top of both crew pages: a missing key, a refusal, unsent taps. */

/** Where to get a key, on a device that has none for this stall. */
export function NoKey() {
  return (
    <div id="no-key" class="notice needs-you" hidden>
      <p>This tablet has no key for this stall, or an old one.</p>
      <p>
        Open the crew link that you were given. Or on a tablet that works: Menu, Add a tablet, and scan its
        code with this one. The key is kept after that.
      </p>
      <a class="button" href="/">
        I was given a link
      </a>
    </div>
  );
}

export function CrewNotices() {
  return (
    <div class="notices">
      <NoKey />
      <div id="organiser-part"></div>
      <div id="unsent-part"></div>
      <div id="newer" class="notice" role="status" hidden>
        <p>Update this page when you have a moment. Unsent taps are kept.</p>
        <button id="newer-load" type="button">
          Update
        </button>
      </div>
      <p id="notice" class="notice" role="alert" hidden></p>
    </div>
  );
}
