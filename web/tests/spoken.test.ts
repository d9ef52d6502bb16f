import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Answer, ChosenReport } from '../src/api-types.ts';
import { toDecimetre } from '../src/notation.ts';
import { type Pointing, pointingOf } from '../src/pointing.ts';
import { de } from '../src/strings/de.ts';
import { en } from '../src/strings/en.ts';
import { flashLine, germanPointing, spokenAim, spokenSurface, spokenWay } from '../src/strings/spoken.ts';

/** The third line's data of answers to the examples and to changes of them, as the server gave them. */
const told = JSON.parse(readFileSync(new URL('./aims.json', import.meta.url), 'utf8')) as {
  from: string;
  feet: boolean;
  eyes: number;
  english: string;
  chosen: ChosenReport;
}[];
const of = (from: string) => told.find((one) => one.from === from)!;
const german = (from: string) => {
  const one = of(from);
  return germanPointing(pointingOf(one.chosen, one.eyes)!, one.feet, de);
};

/** The server's own sentence made of the same data: if it comes out the same, the data were understood. */
function english(p: Pointing): string {
  const { way } = p;
  const turn =
    p.turn === 'round'
      ? 'turned right round'
      : p.turn === 0
        ? 'straight ahead'
        : `turned ${Math.abs(p.turn)}° ${p.turn < 0 ? 'left' : 'right'}`;
  const tilt = p.tilt === 0 ? 'level' : `tilt ${Math.abs(p.tilt)} ${p.tilt > 0 ? 'up' : 'down'}`;
  const flag = p.flagged ? '; flag the head' : '';
  if (way.is === 'direct') return `${p.arrow} straight at the face, ${turn}, ${tilt}${flag}`;
  if (way.is === 'standing') return `${p.arrow} bounce off ${way.name}, ${turn}, ${tilt}${flag}`;
  if (way.is === 'held') {
    const clock = way.half ? `half past ${way.hour}` : `${way.hour} o'clock`;
    const middle = `${Math.round(Math.abs(way.aboveEyes) * 100)} cm ${way.aboveEyes > 0 ? 'above' : 'below'} the eyes`;
    return `${p.arrow} at ${way.name}, held at ${clock} and ${toDecimetre(way.toFace).toFixed(1)} m from the face, middle ${middle}; head ${turn}, ${tilt}${flag}`;
  }
  const corner = way.corner ? ` where it meets the ${en.surfaces[way.corner]}` : '';
  const up = way.up === null ? '' : ` ${toDecimetre(way.up).toFixed(1)} m up`;
  const level = way.ahead !== null && way.side !== 'ceiling' && Math.abs(way.ahead) < 0.15;
  const beside =
    way.ahead === null
      ? ''
      : level
        ? ', level with the camera'
        : `, ${toDecimetre(Math.abs(way.ahead)).toFixed(1)} m ${way.ahead < 0 ? 'behind' : 'ahead of'} the camera`;
  return `${p.arrow} bounce ${en.surfaces[way.side]!.toUpperCase()}${corner}${up}${beside}: head ${turn}, ${tilt}${flag}`;
}

describe('where to point the flash', () => {
  it('is understood from the data as the server says it', () => {
    for (const one of told.filter((t) => !t.feet)) {
      const pointing = pointingOf(one.chosen, one.eyes);
      expect(pointing, one.from).not.toBeNull();
      expect(english(pointing!), one.from).toBe(one.english);
    }
  });
  it('is said in German', () => {
    expect(german('demo0')).toBe(
      '← auf „white board“, gehalten auf 7 Uhr, 1,2 m vom Gesicht, Mitte 64 cm über den Augen; Blitzkopf 25° nach links, 15° nach oben',
    );
    expect(german('demo2')).toContain('gehalten auf halb 7, 1,5 m vom Gesicht');
    expect(german('demo1')).toBe(
      '↓ über die WAND HINTER DER KAMERA, 2,3 m hoch: Blitzkopf 165° nach rechts, 10° nach oben',
    );
    expect(german('demo3')).toBe('↑ gerade auf das Gesicht, Blitzkopf geradeaus, 20° nach unten');
    expect(german('demo4')).toMatch(/15° nach oben; zur Person hin abdecken$/);
    expect(german('office')).toBe(
      '← über die LINKE WAND an der Kante zur Decke, 2,3 m hoch, 0,2 m hinter der Kamera: Blitzkopf 95° nach links, 20° nach oben',
    );
    expect(german('sitting-room')).toContain('2,4 m hoch, neben der Kamera:');
    expect(german('ceil')).toBe('↖ über die DECKE, über der Kamera: Blitzkopf 80° nach links, 80° nach oben');
    expect(german('ceil, other')).toContain('über die DECKE, 0,3 m vor der Kamera:');
  });
  it('keeps to feet where the file does', () => {
    expect(german('feetheld')).toContain(
      'gehalten auf halb 8, 3 ft 11 in vom Gesicht, Mitte 1 ft 2 in über den Augen;',
    );
    expect(german('feetbounce')).toContain('7 ft 10 in hoch');
  });
  it('says level, straight ahead and right round', () => {
    const turned = (turn_deg: number, tilt_deg: number) => {
      const one = of('office');
      return germanPointing(pointingOf({ ...one.chosen, turn_deg, tilt_deg }, one.eyes)!, false, de);
    };
    expect(turned(-2, 1)).toMatch(/^↑ .*Blitzkopf geradeaus, waagerecht$/);
    expect(turned(177, 40)).toMatch(/^⤒ .*Blitzkopf ganz herumgedreht, 40° nach oben$/);
    expect(turned(22, 50)).toMatch(/^↗ .*20° nach rechts, 50° nach oben$/);
  });
  it('stays the English sentence, whole, where something is not told, and on the English page', () => {
    const one = of('demo0');
    const answer = { feet: false, geometry: { sitters: [{ face_height: one.eyes }] } } as Answer;
    expect(spokenAim(answer, one.chosen, one.english, de).lang).toBe('de');
    expect(spokenAim(answer, one.chosen, one.english, en)).toEqual({ text: one.english, lang: 'en' });
    const untold = [
      { ...one.chosen, tilt_deg: null },
      { ...one.chosen, board: null },
      { ...of('office').chosen, surface: 'a wall of another kind' },
      { ...of('office').chosen, corner_with: 'a wall of another kind' },
    ];
    for (const chosen of untold)
      expect(spokenAim(answer, chosen, 'as it was', de)).toEqual({ text: 'as it was', lang: 'en' });
  });
});

describe('ways and surfaces', () => {
  const way = (name: string, route: ChosenReport['route'], surface: string, corner_with: string | null = null) =>
    spokenWay(name, { route, surface, corner_with }, de);
  it('have German names, but for those that somebody gave', () => {
    expect(way('left wall', 'bounce', 'left wall')).toEqual({ text: 'linke Wand', lang: 'de' });
    expect(way('wall behind the sitter with the ceiling', 'bounce', 'wall behind the sitter', 'ceiling').text).toBe(
      'Wand hinter der Person, an der Kante zur Decke',
    );
    expect(way('bounce card, head turned up', 'bounce', 'ceiling').text).toBe('ausgezogene Karte, Kopf nach oben');
    expect(way('through the umbrella', 'direct', 'the face itself').text).toBe('durch den Schirm');
    expect(way('white board, held', 'held_board', 'white board').text).toBe('„white board“, gehalten');
    expect(way('the drums', 'standing', 'the drums')).toEqual({ text: 'the drums', lang: 'en' });
    // Furniture that is called like a wall is still furniture.
    expect(way('left wall', 'standing', 'left wall').lang).toBe('en');
    expect(spokenSurface({ route: 'bounce', surface: 'floor' }, de).text).toBe('Boden');
    expect(spokenSurface({ route: 'standing', surface: 'floor' }, de)).toEqual({ text: 'floor', lang: 'en' });
  });
  it('are the server’s own on the English page', () => {
    expect(spokenWay('left wall', { route: 'bounce', surface: 'left wall', corner_with: null }, en)).toEqual({
      text: 'left wall',
      lang: 'en',
    });
  });
});

describe('the flash line', () => {
  it.each([
    ['1/2 · zoom 24 · no gel · 1 stop in hand', '1/2 · zoom 24 · keine Folie · 1 Blende Reserve'],
    [
      '1/8 +0.7 · zoom 50 · umbrella · 1/2 CTO, +81 · 2.3 stops in hand',
      '1/8 +0.7 · zoom 50 · durch den Schirm · 1/2 CTO, +81 · 2,3 Blenden Reserve',
    ],
    [
      '1/1 · zoom 24 · dome on · no gel · 0.4 stops short',
      '1/1 · zoom 24 · mit weißer Kuppel · keine Folie · 0,4 Blenden zu wenig',
    ],
  ])('%s', (english, german) => {
    expect(flashLine(english, de)).toEqual({ text: german, lang: 'de' });
    expect(flashLine(english, en)).toEqual({ text: english, lang: 'en' });
  });
});
