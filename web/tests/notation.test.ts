import { describe, expect, it } from 'vitest';
import { fileName, lengthText, lengthWords, miredWords, offset, plain, signed, spelledIn } from '../src/notation.ts';
import { de } from '../src/strings/de.ts';
import { en } from '../src/strings/en.ts';

describe('numbers as the trade writes them', () => {
  const number = (n: number, decimals: number, expected: string) =>
    it(`${n} with ${decimals}`, () => expect(plain(n, decimals)).toBe(expected));
  number(10, 0, '10');
  number(9.88, 0, '10');
  number(100.04, 1, '100');
  number(-0.04, 1, '0');
  number(-1.25, 2, '−1.25');
  number(1.5, 2, '1.5');
  number(0, 1, '0');

  it('carry the word that goes with the sign', () => {
    expect(offset(-1.33, en)).toBe('−1.3 darker');
    expect(offset(0.5, de)).toBe('+0,5 heller');
    expect(offset(0.01, en)).toBe('±0, the same');
    expect(offset(null, en)).toBe('–');
    expect(miredWords(-30.2, en)).toBe('30 mired colder');
    expect(signed(167, en, 0)).toBe('+167');
    expect(signed(-0.017, de, 3)).toBe('−0,017');
    expect(signed(0.0001, de, 3)).toBe('0');
  });
  it('write lengths in metres or in feet', () => {
    expect(lengthText(2.345, false)).toBe('2.35 m');
    expect(lengthText(0.3048 * 7, true)).toBe('7 ft');
    expect(lengthText(0.3048 * 7 + 0.0254 * 5.5, true)).toBe('7 ft 5.5 in');
    expect(lengthText(0.3048 * 6.999, true)).toBe('7 ft');
    expect(lengthText(0.0254 * 7, true)).toBe('7 in');
    expect(lengthText(0, true)).toBe('0 in');
  });
  it('read lengths in the unit of the shoot, with the decimal sign of the page', () => {
    expect(lengthWords(2.345, false, en)).toBe('2.35 m');
    expect(lengthWords(2.345, false, de)).toBe('2,35 m');
    expect(lengthWords(2.345, false, de, 'paced')).toBe('2,3 m');
    expect(lengthWords(1.2499, false, en, 'paced')).toBe('1.2 m');
    expect(lengthWords(0.0254 * 20.5, true, de)).toBe('1 ft 8,5 in');
    expect(lengthWords(0.0254 * 41.5, true, en, 'paced')).toBe('3 ft 6 in');
    expect(lengthWords(0.0254 * 20.5, true, en, 'paced')).toBe('1 ft 8.5 in');
  });
  it('give the notation of the file the decimal sign of the page, and leave f-numbers alone', () => {
    expect(spelledIn('7.5 × 5.5 × 2.4 m', de)).toBe('7,5 × 5,5 × 2,4 m');
    expect(spelledIn('f/2.8 to f/11.3, 0.5 s', de)).toBe('f/2.8 to f/11.3, 0,5 s');
    expect(spelledIn('0.5 s', en)).toBe('0.5 s');
  });
  it('make names that every file system takes', () => {
    expect(fileName('Brass band, winter concert')).toBe('brass-band-winter-concert');
    expect(fileName('../..//?')).toBe('....');
    expect(fileName('  ')).toBe('shoot');
  });
});
