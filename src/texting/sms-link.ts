/** Links that open a text ready to send. */

/**
 * An `sms:` URI (RFC 5724, section 2.2): the recipient as a global number, and the body percent-encoded in
 * its only `body` field.
 */
export function smsLink(number: string, body: string): string {
  // encodeURIComponent leaves !'()* alone, which a URI query may hold as they are.
  return `sms:${number}?body=${encodeURIComponent(body)}`;
}
