import { inKilograms, inMillimetres, type LengthGiven } from "../../maths/units.ts";
import type { MendableFault } from "../../model/basics/faults.ts";
import type { Piece, PitchRequest } from "../../model/planning/pitch.ts";
import { type Checks, gatherChecks } from "../request/fault-checks.ts";
import type { FaultPath } from "../request/faults.ts";
import { round } from "../words/phrases.ts";
import { HOT_RULE } from "./hot-side.ts";
import { MOST_CARGO_ITEMS } from "./vehicle-loads.ts";

const MOST_PIECES = 24;
/** A reason for bringing hot parts nearer is a sentence, not a word. */
const SHORTEST_REASON = 15;

/** Everything wrong with a pitch request, each with its place and what would mend it. */
export function pitchFaults(request: PitchRequest): readonly MendableFault[] {
  const list = gatherChecks();
  const { pitch, pieces, queue, exit, borders = {}, hotSide } = request;
  if (pieces.length === 0)
    list.add(["pieces"], "Nothing stands on the pitch.", "List the counter, the presses and the rest.");
  if (pieces.length > MOST_PIECES)
    list.add(
      ["pieces"],
      `There are ${pieces.length} pieces.`,
      `List at most ${MOST_PIECES}; join tables that stand together.`,
    );
  if (list.found().length > 0) return list.found();

  const good = [
    size(list, ["pitch", "width"], pitch.width, 1000, 30_000, "The width of the pitch"),
    size(list, ["pitch", "depth"], pitch.depth, 1000, 30_000, "The depth of the pitch"),
  ].every(Boolean);
  list.distinct(
    pieces.map(({ piece }, index) => [["pieces", index, "piece"], piece] as const),
    "Piece",
  );
  pieces.forEach((piece, index) => {
    pieceFaults(list, index, piece, good ? pitch : null);
  });
  if (good) counterFaults(list, request);
  list.between(["queue", "people"], queue.people, 0, 200, "The number of people queueing");
  size(list, ["exit", "width"], exit?.width, 500, 5000, "The width of the way out");
  const exitSide = exit?.side ?? "back";
  if (exitSide !== "front" && (borders[exitSide] ?? (exitSide === "back" ? "crew" : "closed")) === "closed")
    list.add(
      ["exit", "side"],
      `The ${exitSide} of the pitch is closed, so there is no way out there.`,
      "Put the exit on an open side, or ask the organiser to open one.",
    );
  if (hotSide !== undefined) hotFaults(list, hotSide);
  cargoFaults(list, request);
  return list.found();
}

function size(
  list: Checks,
  place: FaultPath,
  length: LengthGiven | undefined,
  least: number,
  most: number,
  what: string,
): boolean {
  if (length === undefined) return true;
  const millimetres = inMillimetres(length);
  if (millimetres >= least - 1e-6 && millimetres <= most + 1e-6) return true;
  list.add(
    [...place, "value"],
    `${what} is ${length.value} ${length.unit}.`,
    `Give a length from ${least / 1000} to ${most / 1000} m (${round(least / 304.8, 1)} to ${round(most / 304.8, 1)} ft).`,
  );
  return false;
}

function pieceFaults(list: Checks, index: number, piece: Piece, pitch: PitchRequest["pitch"] | null): void {
  const place = ["pieces", index] as const;
  const good = [
    size(list, [...place, "width"], piece.width, 50, 20_000, `The width of ${piece.piece}`),
    size(list, [...place, "depth"], piece.depth, 50, 20_000, `The depth of ${piece.piece}`),
    size(list, [...place, "swing", "reach"], piece.swing?.reach, 0, 3000, `The swing of ${piece.piece}`),
    size(list, [...place, "clearance"], piece.clearance, 0, 3000, `The clearance of ${piece.piece}`),
    size(list, [...place, "standing"], piece.standing, 0, 3000, `The standing room at ${piece.piece}`),
  ].every(Boolean);
  if (!good || pitch === null) return;
  const ends = [inMillimetres(piece.width), inMillimetres(piece.depth)].sort((a, b) => a - b);
  const room = [inMillimetres(pitch.width), inMillimetres(pitch.depth)].sort((a, b) => a - b);
  if (ends.some((end, at) => end > (room[at] ?? 0) + 1e-6))
    list.add(
      [...place],
      `${piece.piece} is larger than the pitch itself.`,
      "Check its measures and their units, or leave it out.",
    );
}

function counterFaults(list: Checks, { pieces, pitch }: PitchRequest): void {
  const counters = pieces.filter(({ kind }) => kind === "counter");
  const wide = counters.reduce((sum, { width }) => sum + inMillimetres(width), 0);
  if (wide > inMillimetres(pitch.width) + 1e-6)
    list.add(
      ["pieces"],
      `The counters are ${round(wide / 1000, 2)} m wide together, and the front is ${round(inMillimetres(pitch.width) / 1000, 2)} m.`,
      "Make one of them a table, or take a wider pitch.",
    );
}

function hotFaults(list: Checks, { distance, reason }: NonNullable<PitchRequest["hotSide"]>): void {
  if (!size(list, ["hotSide", "distance"], distance, 0, 10_000, "The distance of hot parts from the public"))
    return;
  if (inMillimetres(distance) >= HOT_RULE.millimetres - 1e-6) return;
  if ((reason ?? "").trim().length < SHORTEST_REASON)
    list.add(
      ["hotSide", "reason"],
      `Hot parts are to be ${distance.value} ${distance.unit} from the public, nearer than the rule of ${HOT_RULE.millimetres / 1000} m, and no reason is written.`,
      "Write what keeps the public out of reach instead, such as a fixed screen, or keep the distance.",
    );
}

function cargoFaults(list: Checks, { vehicles = [], cargo = [] }: PitchRequest): void {
  vehicles.forEach(({ vehicle, payload, trips }, index) => {
    const kilograms = inKilograms(payload);
    if (!(kilograms > 0 && kilograms <= 40_000))
      list.add(
        ["vehicles", index, "payload", "value"],
        `${vehicle} carries ${payload.value} ${payload.unit}.`,
        "Give the payload from its papers, above 0 and up to 40,000 kg.",
      );
    list.between(["vehicles", index, "trips"], trips, 1, 20, `The number of trips of ${vehicle}`);
  });
  let count = 0;
  cargo.forEach(({ item, weight, count: times = 1 }, index) => {
    const kilograms = inKilograms(weight);
    if (!(kilograms > 0 && kilograms <= 40_000))
      list.add(
        ["cargo", index, "weight", "value"],
        `${item} weighs ${weight.value} ${weight.unit}.`,
        "Give a weight above 0.",
      );
    if (list.between(["cargo", index, "count"], times, 1, MOST_CARGO_ITEMS, `The number of ${item}`))
      count += times;
  });
  if (count > MOST_CARGO_ITEMS)
    list.add(
      ["cargo"],
      `There are ${count} items to carry.`,
      `List at most ${MOST_CARGO_ITEMS}; count by the carton or pallet.`,
    );
  if (cargo.length > 0 && vehicles.length === 0)
    list.add(
      ["vehicles"],
      "There is cargo and no vehicle.",
      "Name a vehicle with its payload, or leave the cargo out.",
    );
}
