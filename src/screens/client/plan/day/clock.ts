/** Times of day as minutes after midnight. */
import type { Json } from "../../kit/json-pointer.ts";

/** Minutes after midnight of "10:00"; null for anything else. */
export function minuteOf(clock: Json | undefined): number | null {
  const [, hours, minutes] = /^(\d{1,2}):(\d{2})$/.exec(String(clock)) ?? [];
  return hours === undefined || minutes === undefined ? null : Number(hours) * 60 + Number(minutes);
}

/** 605 is "10:05". */
export const clockWords = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, "0")}:${String(minute % 60).padStart(2, "0")}`;
