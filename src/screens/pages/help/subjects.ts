/** The subjects of help, in the order of the booklet. */
import type { HelpSubject } from "./answer.ts";
import { AT_THE_STALL } from "./at-the-stall.ts";
import { BEFORE } from "./before.ts";
import { CUSTOMERS } from "./customers.ts";
import { GOING_LIVE } from "./going-live.ts";
import { LAPTOP } from "./laptop.ts";
import { ORGANISER } from "./organiser.ts";
import { PROGRAMS } from "./programs.ts";

export const SUBJECTS: readonly HelpSubject[] = [
  AT_THE_STALL,
  BEFORE,
  CUSTOMERS,
  ORGANISER,
  LAPTOP,
  GOING_LIVE,
  PROGRAMS,
];
