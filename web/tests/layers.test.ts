import { describe, expect, it } from 'vitest';
import { fromHalf, halfTable, readLayers } from '../src/proof/layers.ts';

function bytes(width: number, height: number, planes: number, halves: number[], magic = 0x31594c52): ArrayBuffer {
  const all = new ArrayBuffer(16 + halves.length * 2);
  const view = new DataView(all);
  [magic, width, height, planes].forEach((n, i) => {
    view.setUint32(i * 4, n, true);
  });
  halves.forEach((n, i) => {
    view.setUint16(16 + i * 2, n, true);
  });
  return all;
}

describe('layers', () => {
  it('are read as they were written', () => {
    const read = readLayers(bytes(2, 1, 1, [0x3c00, 0, 0, 0, 0x4000, 0, 0, 0]));
    expect([read.width, read.height, read.planes]).toEqual([2, 1, 1]);
    expect([...read.halves].map(fromHalf)).toEqual([1, 0, 0, 0, 2, 0, 0, 0]);
  });
  const refused = (what: string, given: ArrayBuffer, why: RegExp) =>
    it(`are refused when ${what}`, () => expect(() => readLayers(given)).toThrow(why));
  refused('empty', new ArrayBuffer(0), /ended before/);
  refused('cut in the head', new ArrayBuffer(15), /ended before/);
  refused('something else', bytes(1, 1, 1, [0, 0, 0, 0], 0x12345678), /not layers/);
  refused('too short', bytes(2, 2, 1, [0, 0, 0, 0]), /should be 48 bytes long and are 24/);
  refused('too long', bytes(1, 1, 1, [0, 0, 0, 0, 0]), /should be/);
  refused('without pixels', bytes(0, 4, 1, []), /cannot be shown/);
  refused('without planes', bytes(4, 4, 0, []), /cannot be shown/);
  refused('too wide to be true', bytes(0xffffffff, 0xffffffff, 4, []), /cannot be shown/);
});

describe('half floats (IEEE 754 binary16)', () => {
  const half = (bits: number, expected: number) =>
    it(`0x${bits.toString(16)} is ${expected}`, () => expect(fromHalf(bits)).toBe(expected));
  half(0x0000, 0);
  half(0x3c00, 1);
  half(0xc000, -2);
  half(0x3555, 0.333251953125);
  half(0x7bff, 65504);
  half(0x0001, 2 ** -24);
  half(0x0400, 2 ** -14);
  half(0x7c00, Number.POSITIVE_INFINITY);
  it('are NaN when they are no number', () => expect(fromHalf(0x7e00)).toBeNaN());
  it('stand in a table of all', () => {
    expect(halfTable()).toHaveLength(65536);
    expect(halfTable()[0x3800]).toBe(0.5);
  });
});
