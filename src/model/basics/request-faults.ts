/** The faults of a request's shape in words: where, what, and what would mend it. */
import type { z } from "zod";
import { type Fault, type MendableFault, pointer } from "./faults.ts";

/** Every fault of a request's shape, each in one sentence. */
export const faultsOf = (error: z.ZodError): readonly Fault[] =>
  mendable(error).map(({ pointer: at, detail, mend }) => ({
    pointer: at,
    detail: mend === AS_THE_SCHEMA_SAYS ? detail : `${detail}; ${mend}`,
  }));

/** For what the schema has words of its own. */
const AS_THE_SCHEMA_SAYS = "write it as the schema says";

/** Every fault of a request's shape, with what would mend it. */
export const mendable = (error: z.ZodError): readonly MendableFault[] => error.issues.flatMap(faultsOfIssue);

function faultsOfIssue(issue: z.core.$ZodIssue): MendableFault[] {
  if (issue.code === "unrecognized_keys") {
    return issue.keys.map((key) => ({
      pointer: pointer([...issue.path, key]),
      detail: "is not a field here",
      mend: "check its spelling or take it out",
    }));
  }
  return [{ pointer: pointer(issue.path), detail: detailOf(issue), mend: mendOf(issue) }];
}

/** An issue in words; the schema's own words if it has some. */
function detailOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "too_small":
      return amount(issue.origin, "is empty or too short", "has too few entries", "is too low");
    case "too_big":
      return amount(issue.origin, "is too long", "has too many entries", "is too high");
    case "invalid_type":
      return issue.message.endsWith("received undefined")
        ? "is missing"
        : `is not ${EXPECTED[issue.expected] ?? "of the right kind"}`;
    case "invalid_value":
      return "is none of the choices there are";
    case "invalid_union":
      return "cannot be read";
    case "invalid_format":
      return issue.message.startsWith("Invalid")
        ? "is not in the form that the schema asks for"
        : issue.message;
    default:
      return issue.message;
  }
}

/** Kinds of values as people call them. */
const EXPECTED: Readonly<Record<string, string>> = {
  int: "a whole number",
  number: "a number",
  string: "text",
  boolean: "yes or no (true or false)",
  array: "a list",
  object: "a group of fields",
};

/** How to fix it, from what the schema requires. */
function mendOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "too_small":
      return `give ${issue.inclusive === false ? "more than" : "at least"} ${issue.minimum}${unitOf(issue.origin)}`;
    case "too_big":
      return `give ${issue.inclusive === false ? "less than" : "at most"} ${issue.maximum}${unitOf(issue.origin)}`;
    case "invalid_type":
      return `give ${EXPECTED[issue.expected] ?? `a value of type ${issue.expected}`}`;
    case "invalid_value":
      return `give one of ${issue.values.map(String).join(", ")}`;
    default:
      return AS_THE_SCHEMA_SAYS;
  }
}

const unitOf = (origin: string): string => amount(origin, " letters or digits", " entries", "");

/** The words for an amount of letters or of entries, or for a figure. */
function amount(origin: string, letters: string, entries: string, figure: string): string {
  if (origin === "string") return letters;
  return origin === "array" ? entries : figure;
}
