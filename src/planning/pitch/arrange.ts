import { seededRandom } from "../../maths/random.ts";
import type { PlacedPiece, Rectangle, Side } from "../../model/planning/pitch.ts";
import {
  back,
  distanceBetween,
  grown,
  grownTo,
  inside,
  overlaps,
  right,
  seenFrom,
  stripAt,
} from "./floor.ts";
import { type Ground, wayOut } from "./way-out.ts";

/** A piece in millimetres. */
export type Furniture = {
  readonly piece: string;
  readonly kind: PlacedPiece["kind"];
  readonly width: number;
  readonly depth: number;
  readonly swing: { readonly side: "behind" | "left" | "right"; readonly reach: number } | null;
  readonly clearance: number;
  /** Floor for a person to stand on; 0 for none. */
  readonly standing: number;
};

export type Room = Ground & {
  /** Where the public can be; hot parts keep their distance from all of it. */
  readonly publicAreas: readonly Rectangle[];
  readonly hotDistance: number;
};

export type Arranged = {
  readonly fits: boolean;
  readonly placed: readonly PlacedPiece[];
  readonly way: readonly { readonly x: number; readonly y: number }[];
  /** Work done, in places looked at. */
  readonly looked: number;
};

const SIDES: readonly Side[] = ["front", "back", "left", "right"];
const ORDER: readonly Furniture["kind"][] = ["counter", "press", "rack", "table", "other"];
/** Places tried before the search gives up; and the share, and the number of trials, after which it restarts. */
const LOOKS = 400_000;
const ATTEMPT_SHARE = 1 / 8;
const ATTEMPT_TRIES = 250;
const ATTEMPTS = 40;
/** Checking the ways out costs about as much as trying this many places. */
const WAY_LOOKS = 50;

/**
 * Finds places for all pieces: counters along the public's line, the rest against borders and one another, presses as
 * far from the public as possible. Every rule is kept: nothing overlaps, clearances and standing room are free, hot
 * parts keep their distance from the public, and everyone has a way out. A depth-first search that restarts with
 * another order when it gets stuck. An arrangement it finds is valid; finding none proves nothing. If it finds none, it
 * answers with the fullest arrangement seen.
 */
export function arrange(furniture: readonly Furniture[], room: Room, looks: number = LOOKS): Arranged {
  const pieces = [...furniture].sort(
    (a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind) || b.width * b.depth - a.width * a.depth,
  );
  let fullest: readonly PlacedPiece[] = [];
  let spent = 0;
  for (let attempt = 0; attempt < ATTEMPTS && spent < looks; attempt++) {
    // The first attempt takes the best places first; later ones stray from that, each in its own way.
    const random = seededRandom(attempt);
    const stray = attempt === 0 ? () => 0 : () => random.next() * (room.crew.width + room.crew.depth);
    const { placed, looked } = attemptAt(pieces, room, stray, Math.min(looks - spent, looks * ATTEMPT_SHARE));
    spent += looked;
    if (placed.length > fullest.length) fullest = placed;
    if (placed.length === pieces.length) break;
  }
  return {
    fits: fullest.length === pieces.length,
    placed: fullest,
    way: wayOut(fullest, room) ?? [],
    looked: spent,
  };
}

/** One depth-first search; the fullest arrangement it saw, and how many places it looked at. */
function attemptAt(
  pieces: readonly Furniture[],
  room: Room,
  stray: () => number,
  looks: number,
): { placed: readonly PlacedPiece[]; looked: number } {
  let looked = 0;
  let tries = 0;
  let fullest: readonly PlacedPiece[] = [];
  const place = (placed: readonly PlacedPiece[]): boolean => {
    if (placed.length > fullest.length) fullest = placed;
    const piece = pieces[placed.length];
    if (piece === undefined) return true;
    const found = candidates(piece, placed, room);
    looked += found.looked;
    const order = found.places
      .map((candidate) => ({ candidate, rank: worth(candidate, room) + stray() }))
      .sort((a, b) => b.rank - a.rank);
    for (const { candidate } of order) {
      if (++tries > ATTEMPT_TRIES || looked > looks) return false;
      looked += WAY_LOOKS;
      // Later pieces only narrow the ways, so a placing that closes one is rejected at once.
      const next = [...placed, candidate];
      if (wayOut(next, room) === null) continue;
      if (place(next)) return true;
    }
    return false;
  };
  place([]);
  return { placed: fullest, looked };
}

/** Every allowed placing of a piece in a free corner, and the number tried. */
export function candidates(
  piece: Furniture,
  placed: readonly PlacedPiece[],
  room: Room,
): { places: PlacedPiece[]; looked: number } {
  const places: PlacedPiece[] = [];
  let looked = 0;
  // A counter is worked from behind, with the customer before it.
  for (const facing of piece.kind === "counter" ? (["back"] as const) : SIDES) {
    const shape = shapeOf(piece, facing);
    const xs = starts(placed, room.crew, piece.clearance, shape, "x");
    const ys =
      piece.kind === "counter" ? [room.crew.y] : starts(placed, room.crew, piece.clearance, shape, "y");
    looked += xs.length * ys.length;
    for (const x of xs)
      for (const y of ys) {
        const candidate = moved(shape, x - shape.swept.x, y - shape.swept.y);
        if (allowed(candidate, placed, room)) places.push(candidate);
      }
  }
  return { places, looked };
}

/** The piece at the origin, worked from one side. */
function shapeOf(piece: Furniture, facing: Side): PlacedPiece {
  const along = facing === "front" || facing === "back";
  const footprint: Rectangle = {
    x: 0,
    y: 0,
    width: along ? piece.width : piece.depth,
    depth: along ? piece.depth : piece.width,
  };
  const swept =
    piece.swing === null
      ? footprint
      : grownTo(footprint, seenFrom(facing, piece.swing.side), piece.swing.reach);
  return {
    piece: piece.piece,
    kind: piece.kind,
    facing,
    footprint,
    swept,
    kept: grown(swept, piece.clearance),
    standing: piece.standing > 0 ? stripAt(footprint, facing, piece.standing) : null,
    publicMillimetres: null,
  };
}

function moved(shape: PlacedPiece, x: number, y: number): PlacedPiece {
  const move = (area: Rectangle): Rectangle => ({ ...area, x: area.x + x, y: area.y + y });
  return {
    ...shape,
    footprint: move(shape.footprint),
    swept: move(shape.swept),
    kept: move(shape.kept),
    standing: shape.standing === null ? null : move(shape.standing),
  };
}

/**
 * The possible starts of the swept rectangle along one axis: against a border, a piece, or somebody's standing place.
 */
function starts(
  placed: readonly PlacedPiece[],
  crew: Rectangle,
  clearance: number,
  { swept }: PlacedPiece,
  axis: "x" | "y",
): number[] {
  const length = axis === "x" ? swept.width : swept.depth;
  const last = axis === "x" ? right(crew) - length : back(crew) - length;
  const low = (area: Rectangle): number => (axis === "x" ? area.x : area.y);
  const high = (area: Rectangle): number => (axis === "x" ? right(area) : back(area));
  const found = new Set([low(crew) + clearance, high(crew) - length - clearance]);
  for (const other of placed) {
    const gap = Math.max(clearance, low(other.swept) - low(other.kept));
    found.add(high(other.swept) + gap).add(low(other.swept) - length - gap);
    if (other.standing !== null) found.add(high(other.standing)).add(low(other.standing) - length);
  }
  return [...found].filter((start) => start >= low(crew) - 1e-6 && start <= last + 1e-6);
}

function allowed(candidate: PlacedPiece, placed: readonly PlacedPiece[], room: Room): boolean {
  // A counter stands on the public's line itself; its clearance is the customers' side.
  const kept = candidate.kind === "counter" ? candidate.swept : candidate.kept;
  if (!inside(kept, room.crew)) return false;
  if (candidate.standing !== null && !inside(candidate.standing, room.crew)) return false;
  if (candidate.kind === "press" && publicDistance(candidate, room) < room.hotDistance - 1e-6) return false;
  return placed.every((other) => {
    if (overlaps(candidate.kept, other.swept) || overlaps(candidate.swept, other.kept)) return false;
    if (candidate.standing !== null && overlaps(candidate.standing, other.swept)) return false;
    if (other.standing !== null && overlaps(other.standing, candidate.swept)) return false;
    // Two people at hot presses must not share a standing place.
    const bothHot = candidate.kind === "press" && other.kind === "press";
    return !(bothHot && candidate.standing && other.standing && overlaps(candidate.standing, other.standing));
  });
}

/** The distance from the hot part, lid included, to the nearest place open to the public; Infinity if there is none. */
export const publicDistance = ({ swept }: PlacedPiece, { publicAreas }: Room): number =>
  Math.min(...publicAreas.map((area) => distanceBetween(swept, area)));

/** Presses go far from the public; the rest against the borders, so that the middle stays free. */
function worth(candidate: PlacedPiece, room: Room): number {
  const { swept } = candidate;
  const toBorder = Math.min(
    swept.x - room.crew.x,
    right(room.crew) - right(swept),
    back(room.crew) - back(swept),
  );
  if (candidate.kind === "press") return publicDistance(candidate, room) - toBorder / 10;
  return -toBorder;
}
