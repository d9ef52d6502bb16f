import { describe, expect, it } from 'vitest';
import type { Table } from '../src/api-types.ts';
import { asAnswered, curveAt, develop, developAll, encode, exposureAt, planeWeights } from '../src/proof/develop.ts';

const row = (at: number) => Array.from({ length: 16 }, (_, i) => (i === at ? 1 : 0));
const table: Table = {
  lights: [
    { name: 'flash', is_flash: true, first_plane: 0, planes: 4 },
    { name: 'lamp', is_flash: false, first_plane: 4, planes: 1 },
  ],
  gels: [
    { name: 'no gel', label: 'no gel', weights: [row(12), row(7), row(2)], loss_stops: 0 },
    { name: 'grey', label: 'grey', weights: [row(12), row(7), row(2)].map((r) => r.map((w) => w / 2)), loss_stops: 1 },
  ],
  controls: {
    power: { labels: ['1/2', '1/4'], factors: [2, 1], at: 1 },
    shutter: { labels: ['1/100', '1/200'], factors: [1, 0.5], at: 0 },
    aperture: { labels: ['f/4', 'f/5.6'], factors: [1, 0.5], at: 0 },
    iso: { labels: ['ISO 100', 'ISO 200'], factors: [1, 2], at: 0 },
    gel: { at: 0 },
    balance: {
      labels: ['5000 K', '6000 K'],
      at: 0,
      multipliers: [
        [1, 1, 1],
        [2, 1, 0.5],
      ],
      cut: [1, 1],
      matrices: [
        [1, 0, 0, 0, 1, 0, 0, 0, 1],
        [0, 1, 0, 0, 0, 1, 1, 0, 0],
      ],
    },
  },
  // A curve of three samples over 0 to 2: straight to 1 at 1, then flat.
  curve: { top: 2, values: [0, 1, 1] },
  paling: { from: 0.5, to: 1, most: 0.5 },
  exposure: { flash_stops: 0, ambient_stops: -1 },
  sensor_limit: 1.404,
};
const close = (given: readonly number[], expected: number[]) =>
  given.forEach((v, i) => {
    expect(v).toBeCloseTo(expected[i]!, 6);
  });

describe('developing', () => {
  it('follows the curve between its samples', () => {
    expect(curveAt(table.curve, 0.25)).toBeCloseTo(0.25);
    expect(curveAt(table.curve, 1.5)).toBe(1);
    expect(curveAt(table.curve, 99)).toBe(1);
    expect(curveAt(table.curve, -1)).toBe(0);
  });
  it('encodes sRGB', () => {
    expect(encode(0)).toBe(0);
    expect(encode(1)).toBeCloseTo(1, 12);
    expect(encode(0.18)).toBeCloseTo(0.46135612950044164, 9);
    expect(encode(0.002)).toBeCloseTo(0.02584, 9);
    expect(encode(-3)).toBe(0);
  });
  it('leaves a dark pixel as it is below the paling', () => {
    close(develop([0.4, 0.2, 0.1], table, 0), [0.4, 0.2, 0.1]);
  });
  it('pales a bright pixel towards its brightest channel', () => {
    // m = 0.75, halfway from 0.5 to 1: t = 0.5 * 0.25 = 0.125; 0.25 + 0.125 * 0.5 = 0.3125.
    close(develop([0.75, 0.25, 0], table, 0), [0.75, 0.3125, 0.09375]);
  });
  it('balances, cuts, then mixes by the matrix, rows first', () => {
    // Times (2, 1, 0.5) and cut at 1: (0.8, 0.3, 0.1); the matrix hands them round: (0.3, 0.1, 0.8); then the paling at 0.8.
    const t = 0.5 * 0.6 ** 2;
    close(develop([0.4, 0.3, 0.2], table, 1), [0.3 + t * 0.5, 0.1 + t * 0.7, 0.8]);
  });
  it('keeps black black', () => close(develop([0, 0, 0], table, 0), [0, 0, 0]));
});

describe('weights of the planes', () => {
  const home = asAnswered(table);
  const read = (change: Partial<typeof home>) => planeWeights(table, { ...home, ...change });
  it('take red from band 12, green from 7, blue from 2', () => {
    const w = read({});
    expect(w).toHaveLength(5 * 12);
    expect([w[3 * 12 + 0], w[1 * 12 + 4 + 3], w[0 * 12 + 8 + 2]]).toEqual([1, 1, 1]);
    expect(w.slice(0, 48).reduce((a, b) => a + b)).toBe(3);
    expect([w[48], w[53], w[58]]).toEqual([1, 1, 1]);
  });
  it('let power and gel move the flash only, the shutter the rest only, aperture and ISO both', () => {
    expect([read({ power: 0 })[36], read({ power: 0 })[48]]).toEqual([2, 1]);
    expect([read({ gel: 1 })[36], read({ gel: 1 })[48]]).toEqual([0.5, 1]);
    expect([read({ shutter: 1 })[36], read({ shutter: 1 })[48]]).toEqual([1, 0.5]);
    expect([read({ aperture: 1 })[36], read({ aperture: 1 })[48]]).toEqual([0.5, 0.5]);
    expect([read({ iso: 1 })[36], read({ iso: 1 })[48]]).toEqual([2, 2]);
    expect([read({ flash: false })[36], read({ flash: false })[48]]).toEqual([0, 1]);
    expect([read({ ambient: false })[36], read({ ambient: false })[48]]).toEqual([1, 0]);
  });
});

describe('a whole picture', () => {
  const HALF: Record<string, number> = { '0.25': 0x3400, '0.5': 0x3800, '2': 0x4000 };
  // One pixel: flash bands 12, 7 and 2 at 0.25, lamp at 0.25 each.
  const halves = new Uint16Array(5 * 4);
  for (const band of [12, 7, 2]) halves[band] = HALF['0.25']!;
  for (const k of [0, 1, 2]) halves[16 + k] = HALF['0.25']!;
  const layers = { width: 1, height: 1, planes: 5, halves };
  const home = asAnswered(table);
  const code = (linear: number) => Math.round(encode(linear) * 255);
  const check = (change: Partial<typeof home>, marks: boolean, expected: number[]) => {
    const out = new Uint8ClampedArray(4);
    developAll(layers, table, { ...home, ...change }, marks, out);
    expect([...out]).toEqual(expected);
  };
  it('adds the lights', () => check({}, false, [code(0.5), code(0.5), code(0.5), 255]));
  it('can leave one out', () => check({ flash: false }, false, [code(0.25), code(0.25), code(0.25), 255]));
  it('is the same as one pixel developed by itself', () => {
    const [r, g, b] = develop([0.75, 0.75, 0.75], table, 0);
    check({ power: 0 }, false, [code(r), code(g), code(b), 255]);
  });
  it('marks what is clipped by stripes', () => {
    // 2 * (2 * 0.25 + 0.25) = 1.5 is beyond 1.404; the first pixel lies on a bright stripe.
    check({ power: 0, iso: 1 }, true, [255, 255, 255, 255]);
    check({ power: 0 }, true, [code(0.75), code(0.75), code(0.75), 255]);
  });
});

describe('the exposure at the face', () => {
  const home = asAnswered(table);
  it('is as answered at first: 2^0 + 2^-1 = 1.5', () => {
    const e = exposureAt(table, home);
    expect(e.flash).toBe(0);
    expect(e.ambient).toBe(-1);
    expect(e.total).toBeCloseTo(Math.log2(1.5), 12);
  });
  it('follows each control', () => {
    expect(exposureAt(table, { ...home, power: 0 })).toMatchObject({ flash: 1, ambient: -1 });
    expect(exposureAt(table, { ...home, shutter: 1 })).toMatchObject({ flash: 0, ambient: -2 });
    expect(exposureAt(table, { ...home, iso: 1, aperture: 1 })).toMatchObject({ flash: 0, ambient: -1 });
    expect(exposureAt(table, { ...home, gel: 1 })).toMatchObject({ flash: -1, ambient: -1 });
    expect(exposureAt(table, { ...home, flash: false, ambient: false })).toEqual({
      flash: null,
      ambient: null,
      total: null,
    });
  });
});
