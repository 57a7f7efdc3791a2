import { feetOf } from "../maths/units.ts";
import type { OrganiserSheet } from "../model/planning/organiser-sheet.ts";
import type { PitchPlan } from "../model/planning/pitch.ts";
import type { PowerPlan } from "../model/planning/power.ts";
import { TEST_MINUTES } from "./parts-from-plan.ts";
import { heatCautions, USUAL_PLATEN_CELSIUS } from "./words/cautions.ts";
import { listed, round } from "./words/phrases.ts";

/** Minutes. Common practice, no source; the crew's own figures go first. */
const USUAL = { setUp: 90, coolDown: 45 } as const;

export type SheetFor = {
  readonly stall: string;
  readonly fair: string;
  /** The day of the fair, as it is to be read. */
  readonly day?: string;
  /** Local times of day, "10:00". */
  readonly opens: string;
  readonly closes: string;
  /** From arriving to everything standing. */
  readonly setUpMinutes?: number;
  readonly pitch: PitchPlan | null;
  readonly power: PowerPlan | null;
};

/** The page to hand to the organiser: what we need, what we have to know, and when we do what. */
export function organiserSheet(given: SheetFor): OrganiserSheet {
  const { stall, fair, day, pitch, power } = given;
  // The power plan knows how hot the platens are; the pitch only what is usual.
  const usual = new Set(power === null ? [] : heatCautions(USUAL_PLATEN_CELSIUS));
  return {
    title: `${stall} at ${fair}${day === undefined ? "" : `, ${day}`}: what we need`,
    pitch: pitch === null ? [] : pitchLines(pitch),
    power: power === null ? [] : powerLines(power),
    questions: questionsFor(given),
    timetable: timetableOf(given),
    cautions: [...(power?.cautions ?? []), ...(pitch?.cautions ?? []).filter((one) => !usual.has(one))],
  };
}

const both = (millimetres: number): string =>
  `${round(millimetres / 1000, 2)} m (${round(feetOf(millimetres / 1000), 1)} ft)`;

function pitchLines(pitch: PitchPlan): string[] {
  const presses = pitch.placed.filter(({ kind }) => kind === "press");
  const nearest = Math.min(
    ...presses.map(({ publicMillimetres }) => publicMillimetres ?? Number.POSITIVE_INFINITY),
  );
  const lines = [
    `A pitch ${both(pitch.widthMillimetres)} wide along the front and ${both(pitch.depthMillimetres)} deep.`,
    `A way out ${both(pitch.exit.widthMillimetres)} wide at the ${pitch.exit.side}, kept free all day.`,
  ];
  if (presses.length > 0 && Number.isFinite(nearest))
    lines.push(`Hot presses stand ${both(nearest)} or more from where the public can be.`);
  if (pitch.hotRule.overriddenBecause !== null)
    lines.push(
      `That is nearer than our rule of ${both(pitch.hotRule.millimetres)}, because: ${pitch.hotRule.overriddenBecause}`,
    );
  if (pitch.queue.people > 0)
    lines.push(
      `${pitch.queue.people} people may be queueing ${pitch.queue.inside ? "on the pitch" : "on the aisle before it"}: ${both(pitch.queue.area.depth)} deep.`,
    );
  if (pitch.vehicles !== null) lines.push(`We bring ${pitch.vehicles.says}`);
  return lines;
}

function powerLines(power: PowerPlan): string[] {
  const largest = Math.max(0, ...power.circuits.flatMap(({ loads }) => loads.map(({ amps }) => amps)));
  const lines = [power.order, `The largest single load draws ${round(largest, 1)} A.`];
  if (power.generator?.fuel)
    lines.push(
      `The generator burns up to ${round(power.generator.fuel.mostLitres)} L (${round(power.generator.fuel.mostGallons, 1)} US gal) of fuel in the day.`,
    );
  return lines;
}

function questionsFor({ opens, closes, power, pitch }: SheetFor): OrganiserSheet["questions"] {
  const questions: OrganiserSheet["questions"] = [
    { about: "foot traffic", ask: "How many people came last year, and in which hours?" },
    { about: "foot traffic", ask: "Which stalls are our neighbours, and where do people come in?" },
    {
      about: "hours",
      ask: `Are the hours ${opens} to ${closes}, and may we sell on until the last guest leaves?`,
    },
    { about: "load-in", ask: "When may we drive in, how near to the pitch, and when must vehicles be gone?" },
    { about: "pitch", ask: "What is the ground like, may we anchor into it, and is anything overhead?" },
    {
      about: "weather cover",
      ask: "Is the pitch under cover? What happens in wind and rain, and who decides to close?",
    },
    {
      about: "network",
      ask: "Which phone network works best here when it is full, and is there any other connection?",
    },
  ];
  if (power !== null)
    questions.push(
      { about: "power", ask: "Where is our socket, what type is it, and how far from the pitch?" },
      { about: "power", ask: "From when to when is it live, and whom do we call when a breaker trips?" },
    );
  if (power?.generator)
    questions.push({ about: "power", ask: "May a generator run here, where, and how is fuel to be kept?" });
  if (pitch !== null && !pitch.queue.inside)
    questions.push({
      about: "pitch",
      ask: `May ${pitch.queue.people} people queue on the aisle before our pitch?`,
    });
  return questions;
}

function timetableOf({
  opens,
  closes,
  setUpMinutes = USUAL.setUp,
  power,
}: SheetFor): OrganiserSheet["timetable"] {
  const open = minutesOf(opens);
  const close = minutesOf(closes);
  const test = open - TEST_MINUTES;
  const warm = test - Math.ceil(power?.warmUp.allReadyMinute ?? 0);
  const before: Row[] = [
    { at: warm - setUpMinutes, what: "Arrive, unload, put up cover and tables; vehicles out" },
    { at: warm - 10, what: "Lay and cover cables, test each ground-fault switch, check every plug" },
    ...(power?.warmUp.turns ?? []).map(({ atMinute, loads }) => ({
      at: warm + atMinute,
      what: `Switch on ${listed(loads)}`,
    })),
    { at: test, what: "Presses at heat: press one garment of each kind and look at it" },
    { at: open, what: "Open" },
  ];
  const after: Row[] = [
    { at: close, what: "Close; press what is ordered, then switch off and leave presses open to cool" },
    {
      at: close + USUAL.coolDown,
      what: "Presses cool to the hand: pack; vehicles in when the organiser says",
    },
  ];
  return [...earlyEnough(before), ...lateEnough(after)].map(({ at, what }) => ({ at: clock(at), what }));
}

type Row = { readonly at: number; readonly what: string };
const QUARTER = 15;

/** Every row but the last on a whole quarter of an hour, with at least as long to the next as it takes. */
function earlyEnough(rows: readonly Row[]): readonly Row[] {
  const early: Row[] = [];
  for (const [index, row] of [...rows.entries()].reverse()) {
    const next = early.at(-1);
    const takes = (rows[index + 1]?.at ?? row.at) - row.at;
    const at = next === undefined ? row.at : QUARTER * Math.floor((next.at - takes) / QUARTER);
    early.push({ ...row, at });
  }
  return early.reverse();
}

/** Every row but the first on a whole quarter of an hour, no earlier than it can begin. */
const lateEnough = (rows: readonly Row[]): readonly Row[] =>
  rows.map((row, index) => (index === 0 ? row : { ...row, at: QUARTER * Math.ceil(row.at / QUARTER) }));

function minutesOf(time: string): number {
  const [hours = "0", minutes = "0"] = time.split(":");
  return Number(hours) * 60 + Number(minutes);
}

const clock = (minutes: number): string => {
  const day = 24 * 60;
  const within = ((Math.floor(minutes) % day) + day) % day;
  return `${String(Math.floor(within / 60)).padStart(2, "0")}:${String(within % 60).padStart(2, "0")}`;
};
