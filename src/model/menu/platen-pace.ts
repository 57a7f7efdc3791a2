/** How fast an open platen changes its temperature near working heat: for quotes at the stall and for plans alike. */

// A platen climbs 15 to 20 °F a minute and cools more slowly: common practice, no source.
export const CLIMBS_FAHRENHEIT_PER_MINUTE = 18;
export const COOLS_FAHRENHEIT_PER_MINUTE = 15;
