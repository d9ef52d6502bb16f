// The layers of a proof: one linear picture for each light, in half floats, as the server sends them.

/** Layers as they came: `planes` planes of `width * height` pixels, four half floats each, from the top left. */
export type Layers = { width: number; height: number; planes: number; halves: Uint16Array };

const MAGIC = 0x31594c52;
const LARGEST_SIDE = 8192;
const MOST_PLANES = 64;

/** Reads the bytes of layers. Throws an error with a sentence when they are not what they should be. */
export function readLayers(bytes: ArrayBuffer): Layers {
  if (bytes.byteLength < 16) throw new Error('The layers of the proof ended before they began.');
  const head = new DataView(bytes);
  if (head.getUint32(0, true) !== MAGIC) throw new Error('These are not layers of a proof.');
  const width = head.getUint32(4, true);
  const height = head.getUint32(8, true);
  const planes = head.getUint32(12, true);
  if (width < 1 || height < 1 || planes < 1 || width > LARGEST_SIDE || height > LARGEST_SIDE || planes > MOST_PLANES) {
    throw new Error(`Layers of ${width} x ${height} pixels in ${planes} planes cannot be shown.`);
  }
  const halves = width * height * planes * 4;
  if (bytes.byteLength !== 16 + halves * 2) {
    throw new Error(`The layers of the proof should be ${16 + halves * 2} bytes long and are ${bytes.byteLength}.`);
  }
  return { width, height, planes, halves: new Uint16Array(bytes, 16, halves) };
}

/** The number that 16 bits stand for (IEEE 754 binary16). */
export function fromHalf(bits: number): number {
  const sign = bits & 0x8000 ? -1 : 1;
  const exponent = (bits >> 10) & 31;
  const fraction = bits & 1023;
  if (exponent === 0) return sign * fraction * 2 ** -24;
  if (exponent === 31) return fraction ? Number.NaN : sign * Number.POSITIVE_INFINITY;
  return sign * (1 + fraction / 1024) * 2 ** (exponent - 15);
}

let everyHalf: Float32Array | null = null;

/** All 65,536 half floats in order, made once. */
export function halfTable(): Float32Array {
  everyHalf ??= Float32Array.from({ length: 65536 }, (_, bits) => fromHalf(bits));
  return everyHalf;
}
