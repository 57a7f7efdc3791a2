/** The package declares types for its name only, not for the file that Node can import. */
declare module "maxrects-packer/dist/maxrects-packer.mjs" {
  export { MaxRectsPacker } from "maxrects-packer";
}
