import { feetOf, inMetres } from "../../maths/units.ts";
import type { CordAdvice, CordRun } from "../../model/planning/power.ts";
import { listed, round } from "../words/phrases.ts";
import type { RegionRules } from "../words/region-rules.ts";
import type { LoadedCircuit } from "./circuits.ts";
import { heatShareAt, voltsAtElement, warmUpStretch } from "./heating.ts";
import type { PlateLoad } from "./loads.ts";
import { CORD_SIZES, type CordSize, dropVolts } from "./wire.ts";

/** The task of one cord. */
export type CordTask = {
  /** By the plate. */
  readonly amps: number;
  /** With a continuous load counted by the region's factor. */
  readonly countedAmps: number;
  readonly socketVolts: number;
  readonly lengthMetres: number;
  readonly breakerAmps: number;
  /** The rating of plug and socket; in a fused plug, the fuse. */
  readonly plugAmps: number;
};

const lostShare = (cord: CordSize, task: CordTask): number =>
  dropVolts(task.amps, task.lengthMetres, cord.ohmsPerKilometre) / task.socketVolts;

/**
 * Why a conductor will not do, or nothing when it is safe: its ampacity against the counted load and against
 * what protects it, and a drop beyond the limit. A North American circuit of up to 20 A may feed a cord of
 * 16 AWG or larger (NEC 240.5(B)(4)); everywhere else the cord must carry what its fuse or breaker lets through.
 */
export function whyUnsafe(cord: CordSize, task: CordTask, rules: RegionRules): string[] {
  const why: string[] = [];
  if (cord.ratedAmps < task.countedAmps - 1e-9)
    why.push(`it is rated for ${cord.ratedAmps} A and the load counts ${round(task.countedAmps, 2)} A`);
  const protection = rules.plugIsFused ? Math.min(task.plugAmps, task.breakerAmps) : task.breakerAmps;
  const waived = rules.cordSystem === "awg" && task.breakerAmps <= 20;
  if (!waived && cord.ratedAmps < protection)
    why.push(
      `it is rated for ${cord.ratedAmps} A behind a ${protection} A ${rules.plugIsFused && protection < task.breakerAmps ? "fuse" : "breaker"}`,
    );
  const lost = lostShare(cord, task);
  if (lost > rules.dropLimit + 1e-9)
    why.push(
      `it loses ${round(lost * 100, 1)} % of the voltage, over the limit of ${rules.dropLimit * 100} %`,
    );
  return why;
}

/** Why a safe conductor is still advised against: a drop beyond the advice, within the limit. */
function whyAdvisedAgainst(cord: CordSize, task: CordTask, rules: RegionRules): string[] {
  const lost = lostShare(cord, task);
  if (lost <= rules.dropAdvised + 1e-9 || lost > rules.dropLimit + 1e-9) return [];
  return [`it loses ${round(lost * 100, 1)} % of the voltage, over the ${rules.dropAdvised * 100} % advised`];
}

/**
 * The lightest conductor that is safe for the task and meets the advice, else the lightest safe one; null if none is
 * safe.
 */
export function lightestSafe(task: CordTask, rules: RegionRules): CordSize | null {
  const safe = CORD_SIZES[rules.cordSystem].filter((cord) => whyUnsafe(cord, task, rules).length === 0);
  return safe.find((cord) => whyAdvisedAgainst(cord, task, rules).length === 0) ?? safe[0] ?? null;
}

/** The cord's length in metres: as given, or the next usual one that covers the distance. */
function cordMetres(run: CordRun, rules: RegionRules): number {
  if (run.length !== undefined) return inMetres(run.length);
  const distance = inMetres(run.distance);
  return rules.cordLengthsMetres.find((length) => length >= distance - 1e-9) ?? distance;
}

/**
 * The lightest safe cord for a load on its circuit, its effect on voltage and heat, and a verdict on a cord already
 * owned.
 */
export function adviseCord(
  load: PlateLoad,
  run: CordRun,
  circuit: LoadedCircuit,
  rules: RegionRules,
): CordAdvice {
  const lengthMetres = cordMetres(run, rules);
  // A load past an ordinary fused plug has to be on a larger one, protected by the breaker.
  const plugAmps = load.plugAmps ?? (load.amps > rules.plugAmps ? circuit.breakerAmps : rules.plugAmps);
  const task: CordTask = {
    amps: load.amps,
    countedAmps: load.countedAmps,
    socketVolts: circuit.volts,
    lengthMetres,
    breakerAmps: circuit.breakerAmps,
    plugAmps,
  };
  const lightest = lightestSafe(task, rules);
  const owned = CORD_SIZES[rules.cordSystem].find(({ size }) => size === run.size) ?? null;
  const unsafe = owned === null ? [] : whyUnsafe(owned, task, rules);
  const advised = owned === null ? [] : whyAdvisedAgainst(owned, task, rules);
  const judgement = unsafe.length > 0 ? "unsafe" : advised.length > 0 ? "advised-against" : "good";
  const why = [...unsafe, ...advised];
  // The effects shown are those of the cord that will lie there: the owned one, even when it is judged unsafe.
  const lying = owned ?? lightest;
  const effects = lying === null ? null : effectsOf(lying, load, task);
  return {
    load: load.load,
    size: lightest?.size ?? null,
    ratedAmps: lightest?.ratedAmps ?? null,
    lengthMetres,
    lengthFeet: feetOf(lengthMetres),
    amps: load.amps,
    dropVolts: effects?.lost ?? null,
    dropShare: effects === null ? null : effects.lost / circuit.volts,
    voltsAtLoad: effects?.arriving ?? null,
    heatShare: effects?.heatShare ?? null,
    warmUpMinutes: effects?.warmUpMinutes ?? null,
    own: owned === null ? null : { size: owned.size, safe: judgement !== "unsafe", judgement, why },
    says: inWords(
      load,
      lightest,
      lightest === null ? [] : whyAdvisedAgainst(lightest, task, rules),
      owned,
      { judgement, why },
      lengthMetres,
    ),
  };
}

function effectsOf(cord: CordSize, load: PlateLoad, task: CordTask) {
  const lost = dropVolts(task.amps, task.lengthMetres, cord.ohmsPerKilometre);
  if (load.kind !== "press")
    return {
      lost,
      arriving: task.socketVolts - lost,
      heatShare: null,
      warmUpMinutes: load.warmUpMinutes || null,
    };
  const elementOhms = load.watts / load.amps ** 2;
  const arriving = voltsAtElement(task.socketVolts, elementOhms, task.lengthMetres, cord.ohmsPerKilometre);
  const heatShare = heatShareAt(arriving, load.volts);
  const stretch = warmUpStretch(heatShare, load.holdingShare);
  return { lost, arriving, heatShare, warmUpMinutes: stretch === null ? null : load.warmUpMinutes * stretch };
}

function inWords(
  load: PlateLoad,
  lightest: CordSize | null,
  stillAdvisedAgainst: readonly string[],
  owned: CordSize | null,
  own: { readonly judgement: "good" | "advised-against" | "unsafe"; readonly why: readonly string[] },
  lengthMetres: number,
): string {
  const long = `${round(feetOf(lengthMetres))} ft (${round(lengthMetres, 1)} m)`;
  const advice =
    lightest === null
      ? `No cord in the table is safe for ${load.load} over ${long}: bring the socket nearer, or the load down.`
      : `For ${load.load}, ${long} of ${lightest.size} is the lightest safe cord${lightest.fromMemory ? " (ampacity from memory: check the cord's own marking)" : ""}.${stillAdvisedAgainst.length > 0 ? ` Even so, ${listed(stillAdvisedAgainst)}: a nearer socket is better.` : ""}`;
  if (owned === null) return advice;
  switch (own.judgement) {
    case "good":
      return `The ${owned.size} cord will do for ${load.load} over ${long}.`;
    case "advised-against":
      return `The ${owned.size} cord is not unsafe for ${load.load} over ${long}, but advised against: ${listed(own.why)}. ${advice}`;
    case "unsafe":
      return `Do not use the ${owned.size} cord for ${load.load}: ${listed(own.why)}. ${advice}`;
  }
}
