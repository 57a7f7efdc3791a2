/** A gentle sound for a number that has become ready or an order that has come: two soft notes, a fourth apart. */

const NOTES = [
  { hertz: 440, afterSeconds: 0 },
  { hertz: 587.33, afterSeconds: 0.28 },
] as const;
const LOUDNESS = 0.18;
const RISE_SECONDS = 0.06;
const FADE_SECONDS = 1.1;

type Chime = {
  readonly isOn: () => boolean;
  /** To be called from a tap: browsers give sound only to pages that were touched. */
  readonly turn: (on: boolean) => void;
  readonly ring: () => void;
};

function newChime(): Chime {
  let context: AudioContext | null = null;
  let on = false;
  return {
    isOn: () => on,
    turn(wanted) {
      on = wanted;
      if (!on) return;
      context ??= new AudioContext();
      void context.resume();
    },
    ring() {
      if (!on || context === null) return;
      for (const { hertz, afterSeconds } of NOTES) {
        const starts = context.currentTime + afterSeconds;
        const note = context.createOscillator();
        const loudness = context.createGain();
        note.frequency.value = hertz;
        loudness.gain.setValueAtTime(0, starts);
        loudness.gain.linearRampToValueAtTime(LOUDNESS, starts + RISE_SECONDS);
        loudness.gain.exponentialRampToValueAtTime(0.0001, starts + FADE_SECONDS);
        note.connect(loudness).connect(context.destination);
        note.start(starts);
        note.stop(starts + FADE_SECONDS);
      }
    },
  };
}

/**
 * The chime that a button turns on and off; it is off until then. `shown` puts on the button how it is now. Gives what
 * rings it.
 */
export function chimeOn(button: HTMLElement, shown: (on: boolean) => void): () => void {
  const chime = newChime();
  button.addEventListener("click", () => {
    chime.turn(!chime.isOn());
    shown(chime.isOn());
    chime.ring();
  });
  return chime.ring;
}
