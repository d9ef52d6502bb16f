// What the page says itself of the server's data. English sentences come from the server as they are; German ones are made
// here, whole or not at all.
import type { Answer, ChosenReport } from '../api-types.ts';
import { lengthAbout, toDecimetre } from '../notation.ts';
import { eyesOf, type Pointing, pointingOf, type Side, sideOf } from '../pointing.ts';
import type { Strings } from './en.ts';

/** Words, and the language that they are in. */
export type Spoken = { text: string; lang: string };

export const OVER: Record<Side, string> = {
  left: 'die LINKE WAND',
  right: 'die RECHTE WAND',
  'behind camera': 'die WAND HINTER DER KAMERA',
  'behind sitter': 'die WAND HINTER DER PERSON',
  ceiling: 'die DECKE',
  floor: 'den BODEN',
};
export const EDGE: Record<Side, string> = {
  left: 'an der Kante zur linken Wand',
  right: 'an der Kante zur rechten Wand',
  'behind camera': 'an der Kante zur Wand hinter der Kamera',
  'behind sitter': 'an der Kante zur Wand hinter der Person',
  ceiling: 'an der Kante zur Decke',
  floor: 'an der Kante zum Boden',
};

/** Where a point of a wall is, told from the camera. */
function besideCamera(ahead: number, side: Side, say: (metres: number) => string): string {
  if (Math.abs(ahead) < 0.15) return side === 'ceiling' ? 'über der Kamera' : 'neben der Kamera';
  return ahead < 0 ? `${say(-ahead)} hinter der Kamera` : `${say(ahead)} vor der Kamera`;
}

function overEyes(above: number, feet: boolean, S: Strings): string {
  if (Math.abs(above) < 0.08) return 'in Augenhöhe';
  const far = feet ? lengthAbout(Math.abs(above), true, S) : `${Math.round(Math.abs(above) * 100)} cm`;
  return `${far} ${above > 0 ? 'über' : 'unter'} den Augen`;
}

const turnWords = (turn: Pointing['turn']) =>
  turn === 'round'
    ? 'ganz herumgedreht'
    : turn === 0
      ? 'geradeaus'
      : `${Math.abs(turn)}° nach ${turn < 0 ? 'links' : 'rechts'}`;
const tiltWords = (tilt: number) =>
  tilt === 0 ? 'waagerecht' : `${Math.abs(tilt)}° nach ${tilt > 0 ? 'oben' : 'unten'}`;

/** The third line in German. */
export function germanPointing(p: Pointing, feet: boolean, S: Strings): string {
  // The server has decimetres put into feet; the card beside this line says the same.
  const say = (metres: number) => lengthAbout(toDecimetre(metres), feet, S);
  const head = `${turnWords(p.turn)}, ${tiltWords(p.tilt)}`;
  const { way } = p;
  const flag = p.flagged ? '; zur Person hin abdecken' : '';
  switch (way.is) {
    case 'direct':
      return `${p.arrow} gerade auf das Gesicht, Blitzkopf ${head}${flag}`;
    case 'standing':
      return `${p.arrow} über „${way.name}“, Blitzkopf ${head}${flag}`;
    case 'held': {
      const clock = way.half ? `halb ${(way.hour % 12) + 1}` : `${way.hour} Uhr`;
      const where = `gehalten auf ${clock}, ${say(way.toFace)} vom Gesicht, Mitte ${overEyes(way.aboveEyes, feet, S)}`;
      return `${p.arrow} auf „${way.name}“, ${where}; Blitzkopf ${head}${flag}`;
    }
    case 'bounce': {
      const where = [
        way.corner ? `${OVER[way.side]} ${EDGE[way.corner]}` : OVER[way.side],
        ...(way.up === null ? [] : [`${say(way.up)} hoch`]),
        ...(way.ahead === null ? [] : [besideCamera(way.ahead, way.side, say)]),
      ];
      return `${p.arrow} über ${where.join(', ')}: Blitzkopf ${head}${flag}`;
    }
  }
}

/** Where an answer, or another way of it, points the flash; `english` is the server's own sentence. */
export function spokenAim(of: Answer, chosen: ChosenReport, english: string, S: Strings): Spoken {
  const pointing = S.code === 'de' ? pointingOf(chosen, eyesOf(of)) : null;
  return pointing ? { text: germanPointing(pointing, of.feet, S), lang: S.code } : { text: english, lang: 'en' };
}

/** The third line of an answer. */
export const thirdLine = (of: Answer, S: Strings) => spokenAim(of, of.report.chosen, of.lines.aim, S);

type Way = Pick<ChosenReport, 'route' | 'surface' | 'corner_with'>;

/** What carries the light, by name. What somebody has named themselves stays as it is. */
export function spokenSurface({ route, surface }: Pick<Way, 'route' | 'surface'>, S: Strings): Spoken {
  const side = route === 'bounce' ? sideOf(surface) : null;
  const text = side ? S.surfaces[side] : route === 'direct' ? S.ways[surface] : undefined;
  return S.code === 'de' && text ? { text, lang: S.code } : { text: surface, lang: 'en' };
}

/** A way of lighting by name; `name` is the server's. */
export function spokenWay(name: string, way: Way, S: Strings): Spoken {
  const english: Spoken = { text: name, lang: 'en' };
  if (S.code !== 'de') return english;
  const known = S.ways[name];
  if (known) return { text: known, lang: S.code };
  if (way.route === 'held_board') return { text: `„${way.surface}“, gehalten`, lang: S.code };
  const side = way.route === 'bounce' ? sideOf(way.surface) : null;
  const corner = way.corner_with === null ? null : sideOf(way.corner_with);
  if (!side || (way.corner_with !== null && !corner)) return english;
  return { text: corner ? `${S.surfaces[side]}, ${EDGE[corner]}` : (S.surfaces[side] ?? name), lang: S.code };
}

const WORN: Record<string, string> = {
  'no gel': 'keine Folie',
  'dome on': 'mit weißer Kuppel',
  'card up': 'mit ausgezogener Karte',
  umbrella: 'durch den Schirm',
  softbox: 'mit Softbox',
};

/** The flash line in German: a notation, in which only a few signs are words. Powers, zooms and gels are called the same. */
function germanFlash(line: string, S: Strings): string {
  return line
    .split(' · ')
    .map((part) => {
      const hand = /^([\d.]+) stops? (in hand|short)$/.exec(part);
      if (!hand) return WORN[part] ?? part;
      const [, number, which] = hand;
      const stops = S.stops(Number(number));
      return which === 'short' ? `${stops} zu wenig` : `${stops} Reserve`;
    })
    .join(' · ');
}

/** The flash line, or a part of it, of which `line` is what the server writes. */
export const flashLine = (line: string, S: Strings): Spoken =>
  S.code === 'de' ? { text: germanFlash(line, S), lang: S.code } : { text: line, lang: 'en' };

/** The camera line: a notation too, in which only a filter on the lens is said in words. */
export const cameraLine = (line: string, S: Strings): Spoken =>
  S.code === 'de'
    ? { text: line.replace(/ND ([\d.]+) stops?/, (_, n) => `ND ${S.stops(Number(n))}`), lang: S.code }
    : { text: line, lang: 'en' };
