// Developing a proof: layers and controls become a picture. The numbers all come from the server's table; the arithmetic here
// is the one that the contract names, and `webgl.ts` does the same in a shader.
import type { Table } from '../api-types.ts';
import { halfTable, type Layers } from './layers.ts';

/** Where each control stands: an index into its list in the table. */
export type Settings = {
  power: number;
  shutter: number;
  aperture: number;
  iso: number;
  gel: number;
  balance: number;
  /** Whether the flash is on. */
  flash: boolean;
  /** Whether everything but the flash is on. */
  ambient: boolean;
};

/** The controls as answered. */
export function asAnswered(table: Table): Settings {
  const c = table.controls;
  return {
    power: c.power.at,
    shutter: c.shutter.at,
    aperture: c.aperture.at,
    iso: c.iso.at,
    gel: c.gel.at,
    balance: c.balance.at,
    flash: true,
    ambient: true,
  };
}

/** What the pixels are multiplied with: for each plane three rows (raw red, green, blue) of four weights. */
export function planeWeights(table: Table, s: Settings): Float32Array {
  const c = table.controls;
  const both = (c.aperture.factors[s.aperture] ?? 1) * (c.iso.factors[s.iso] ?? 1);
  const ofFlash = s.flash ? both * (c.power.factors[s.power] ?? 1) : 0;
  const ofRest = s.ambient ? both * (c.shutter.factors[s.shutter] ?? 1) : 0;
  const planes = table.lights.reduce((most, light) => Math.max(most, light.first_plane + light.planes), 0);
  const weights = new Float32Array(planes * 12);
  for (const light of table.lights) {
    const gain = light.is_flash ? ofFlash : ofRest;
    if (light.is_flash && light.planes > 1) {
      const gel = table.gels[s.gel] ?? table.gels[0];
      for (let p = 0; p < light.planes; p++)
        for (let k = 0; k < 3; k++)
          for (let b = 0; b < 4; b++)
            weights[(light.first_plane + p) * 12 + k * 4 + b] = gain * (gel?.weights[k]?.[p * 4 + b] ?? 0);
    } else {
      for (let k = 0; k < 3; k++) weights[light.first_plane * 12 + k * 5] = gain;
    }
  }
  return weights;
}

/** The tone curve at a level, straight between its samples and flat beyond its top. */
export function curveAt(curve: Table['curve'], level: number): number {
  const { values, top } = curve;
  const at = Math.min(Math.max(level / top, 0), 1) * (values.length - 1);
  const low = Math.min(Math.floor(at), values.length - 2);
  const a = values[low] ?? 0;
  return a + ((values[low + 1] ?? a) - a) * (at - low);
}

/** The sRGB code value (0 to 1) of linear light, IEC 61966-2-1. */
export function encode(linear: number): number {
  const v = Math.min(Math.max(linear, 0), 1);
  return v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055;
}

/** One pixel: raw red, green and blue to linear light as shown. */
export function develop(raw: readonly [number, number, number], table: Table, balance: number) {
  const b = table.controls.balance;
  const multipliers = b.multipliers[balance] ?? [1, 1, 1];
  const cut = b.cut[balance] ?? 1;
  const matrix = b.matrices[balance] ?? [1, 0, 0, 0, 1, 0, 0, 0, 1];
  const bal = raw.map((v, k) => Math.min(v * (multipliers[k] ?? 1), cut));
  const lin = [0, 1, 2].map((row) => bal.reduce((sum, v, column) => sum + (matrix[row * 3 + column] ?? 0) * v, 0)) as [
    number,
    number,
    number,
  ];
  const most = Math.max(...lin);
  if (most <= 0) return [0, 0, 0] as [number, number, number];
  const shown = curveAt(table.curve, most);
  const scale = shown / most;
  const p = table.paling;
  const t = p.most * Math.min(Math.max((most - p.from) / (p.to - p.from), 0), 1) ** 2;
  return lin.map((v) => {
    const kept = Math.max(v * scale, 0);
    return kept + t * (shown - kept);
  }) as [number, number, number];
}

/** Whether a pixel that is clipped shows the bright or the dark part of the stripes that mark it. */
export const stripe = (x: number, y: number) => (x + y) % 8 < 4;

/** Develops all pixels into `out` (four bytes each); the plain way, for browsers without WebGL2, and for saving. */
export function developAll(layers: Layers, table: Table, s: Settings, marks: boolean, out: Uint8ClampedArray): void {
  const half = halfTable();
  const weights = planeWeights(table, s);
  const { width, height, halves } = layers;
  const pixels = width * height;
  const planes = Math.min(layers.planes, weights.length / 12);
  const raw: [number, number, number] = [0, 0, 0];
  const codes = encodeTable();
  const live: number[] = [];
  for (let p = 0; p < planes; p++) if (weights.subarray(p * 12, p * 12 + 12).some((w) => w !== 0)) live.push(p);

  const b = table.controls.balance;
  const [m0 = 1, m1 = 1, m2 = 1] = b.multipliers[s.balance] ?? [];
  const cut = b.cut[s.balance] ?? 1;
  const m = Float64Array.from(b.matrices[s.balance] ?? [1, 0, 0, 0, 1, 0, 0, 0, 1]);
  const values = Float64Array.from(table.curve.values);
  const last = values.length - 1;
  const perLevel = last / table.curve.top;
  const { from, to, most } = table.paling;
  const limit = table.sensor_limit;

  for (let i = 0; i < pixels; i++) {
    raw[0] = raw[1] = raw[2] = 0;
    for (const p of live) {
      const at = (p * pixels + i) * 4;
      const x0 = half[halves[at]!]!;
      const x1 = half[halves[at + 1]!]!;
      const x2 = half[halves[at + 2]!]!;
      const x3 = half[halves[at + 3]!]!;
      const w = p * 12;
      for (let k = 0; k < 3; k++) {
        const row = w + k * 4;
        raw[k] =
          raw[k]! + weights[row]! * x0 + weights[row + 1]! * x1 + weights[row + 2]! * x2 + weights[row + 3]! * x3;
      }
    }
    const to4 = i * 4;
    out[to4 + 3] = 255;
    if (marks && (raw[0] >= limit || raw[1] >= limit || raw[2] >= limit)) {
      const code = stripe(i % width, (i / width) | 0) ? 255 : 0;
      out[to4] = out[to4 + 1] = out[to4 + 2] = code;
      continue;
    }
    const b0 = Math.min(raw[0] * m0, cut);
    const b1 = Math.min(raw[1] * m1, cut);
    const b2 = Math.min(raw[2] * m2, cut);
    const l0 = m[0]! * b0 + m[1]! * b1 + m[2]! * b2;
    const l1 = m[3]! * b0 + m[4]! * b1 + m[5]! * b2;
    const l2 = m[6]! * b0 + m[7]! * b1 + m[8]! * b2;
    const top = Math.max(l0, l1, l2);
    // Written so that a pixel that is no number comes out black, as it does in the shader.
    if (!(top > 0)) {
      out[to4] = out[to4 + 1] = out[to4 + 2] = 0;
      continue;
    }
    const at = Math.min(top * perLevel, last);
    const low = Math.min(at | 0, last - 1);
    const shown = values[low]! + (values[low + 1]! - values[low]!) * (at - low);
    const scale = shown / top;
    const share = Math.min(Math.max((top - from) / (to - from), 0), 1);
    const t = most * share * share;
    const k0 = Math.max(l0 * scale, 0);
    const k1 = Math.max(l1 * scale, 0);
    const k2 = Math.max(l2 * scale, 0);
    out[to4] = codes[Math.min((k0 + t * (shown - k0)) * 65535 + 0.5, 65535) | 0]!;
    out[to4 + 1] = codes[Math.min((k1 + t * (shown - k1)) * 65535 + 0.5, 65535) | 0]!;
    out[to4 + 2] = codes[Math.min((k2 + t * (shown - k2)) * 65535 + 0.5, 65535) | 0]!;
  }
}

let codesMade: Uint8ClampedArray | null = null;
function encodeTable(): Uint8ClampedArray {
  codesMade ??= Uint8ClampedArray.from({ length: 65536 }, (_, i) => encode(i / 65535) * 255);
  return codesMade;
}

/** Flash, ambient and both together at the face in stops, with the controls where they stand. */
export function exposureAt(table: Table, s: Settings) {
  const a = asAnswered(table);
  const c = table.controls;
  const moved = (dial: { factors: number[] }, now: number, then: number) =>
    Math.log2((dial.factors[now] ?? 1) / (dial.factors[then] ?? 1));
  const both = moved(c.aperture, s.aperture, a.aperture) + moved(c.iso, s.iso, a.iso);
  const loss = (table.gels[a.gel]?.loss_stops ?? 0) - (table.gels[s.gel]?.loss_stops ?? 0);
  const flash = s.flash ? table.exposure.flash_stops + both + moved(c.power, s.power, a.power) + loss : null;
  const ambient =
    s.ambient && table.exposure.ambient_stops !== null
      ? table.exposure.ambient_stops + both + moved(c.shutter, s.shutter, a.shutter)
      : null;
  const amount = (flash === null ? 0 : 2 ** flash) + (ambient === null ? 0 : 2 ** ambient);
  return { flash, ambient, total: amount > 0 ? Math.log2(amount) : null };
}
