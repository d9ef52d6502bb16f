import { describe, expect, it } from 'vitest';
import { FIRST, takeApart } from '../src/ask/sentence.ts';
import { de } from '../src/strings/de.ts';
import { en } from '../src/strings/en.ts';

/** Every key with the kind of thing that stands there, deep. */
function keys(of: object, under = ''): string[] {
  return Object.entries(of).flatMap(([key, value]) =>
    value !== null && typeof value === 'object'
      ? keys(value as object, `${under}${key}.`)
      : [`${under}${key}: ${typeof value}`],
  );
}

const fills = (sentence: string) =>
  takeApart(sentence)
    .flatMap((part) => ('fill' in part ? [part.fill] : []))
    .sort();

describe('the two languages', () => {
  it('say the same things', () => {
    expect(keys(de).sort()).toEqual(keys(en).sort());
  });
  it('have the same fill-ins in the ask, in an order of their own', () => {
    expect(fills(en.ask.one)).toEqual([...FIRST].sort());
    expect(fills(de.ask.one)).toEqual([...FIRST].sort());
  });
  it('ask at most ten things to begin a shoot', () => {
    expect(fills(en.begin.one)).toHaveLength(10);
    expect(fills(de.begin.one)).toEqual(fills(en.begin.one));
  });
  it('leave no word of the page untranslated by accident', () => {
    const same = keys(en).filter((key) => {
      const path = key.split(': ')[0]!.split('.');
      const read = (of: object) => path.reduce((at: unknown, k) => (at as Record<string, unknown>)?.[k], of);
      const [a, b] = [read(en), read(de)];
      return typeof a === 'string' && a === b && a.length > 14 && !path.includes('hint');
    });
    expect(same).toEqual([]);
  });
  it('avoid the units that are not the trade’s', () => {
    const all = JSON.stringify([en, de], (_, v) => (typeof v === 'function' ? String(v) : v)).toLowerCase();
    for (const word of ['lux', 'candela', 'steradian', 'watt-second']) expect(all).not.toContain(`${word} `);
  });
});
