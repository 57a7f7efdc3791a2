import { inMillimetres } from "../../maths/units.ts";
import type { PitchRequest, PlacedPiece } from "../../model/planning/pitch.ts";
import { round } from "../words/phrases.ts";
import { arrange, candidates, type Furniture, type Room } from "./arrange.ts";

/** Each change is tried with a smaller budget than the plan itself. */
const TRIAL_LOOKS = 60_000;
/** And all trials together have this much; changes not reached are not offered. */
const ALL_LOOKS = 1_200_000;
const MOST_STEPS_LARGER = 12;

type RoomFor = (request: PitchRequest) => Room;

/** Why a piece found no place in the fullest arrangement: the one rule that, set aside, would give it one. */
export function whyUnplaced(piece: Furniture, placed: readonly PlacedPiece[], room: Room): string {
  const finds = (changed: Furniture, changedRoom: Room = room): boolean =>
    candidates(changed, placed, changedRoom).places.length > 0;
  const measures = `${round(piece.width / 10)} x ${round(piece.depth / 10)} cm`;
  if (finds(piece)) return "It has a place, but then not everyone has a way out.";
  if (piece.kind === "press" && finds(piece, { ...room, hotDistance: 0 }))
    return `Only nearer to the public than ${round(room.hotDistance / 10)} cm is there room for it.`;
  if (piece.swing !== null && finds({ ...piece, swing: null }))
    return "There is no room for its lid to swing.";
  if (piece.standing > 0 && finds({ ...piece, standing: 0 })) return "There is no room to stand at it.";
  if (piece.clearance > 0 && finds({ ...piece, clearance: 0 })) return "There is no room for its clearance.";
  return `There is no free floor of ${measures}, with room to stand and clearance.`;
}

/** Changes that do make everything fit, each one tried. */
export function whatWouldFit(
  request: PitchRequest,
  furniture: readonly Furniture[],
  roomFor: RoomFor,
): string[] {
  let left = ALL_LOOKS;
  const fits = (pieces: readonly Furniture[], changed: PitchRequest = request): boolean => {
    if (left <= 0) return false;
    const arranged = arrange(pieces, roomFor(changed), Math.min(left, TRIAL_LOOKS));
    left -= arranged.looked;
    return arranged.fits;
  };
  const would: string[] = [];
  if (request.queue.where === "inside" && request.queue.people > 0) {
    const outside: PitchRequest = { ...request, queue: { ...request.queue, where: "outside" } };
    if (fits(furniture, outside))
      would.push("Let the queue stand on the aisle before the pitch, if the organiser agrees.");
  }
  if (
    furniture.some(({ swing }) => swing !== null) &&
    fits(furniture.map((piece) => ({ ...piece, swing: null })))
  )
    would.push("Take presses whose lid does not swing out beyond their stand.");
  would.push(...smallerPresses(furniture, fits));
  would.push(...largerPitch(request, furniture, fits));
  for (const piece of furniture) {
    if (piece.kind === "counter") continue;
    if (fits(furniture.filter((other) => other !== piece))) would.push(`Leave ${piece.piece} at home.`);
  }
  return would;
}

type Fits = (pieces: readonly Furniture[], changed?: PitchRequest) => boolean;

function smallerPresses(furniture: readonly Furniture[], fits: Fits): string[] {
  if (!furniture.some(({ kind }) => kind === "press")) return [];
  for (const share of [0.9, 0.8, 0.7, 0.6]) {
    const smaller = furniture.map((piece) =>
      piece.kind === "press" ? { ...piece, width: piece.width * share, depth: piece.depth * share } : piece,
    );
    if (fits(smaller)) return [`Take presses whose stand is ${round((1 - share) * 100)} % shorter each way.`];
  }
  return [];
}

/** The next larger pitch, wider or deeper, in the steps that its own unit suggests; found by halving. */
function largerPitch(request: PitchRequest, furniture: readonly Furniture[], fits: Fits): string[] {
  const feet = request.pitch.width.unit === "ft" || request.pitch.width.unit === "in";
  const step = inMillimetres(feet ? { value: 1, unit: "ft" } : { value: 0.5, unit: "m" });
  const found: string[] = [];
  for (const [end, word] of [
    ["width", "wide"],
    ["depth", "deep"],
  ] as const) {
    const larger = (steps: number) => inMillimetres(request.pitch[end]) + steps * step;
    const fitsAt = (steps: number): boolean => {
      const length = { value: larger(steps), unit: "mm" as const };
      return fits(furniture, { ...request, pitch: { ...request.pitch, [end]: length } });
    };
    if (!fitsAt(MOST_STEPS_LARGER)) continue;
    let tooSmall = 0;
    let enough = MOST_STEPS_LARGER;
    while (enough - tooSmall > 1) {
      const middle = (tooSmall + enough) >> 1;
      if (fitsAt(middle)) enough = middle;
      else tooSmall = middle;
    }
    const shown = feet ? `${round(larger(enough) / 304.8, 1)} ft` : `${round(larger(enough) / 1000, 1)} m`;
    found.push(`Take a pitch ${shown} ${word}.`);
  }
  return found;
}
