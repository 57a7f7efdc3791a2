/** A gentle sound for a number that has become ready: two soft notes, a fourth apart. */

const NOTES = [
  { hertz: 440, afterSeconds: 0 },
  { hertz: 587.33, afterSeconds: 0.28 },
] as const;
const LOUDNESS = 0.18;
const RISE_SECONDS = 0.06;
const FADE_SECONDS = 1.1;

export type Chime = {
  readonly isOn: () => boolean;
  /** To be called from a tap: browsers give sound only to pages that were touched. */
  readonly turn: (on: boolean) => void;
  readonly ring: () => void;
};

export function newChime(): Chime {
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
