import { describe, expect, it } from 'vitest';
import type { Form } from '../src/api-types.ts';
import {
  choices,
  editFor,
  hintOf,
  type Piece,
  sentence,
  stopsWords,
  takeApart,
  type Wish,
} from '../src/ask/sentence.ts';
import { de } from '../src/strings/de.ts';
import { en, type Strings } from '../src/strings/en.ts';

const band: Form = {
  place: { room: '7.5 x 5.5 x 2.4 m' },
  sitter: [{ name: 'the cornet player' }],
  ask: {
    aperture: 'f/4',
    key: 'loop',
    from: 'left',
    softness: 'soft',
    ratio: '3:1',
    ambient: '-2 stops',
    skin: 'neutral',
    in_hand: '1 stop',
  },
};
const read = (pieces: Piece[]) => pieces.map((piece) => piece.text).join('');
const check = (form: Form, S: Strings, expected: string) => expect(read(sentence(form, S))).toBe(expected);

describe('the ask as a sentence', () => {
  it('is read aloud in English', () => {
    check(
      band,
      en,
      'Light the cornet player in a room of 7.5 × 5.5 × 2.4 m, loop from camera left, soft, ratio 3:1, the room 2 stops down, skin neutral, at f/4, with 1 stop in hand.',
    );
  });
  it('has an order of its own in German', () => {
    check(
      band,
      de,
      'Beleuchte the cornet player in einem Raum von 7,5 × 5,5 × 2,4 m: loop von kameralinks, weich, Verhältnis 3:1, das vorhandene Licht 2 Blenden dunkler, die Haut neutral, bei f/4, mit 1 Blende Reserve.',
    );
  });
  it('says what is taken when nothing is wished', () => {
    check(
      { place: { room: '12 x 12 x 5 m', ceiling: 'open' }, sitter: [{}, {}, {}], ask: {} },
      en,
      'Light 3 sitters in the open, 12 × 12 × 5 m, loop from either side, soft, ratio as it comes, the room as it comes, skin neutral, at any aperture, with 1 stop in hand.',
    );
  });
  it('reads the side out of the pattern', () => {
    check(
      { ...band, ask: { key: 'split from right' } },
      en,
      'Light the cornet player in a room of 7.5 × 5.5 × 2.4 m, split from camera right, soft, ratio as it comes, the room as it comes, skin neutral, at any aperture, with 1 stop in hand.',
    );
  });
  it('reads a key by its angles', () => {
    const pieces = sentence({ ...band, ask: { key: { azimuth: '45 deg', elevation: '20 deg' } } }, en);
    expect(pieces.find((p) => p.is === 'fill' && p.wish === 'key')?.text).toBe('a key 45° round, 20° up');
  });
  it('takes sentences apart into words, terms and fill-ins', () => {
    expect(takeApart('a {b}, [c|d e] f [g|{h}]')).toEqual([
      { text: 'a ' },
      { fill: 'b' },
      { text: ', ' },
      { term: 'c', text: 'd e' },
      { text: ' f ' },
      { fill: 'h' },
    ]);
  });
});

describe('stops in words', () => {
  const stops = (value: string, expected: string) => it(value, () => expect(stopsWords(value, en)).toBe(expected));
  stops('-2 stops', '2 stops down');
  stops('-1 stop', '1 stop down');
  stops('+1 stop', '1 stop up');
  stops('2 stops under', '2 stops down');
  stops('1/3 stop', '1/3 stop');
  stops('0.3 stops', '0.3 stops');
  stops('f/4', 'f/4');
});

describe('lengths of a wish', () => {
  it('are in the unit of the shoot', () => {
    for (const wish of ['depth', 'sitter_may_move', 'place'] as const) {
      expect(hintOf(wish, false, en)).not.toContain('ft');
      expect(hintOf(wish, true, en)).toContain('ft');
      expect(hintOf(wish, true, en)).not.toMatch(/ m$/);
    }
    const values = (feet: boolean) => choices('depth', band, null, en, feet).flatMap((c) => c.value ?? []);
    expect(values(false)).toEqual(['0.1 m', '0.3 m', '1 m']);
    expect(values(true)).toEqual(['4 in', '1 ft', '3 ft']);
  });
  it('have a comma in German', () => {
    expect(stopsWords('-1.5 stops', de)).toBe('1,5 Blenden dunkler');
    expect(stopsWords('0.3 m', de)).toBe('0,3 m');
  });
});

describe('a choice as an edit', () => {
  const edits = (wish: Wish, value: string | null, form: Form, expected: unknown) =>
    it(`${wish}: ${value}`, () => expect(editFor(wish, value, form)).toEqual(expected));
  edits('aperture', 'f/5.6', band, [{ path: ['ask', 'aperture'], value: 'f/5.6' }]);
  edits('ratio', null, band, [{ path: ['ask', 'ratio'], value: null }]);
  edits('sitter', 'the drummer', band, [{ path: ['sitter', 0, 'name'], value: 'the drummer' }]);
  edits('place', '5 × 4 × 2.6 m', band, [{ path: ['place', 'room'], value: '5 x 4 x 2.6 m' }]);
  edits('place', '', band, []);
  edits('from', 'right', { ...band, ask: { key: 'loop from left' } }, [
    { path: ['ask', 'from'], value: 'right' },
    { path: ['ask', 'key'], value: 'loop' },
  ]);
  edits('depth', '0.3 m', band, [
    { path: ['ask', 'depth'], value: '0.3 m' },
    { path: ['ask', 'aperture'], value: null },
  ]);
  edits('zone', 'sky at -1 stop', band, [{ path: ['ask', 'zone'], value: { name: 'sky', at: '-1 stop' } }]);
});
