/** What is used of split-sms, which ships no types of its own. */
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
