import { inMillimetres } from "../../maths/units.ts";
import type { OrFaults } from "../../model/basics/faults.ts";
import { ok, refused } from "../../model/basics/result.ts";
import type { Piece, PitchPlan, PitchRequest, Rectangle, Side } from "../../model/planning/pitch.ts";
import { heatCautions, USUAL_PLATEN_CELSIUS } from "../words/cautions.ts";
import { round } from "../words/phrases.ts";
import { type Arranged, arrange, type Furniture, publicDistance, type Room } from "./arrange.ts";
import { areaOf, right } from "./floor.ts";
import { HOT_RULE } from "./hot-side.ts";
import { pitchFaults } from "./pitch-faults.ts";
import { vehicleLoads } from "./vehicle-loads.ts";
import { whatWouldFit, whyUnplaced } from "./what-would-fit.ts";

/** Millimetres. All common practice, no source, unless one is named. */
const USUAL = {
  pressClearance: 150,
  pressStanding: 750,
  standing: 600,
  /** Width of a way out: the 36 in of North American building codes (from memory). */
  exitWidth: 914.4,
  /** One person in a queue: length along it, and width across. */
  queuePerson: 600,
  queueLane: 750,
} as const;

/** Outside the pitch the public may stand anywhere; this is far enough. */
const FAR = 100_000;

export type PitchOutcome = OrFaults<PitchPlan>;

/**
 * Lays out a pitch to scale: counters along the front, presses out of the public's reach, standing room,
 * clearances and a way out for everyone; says what does not fit and which changes would do, and shares the
 * cargo over vehicle loads. Answers every fault at once when the request is not good.
 */
export function planPitch(request: PitchRequest): PitchOutcome {
  const faults = pitchFaults(request);
  if (faults.length > 0) return refused(faults);
  const width = inMillimetres(request.pitch.width);
  const depth = inMillimetres(request.pitch.depth);
  const furniture = request.pieces.map(furnitureOf);
  const room = roomFor(request, width, depth);
  const arranged = arrange(furniture, room);
  const missing = furniture.filter(({ piece }) => !arranged.placed.some((placed) => placed.piece === piece));
  const taken = arranged.placed.reduce((sum, { swept }) => sum + areaOf(swept), 0);
  return ok({
    fits: arranged.fits,
    widthMillimetres: width,
    depthMillimetres: depth,
    placed: arranged.placed.map((placed) => ({
      ...placed,
      publicMillimetres: placed.kind === "press" ? publicDistance(placed, room) : null,
    })),
    unplaced: missing.map((piece) => ({
      piece: piece.piece,
      why: whyUnplaced(piece, arranged.placed, room),
    })),
    would: arranged.fits
      ? []
      : whatWouldFit(request, furniture, (changed) =>
          roomFor(changed, inMillimetres(changed.pitch.width), inMillimetres(changed.pitch.depth)),
        ),
    queue: queueFor(request, width),
    hotDistanceMillimetres: room.hotDistance,
    hotRule: {
      ...HOT_RULE,
      overriddenBecause:
        room.hotDistance < HOT_RULE.millimetres - 1e-6 ? (request.hotSide?.reason ?? null) : null,
    },
    exit: { side: room.exitSide, widthMillimetres: room.wayWidth, way: [...arranged.way] },
    freeSquareMetres: (areaOf(room.crew) - taken) / 1e6,
    vehicles: request.vehicles === undefined ? null : vehicleLoads(request.vehicles, request.cargo ?? []),
    notes: notesOn(request, arranged, room, width),
    cautions: [
      "This is a sketch from the measures given. The organiser, the fire authority and the tent's own papers decide on exits, spacing, anchoring and load.",
      "Keep the way out free all day; have an extinguisher for electrical fires within reach of the presses.",
      ...(room.hotDistance < HOT_RULE.millimetres - 1e-6
        ? [
            `Hot parts stand nearer to the public than ${HOT_RULE.millimetres / 1000} m: ${request.hotSide?.reason ?? ""}`,
          ]
        : []),
      ...heatCautions(USUAL_PLATEN_CELSIUS),
    ],
  });
}

function furnitureOf(piece: Piece): Furniture {
  const press = piece.kind === "press";
  const usualStanding = press ? USUAL.pressStanding : piece.kind === "other" ? 0 : USUAL.standing;
  return {
    piece: piece.piece,
    kind: piece.kind,
    width: inMillimetres(piece.width),
    depth: inMillimetres(piece.depth),
    swing:
      piece.swing === undefined ? null : { side: piece.swing.side, reach: inMillimetres(piece.swing.reach) },
    clearance:
      piece.clearance === undefined ? (press ? USUAL.pressClearance : 0) : inMillimetres(piece.clearance),
    standing: piece.standing === undefined ? usualStanding : inMillimetres(piece.standing),
  };
}

function roomFor(request: PitchRequest, width: number, depth: number): Room {
  const inner = request.queue.where === "inside" ? queueFor(request, width).area.depth : 0;
  const borders = { back: "crew", left: "closed", right: "closed", ...request.borders } as const;
  const publicAreas: Rectangle[] = [{ x: -FAR, y: -FAR, width: width + 2 * FAR, depth: FAR + inner }];
  if (borders.left === "public") publicAreas.push({ x: -FAR, y: 0, width: FAR, depth });
  if (borders.right === "public") publicAreas.push({ x: width, y: 0, width: FAR, depth });
  if (borders.back === "public") publicAreas.push({ x: 0, y: depth, width, depth: FAR });
  const exitSide: Side = request.exit?.side ?? "back";
  return {
    crew: { x: 0, y: inner, width, depth: depth - inner },
    exitSide,
    wayWidth: request.exit?.width === undefined ? USUAL.exitWidth : inMillimetres(request.exit.width),
    publicAreas,
    hotDistance:
      request.hotSide === undefined ? HOT_RULE.millimetres : inMillimetres(request.hotSide.distance),
  };
}

function queueFor({ queue }: PitchRequest, width: number): PitchPlan["queue"] {
  const inside = queue.where === "inside";
  const perRow = Math.max(1, Math.floor(width / USUAL.queuePerson));
  const rows = Math.ceil(queue.people / perRow);
  const depth = rows * USUAL.queueLane;
  return {
    people: queue.people,
    room: rows * perRow,
    area: { x: 0, y: inside ? 0 : -depth, width, depth },
    inside,
  };
}

function notesOn(
  request: PitchRequest,
  { placed, way, fits }: Arranged,
  room: Room,
  width: number,
): string[] {
  const notes: string[] = [];
  if (!fits && placed.length === request.pieces.length && way.length === 0)
    notes.push(`Everything stands, but not everyone has a way out of ${round(room.wayWidth / 10)} cm.`);
  if (!fits)
    notes.push(
      "No arrangement was found. The search does not try everything: someone on the spot may still find one.",
    );
  const counters = placed.filter(({ kind }) => kind === "counter");
  const open = width - counters.reduce((sum, { footprint }) => sum + footprint.width, 0);
  if (counters.length === 0)
    notes.push("There is no counter: nothing stands between the public and the presses.");
  else if (open > 1)
    notes.push(
      `${round(open / 10)} cm of the front are open beside the counter: close them with a rope or a table.`,
    );
  if (!queueFor(request, width).inside && request.queue.people > 0)
    notes.push(
      `Ask the organiser whether ${request.queue.people} people may queue on the aisle before the pitch.`,
    );
  const widest = Math.max(0, ...counters.map(({ footprint }) => right(footprint) - footprint.x));
  if (counters.length > 0 && widest < 600)
    notes.push("The counter is narrower than a person: hand-over will be slow.");
  return notes;
}
