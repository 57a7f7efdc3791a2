/** Stands in for the platform's own module: a simulated object is given its storage and bindings, nothing else. */
export class DurableObject {
  protected readonly ctx: unknown;
  protected readonly env: unknown;

  constructor(ctx: unknown, env: unknown) {
    this.ctx = ctx;
    this.env = env;
  }
}
