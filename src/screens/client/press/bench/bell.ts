/** The end of a dwell, to be heard and felt. A browser lets a page sound only after a tap. */
let audio: AudioContext | null = null;

/** To be called in the tap itself, so that the bell may ring later. */
export function readyBell(): void {
  audio ??= new AudioContext();
  void audio.resume();
}

const HERTZ = 880;
const BEEP_SECONDS = 0.18;
const BEEPS = 3;

/** Three beeps, and three shakes if the tablet can. */
export function ringBell(): void {
  navigator.vibrate?.([250, 100, 250, 100, 500]);
  if (audio === null) return;
  for (let beep = 0; beep < BEEPS; beep += 1) {
    const start = audio.currentTime + beep * BEEP_SECONDS * 1.6;
    const tone = new OscillatorNode(audio, { frequency: HERTZ, type: "square" });
    // A square wave at full strength would clip in a small loudspeaker.
    const volume = new GainNode(audio, { gain: 0.35 });
    tone.connect(volume).connect(audio.destination);
    tone.start(start);
    tone.stop(start + BEEP_SECONDS);
  }
}
