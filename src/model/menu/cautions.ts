/**
 * Cautions beside a garment's settings. Common practice, no source, but for the burn threshold: bare
 * metal burns within a second from 65 to 70 °C (EN 563 / ISO 13732-1), and a platen is far above it.
 */
import type { Blank, Design } from "./catalogue.ts";

// Polyester can scorch or let its dye move from about here on: from memory.
const POLYESTER_FAHRENHEIT = 280;

/** The cautions for this garment, most urgent first. */
export function cautionsFor(blank: Blank, design: Design): string[] {
  const cautions = ["Hot platen: burns on touch. Never leave it closed or unattended."];
  const hot = design.settings.temperatureFahrenheit >= POLYESTER_FAHRENHEIT;
  if (hot && (blank.fabric === "polyester" || blank.fabric === "blend")) {
    cautions.unshift(
      `${blank.fabric === "blend" ? "Polyester blend" : "Polyester"} at ${design.settings.temperatureFahrenheit} °F can scorch or change colour: check the blank's and the transfer's own sheets.`,
    );
  }
  return cautions;
}
