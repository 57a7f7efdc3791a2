/** Which stall at which fair a page is for. */
export type Place = { readonly fair: string; readonly stall: string };
