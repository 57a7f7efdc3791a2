/** The part of split-sms that is used here; the package has no types of its own. */
declare module "split-sms" {
  const splitter: {
    split(text: string): {
      characterSet: "GSM" | "Unicode";
      parts: readonly { content: string }[];
      /** Septets in the default alphabet, octets in UCS-2. */
      bytes: number;
    };
  };
  export default splitter;
}
