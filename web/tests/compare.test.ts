import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Report } from '../src/api-types.ts';
import { differences } from '../src/compare.ts';
import { aroundDifferences, onlyIn } from '../src/conflict.tsx';
import { fieldText, fieldValue, reflectanceOf } from '../src/place/fields.ts';
import { headerJson } from '../src/server.ts';
import { en } from '../src/strings/en.ts';

const a = JSON.parse(readFileSync(new URL('./answer.json', import.meta.url), 'utf8')) as Report;

describe('two answers compared', () => {
  it('find nothing where nothing differs', () => expect(differences(a, structuredClone(a), en)).toEqual([]));
  it('say what differs in plain words', () => {
    const b = structuredClone(a);
    b.told.engraved.aperture = 'f/5.6';
    b.exposure.ambient_alone_stops = a.exposure.ambient_alone_stops! - 1;
    b.key.azimuth_deg = 45;
    expect(differences(a, b, en).map((d) => d.words)).toEqual([
      'Aperture: f/4, now f/5.6',
      'Key round from the nose: 45° camera left, now 45° camera right',
      'Ambient on the face: 1 stop darker now',
    ]);
  });
});

describe('two texts', () => {
  it('mark the lines that only one of them has', () => {
    expect([...onlyIn('a\nb\nc', 'a\nc')]).toEqual([1]);
    expect([...onlyIn('a\na', 'a')]).toEqual([1]);
  });
  it('show a difference with its neighbours only', () => {
    const shown = aroundDifferences('a\nb\nc\nd\ne\nf', new Set([1]), 1);
    expect(shown.map((one) => one?.line ?? '…').join('')).toBe('abc…');
  });
});

describe('a header', () => {
  it('is read whether it came as letters, bytes or escapes', () => {
    expect(headerJson('{"a":1}')).toEqual({ a: 1 });
    const bytes = String.fromCharCode(...new TextEncoder().encode('{"a":"← 25°"}'));
    expect(headerJson(bytes)).toEqual({ a: '← 25°' });
    expect(headerJson(encodeURIComponent('{"a":"←"}'))).toEqual({ a: '←' });
    expect(headerJson('{broken')).toBeNull();
    expect(headerJson(null)).toBeNull();
  });
});

describe('fields', () => {
  const v = { surfaces: [{ name: 'white paint', reflectance: 0.8, meaning: '' }] } as never;
  it('know what a surface sends back', () => {
    expect(reflectanceOf('White-Paint', v)).toBe(0.8);
    expect(reflectanceOf('paint white', v)).toBe(0.8);
    expect(reflectanceOf({ name: 'mine', reflectance: 0.4 }, v)).toBe(0.4);
    expect(reflectanceOf({ name: 'brick', rgb: [0.6, 0.3, 0.3] }, v)).toBeCloseTo(0.4);
    expect(reflectanceOf('unheard of', v)).toBeNull();
  });
  it('turn what was typed into a value', () => {
    expect(fieldValue({ key: 'age', kind: 'number' }, '46')).toBe(46);
    expect(fieldValue({ key: 'age', kind: 'number' }, 'old')).toBeUndefined();
    expect(fieldValue({ key: 'nd', kind: 'list' }, '3 stops, 6 stops')).toEqual(['3 stops', '6 stops']);
    expect(fieldValue({ key: 'left', kind: 'surface' }, '0.42')).toEqual({ name: 'reflects 0.42', reflectance: 0.42 });
    expect(fieldValue({ key: 'left', kind: 'surface' }, ' ')).toBeNull();
    expect(fieldText(['a', 'b'])).toBe('a, b');
  });
});
