import { crc32 } from "node:zlib";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { MOST_PICTURE_BYTES, PictureFacts } from "../../src/model/garment/picture.ts";
import { pictureFrom } from "../../src/pictures/kept-picture.ts";
import { JPEG, LOSSLESS_WEBP, LOSSY_WEBP, PNG, TRANSPARENT_WEBP } from "./drawn.ts";

const bytesOf = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text, "latin1"));
const whole = (...parts: readonly Uint8Array[]): Uint8Array => Uint8Array.from(Buffer.concat(parts));
const number = (value: number): Uint8Array => {
  const four = Buffer.alloc(4);
  four.writeUInt32BE(value);
  return Uint8Array.from(four);
};
/** A chunk of a PNG with its check value by zlib's own CRC-32. */
const chunk = (type: string, data: Uint8Array): Uint8Array =>
  whole(number(data.length), bytesOf(type), data, number(crc32(data, crc32(bytesOf(type)))));
const SECRET = "taken at 51.5 N by Wren";
const has = (bytes: Uint8Array, words: string): boolean => Buffer.from(bytes).includes(words);

/** Where a PNG's header ends: 8 bytes of signature, then 4 + 4 + 13 + 4. */
const HEADER_END = 33;
const withChunk = (type: string, data: Uint8Array): Uint8Array =>
  whole(PNG.subarray(0, HEADER_END), chunk(type, data), PNG.subarray(HEADER_END));
const ofSize = (width: number, height: number): Uint8Array =>
  whole(
    PNG.subarray(0, 8),
    chunk("IHDR", whole(number(width), number(height), PNG.subarray(24, 29))),
    PNG.subarray(HEADER_END),
  );
const segment = (marker: number, data: Uint8Array): Uint8Array =>
  whole(Uint8Array.of(0xff, marker, (data.length + 2) >> 8, (data.length + 2) & 0xff), data);

const refusal = async (bytes: Uint8Array): Promise<string> => {
  const read = await pictureFrom(bytes);
  return read.ok ? "taken" : read.refusal.code;
};

describe("a picture that is taken", () => {
  it.each([
    ["PNG", PNG, "image/png"],
    ["JPEG", JPEG, "image/jpeg"],
    ["lossy WebP", LOSSY_WEBP, "image/webp"],
    ["lossless WebP", LOSSLESS_WEBP, "image/webp"],
    ["transparent WebP", TRANSPARENT_WEBP, "image/webp"],
  ])("is told by its bytes and measured by its header: %s", async (_, bytes, type) => {
    const read = await pictureFrom(bytes);
    if (!read.ok) throw new Error(read.refusal.code);
    expect(PictureFacts.parse(read.value.facts)).toMatchObject({ type, width: 12, height: 8 });
    expect(read.value.bytes.length).toBe(read.value.facts.bytes);
  });

  it.each([PNG, JPEG, LOSSY_WEBP, LOSSLESS_WEBP, TRANSPARENT_WEBP])(
    "is kept as it is when it comes again",
    async (bytes) => {
      const once = await pictureFrom(bytes);
      if (!once.ok) throw new Error(once.refusal.code);
      const twice = await pictureFrom(once.value.bytes);
      expect(twice).toEqual(once);
    },
  );

  it.each([
    ["tEXt", bytesOf(`Comment\0${SECRET}`)],
    ["iTXt", bytesOf(`XML:com.adobe.xmp\0\0\0\0\0${SECRET}`)],
    ["eXIf", bytesOf(SECRET)],
    ["tIME", bytesOf(SECRET)],
  ])("loses the words of a PNG in %s", async (type, data) => {
    const given = withChunk(type, data);
    expect(has(given, SECRET)).toBe(true);
    const read = await pictureFrom(given);
    if (!read.ok) throw new Error(read.refusal.code);
    expect(has(read.value.bytes, SECRET)).toBe(false);
    expect(read.value.bytes).toEqual((await plain(PNG)).bytes);
  });

  it.each([
    ["APP1 (EXIF)", segment(0xe1, bytesOf(`Exif\0\0${SECRET}`))],
    ["APP13", segment(0xed, bytesOf(SECRET))],
    ["COM", segment(0xfe, bytesOf(SECRET))],
  ])("loses the words of a JPEG in %s", async (_, more) => {
    const read = await pictureFrom(whole(JPEG.subarray(0, 2), more, JPEG.subarray(2)));
    if (!read.ok) throw new Error(read.refusal.code);
    expect(has(read.value.bytes, SECRET)).toBe(false);
    expect(read.value.bytes).toEqual((await plain(JPEG)).bytes);
  });

  it.each(["EXIF", "XMP "])("loses the words of a WebP in %s", async (type) => {
    const data = bytesOf(`${SECRET}${SECRET.length % 2 === 0 ? "" : "!"}`);
    const length = Buffer.alloc(4);
    length.writeUInt32LE(data.length);
    const given = whole(TRANSPARENT_WEBP, bytesOf(type), length, data);
    Buffer.from(given.buffer).writeUInt32LE(given.length - 8, 4);
    const read = await pictureFrom(given);
    if (!read.ok) throw new Error(read.refusal.code);
    expect(has(read.value.bytes, SECRET)).toBe(false);
    expect(read.value.bytes).toEqual((await plain(TRANSPARENT_WEBP)).bytes);
  });

  it.each([PNG, JPEG, LOSSY_WEBP])(
    "loses what is hidden behind its end, so that it is no second file",
    async (bytes) => {
      const read = await pictureFrom(whole(bytes, bytesOf("PK\x03\x04<script>alert(1)</script>")));
      if (!read.ok) throw new Error(read.refusal.code);
      expect(has(read.value.bytes, "script")).toBe(false);
      expect(read.value.bytes).toEqual((await plain(bytes)).bytes);
    },
  );
});

async function plain(bytes: Uint8Array): Promise<{ readonly bytes: Uint8Array }> {
  const read = await pictureFrom(bytes);
  if (!read.ok) throw new Error(read.refusal.code);
  return { bytes: read.value.bytes };
}

describe("a picture that is refused", () => {
  it.each([
    ["an SVG", bytesOf('<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>')],
    ["an SVG with a declaration", bytesOf('<?xml version="1.0"?><svg/>')],
    ["a GIF", bytesOf("GIF89a/*")],
    ["a page", bytesOf("<!doctype html><img src=x onerror=alert(1)>")],
    ["nothing", new Uint8Array()],
    ["a PNG whose first byte is another", whole(Uint8Array.of(0x88), PNG.subarray(1))],
    ["a script before a PNG", whole(bytesOf("/*"), PNG)],
    ["another kind of RIFF", whole(LOSSY_WEBP.subarray(0, 8), bytesOf("WAVE"), LOSSY_WEBP.subarray(12))],
  ])("is of another kind: %s", async (_, bytes) => {
    expect(await refusal(bytes)).toBe("not-a-picture");
  });

  it.each([
    ["PNG", PNG],
    ["JPEG", JPEG],
    ["lossy WebP", LOSSY_WEBP],
    ["transparent WebP", TRANSPARENT_WEBP],
  ])("ends too early, wherever that is: %s", async (_, bytes) => {
    for (let length = 0; length < bytes.length; length += 1)
      expect(await refusal(bytes.subarray(0, length)), String(length)).toMatch(/broken|not-a-picture/);
  });

  it.each([
    [641, 8],
    [12, 641],
    [0x7fffffff, 0x7fffffff],
  ])("says in its header that it is %d by %d", async (width, height) => {
    expect(await refusal(ofSize(width, height))).toBe("too-many-pixels");
  });
  it("says in its header that it is empty", async () => {
    expect(await refusal(ofSize(0, 8))).toBe("broken");
  });
  it("is as large as may be, and no larger", async () => {
    expect(await refusal(ofSize(640, 640))).toBe("taken");
    const room = MOST_PICTURE_BYTES - PNG.length - 12;
    expect(await refusal(withChunk("tEXt", new Uint8Array(room)))).toBe("taken");
    expect(await refusal(withChunk("tEXt", new Uint8Array(room + 1)))).toBe("too-many-bytes");
  });
  it("has a check value that does not fit", async () => {
    const bytes = Uint8Array.from(PNG);
    bytes[20] = (bytes[20] ?? 0) ^ 1;
    expect(await refusal(bytes)).toBe("broken");
  });
  it("has a second header", async () => {
    expect(await refusal(withChunk("IHDR", PNG.subarray(16, 29)))).toBe("broken");
  });
  it("says two sizes", async () => {
    const bytes = Uint8Array.from(TRANSPARENT_WEBP);
    bytes[24] = 99;
    expect(await refusal(bytes)).toBe("broken");
  });
  it("moves", async () => {
    const bytes = Uint8Array.from(TRANSPARENT_WEBP);
    bytes[20] = (bytes[20] ?? 0) | 0x02;
    expect(await refusal(bytes)).toBe("broken");
  });

  it("is answered, whatever its bytes are, and what is taken is taken again", async () => {
    const seeds = [PNG, JPEG, LOSSY_WEBP, LOSSLESS_WEBP, TRANSPARENT_WEBP];
    const damage = fc.array(fc.tuple(fc.nat(800), fc.nat(255)), { minLength: 1, maxLength: 6 });
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...seeds), damage, async (seed, changes) => {
        const bytes = Uint8Array.from(seed);
        for (const [at, value] of changes) bytes[at % bytes.length] = value;
        const read = await pictureFrom(bytes);
        if (!read.ok) return;
        PictureFacts.parse(read.value.facts);
        expect(await pictureFrom(read.value.bytes)).toEqual(read);
      }),
      { numRuns: 1500 },
    );
  });
});
