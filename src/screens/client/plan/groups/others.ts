/** The figures of a request for gang sheets, for power and for the pitch. */
import type { Field, Group } from "../field.ts";
import type { Json } from "../pointer.ts";
import { rowsOf, wordAt } from "./names.ts";

export function sheetGroups(request: Json): readonly Group[] {
  const unit = wordAt(request, "#/unit", "in");
  const designs = rowsOf(request, "#/designs").flatMap(({ at, name }): Field[] => [
    { pointer: `${at}/width`, label: `${name}: width`, unit, help: "Of the printed art." },
    { pointer: `${at}/height`, label: `${name}: height`, unit, help: "Of the printed art." },
    {
      pointer: `${at}/count`,
      label: `${name}: wanted`,
      unit: "transfers",
      help: "Filled in from the plan above when there is one.",
    },
  ]);
  const sheets = rowsOf(request, "#/sheets").flatMap(({ at, name }): Field[] => [
    { pointer: `${at}/width`, label: `${name}: width`, unit, help: "Of the whole sheet." },
    { pointer: `${at}/height`, label: `${name}: height`, unit, help: "Of the whole sheet." },
    { pointer: `${at}/margin`, label: `${name}: margin`, unit, help: "Kept clear along every edge." },
    { pointer: `${at}/gap`, label: `${name}: gap`, unit, help: "Kept between pieces, for the blade." },
    ...rowsOf(request, `${at}/prices`, "copies").map(
      (price): Field => ({
        pointer: `${price.at}/price`,
        label: `${name}: price from ${price.name}`,
        unit: "minor units (cents) a sheet",
        help: `From ${price.name} copies of one layout.`,
      }),
    ),
  ]);
  return [
    { legend: "Designs", fields: designs },
    {
      legend: "Sheets that can be bought",
      fields: [
        ...sheets,
        {
          pointer: "#/extraLayoutPrice",
          label: "Every further layout",
          unit: "minor units (cents) once",
          help: "Set-up of each layout after the first.",
        },
        {
          pointer: "#/cuts",
          label: "How you cut",
          help: "A straight trimmer cuts from edge to edge only.",
          choices: [
            ["straight trimmer", "guillotine"],
            ["scissors or blade", "free"],
          ],
        },
        {
          pointer: "#/question/ask",
          label: "What to work out",
          help: "With a limit, say how many sheets below.",
          choices: [
            ["the cheapest order that has them all", "least-cost"],
            ["the best mix I can afford", "affordable"],
          ],
        },
        {
          pointer: "#/question/sheets",
          label: "Sheets you can afford",
          unit: "sheets",
          help: "Only with the best mix you can afford.",
        },
      ],
    },
  ];
}

export function powerGroups(request: Json): readonly Group[] {
  const loads = rowsOf(request, "#/loads", "load").flatMap(({ at, name }): Field[] => [
    { pointer: `${at}/watts`, label: `${name}: draws`, unit: "watts", help: "From its specification plate." },
    ...(wordAt(request, `${at}/volts`) === ""
      ? []
      : [{ pointer: `${at}/volts`, label: `${name}: made for`, unit: "volts", help: "From its plate." }]),
    ...(wordAt(request, `${at}/cord/distance/value`) === ""
      ? []
      : [
          {
            pointer: `${at}/cord/distance/value`,
            label: `${name}: from the socket`,
            unit: wordAt(request, `${at}/cord/distance/unit`, "ft"),
            help: "Along the way its cord will lie.",
          },
        ]),
  ]);
  const given = rowsOf(request, "#/circuits", "circuit").map(
    ({ at, name }): Field => ({
      pointer: `${at}/breakerAmps`,
      label: `Circuit ${name}`,
      unit: "amps of its breaker",
      help: "As the site gives it.",
    }),
  );
  const offered = rowsOf(request, "#/offered", "breakerAmps").map(
    ({ at, name }): Field => ({
      pointer: `${at}/price`,
      label: `A ${name} A circuit`,
      unit: wordAt(request, "#/currency", "USD"),
      help: "What the organiser charges for it.",
    }),
  );
  return [
    {
      legend: "The place",
      fields: [
        {
          pointer: "#/region",
          label: "Whose rules",
          help: "Of the place where the fair is.",
          choices: [
            ["North America", "north-america"],
            ["United Kingdom", "united-kingdom"],
            ["Europe", "europe"],
          ],
        },
        {
          pointer: "#/hours",
          label: "Live for",
          unit: "hours",
          help: "From the first warm-up to switching off.",
        },
        ...given,
        ...offered,
      ],
    },
    { legend: "What draws power", fields: loads },
  ];
}

export function pitchGroups(request: Json): readonly Group[] {
  const long = (pointer: string, label: string, help: string): Field => ({
    pointer: `${pointer}/value`,
    label,
    unit: wordAt(request, `${pointer}/unit`, "ft"),
    help,
  });
  return [
    {
      legend: "The pitch",
      fields: [
        long("#/pitch/width", "Width", "Along the front, where customers come."),
        long("#/pitch/depth", "Depth", "From the front to the back."),
        {
          pointer: "#/queue/people",
          label: "Queue",
          unit: "people",
          help: "Waiting at the counter at the busiest time.",
        },
        {
          pointer: "#/queue/where",
          label: "They queue",
          help: "Ask the organiser before using the aisle.",
          choices: [
            ["on the aisle before it", "outside"],
            ["on the pitch", "inside"],
          ],
        },
      ],
    },
    {
      legend: "What stands on it",
      fields: rowsOf(request, "#/pieces", "piece").flatMap(({ at, name }) => [
        long(`${at}/width`, `${name}: width`, "Along the side it is worked from."),
        long(`${at}/depth`, `${name}: depth`, "With the stand it is on."),
      ]),
    },
    {
      legend: "What the vehicle carries",
      closer: true,
      fields: [
        ...rowsOf(request, "#/vehicles", "vehicle").map(({ at, name }) =>
          long(`${at}/payload`, `${name}: may carry`, "From its papers, with the people taken off."),
        ),
        ...rowsOf(request, "#/cargo", "item").map(({ at, name }) =>
          long(`${at}/weight`, `${name}: weighs`, "One of them."),
        ),
      ],
    },
  ];
}

export function pressesGroups(request: Json): readonly Group[] {
  const seconds = (pointer: string, label: string, help: string): Field => ({
    pointer,
    label,
    unit: "seconds",
    help,
  });
  return [
    {
      legend: "Presses and hands to choose from",
      fields: [
        ...rowsOf(request, "#/presses", "platen").flatMap(({ at, name }): Field[] => [
          {
            pointer: `${at}/most`,
            label: `Most ${name} presses`,
            unit: "machines",
            help: "Each number up to this is tried.",
          },
          {
            pointer: `${at}/cost`,
            label: `One ${name} press costs`,
            unit: "for the day",
            help: "Hire, or its share of the price.",
          },
          {
            pointer: `${at}/power`,
            label: `Power for one ${name} press`,
            unit: "for the day",
            help: "A circuit more, as the organiser charges it.",
          },
        ]),
        {
          pointer: "#/people/most",
          label: "Most people pressing",
          unit: "people",
          help: "Paid at the wage given above.",
        },
        {
          pointer: "#/opensItself",
          label: "Presses open by themselves?",
          help: "Then one person can serve another while it closes.",
          choices: [
            ["no", false],
            ["yes", true],
          ],
        },
      ],
    },
    {
      legend: "Seconds for one garment",
      closer: true,
      fields: rowsOf(request, "#/handling", "settings").flatMap(({ at, name }) => [
        seconds(`${at}/loadSeconds`, `${name}: load and smooth`, "Until it lies flat."),
        seconds(`${at}/prePressSeconds`, `${name}: pre-press`, "Drives out moisture and wrinkles."),
        seconds(`${at}/placeSeconds`, `${name}: place the transfer`, "Straight, at its place."),
        seconds(`${at}/dwellSeconds/0`, `${name}: dwell`, "Closed, as the transfer's own sheet says."),
        seconds(`${at}/peelSeconds`, `${name}: peel`, "After the dwell."),
        seconds(`${at}/unloadSeconds`, `${name}: unload`, "Until the press is free."),
        seconds(`${at}/foldSeconds`, `${name}: fold and call`, "Away from the press."),
      ]),
    },
  ];
}
