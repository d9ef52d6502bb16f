// What stands in the blanks: numbers, the notation of the trade, surfaces with their German cases, names that somebody gave.
import { sideOf } from '../../pointing.ts';
import { EDGE, OVER } from '../spoken.ts';
import type { Blank } from './form.ts';

const comma = (number: string) => number.replace('.', ',').replace('-', '−');

/** "1.0 stops" as "1 Blende", "2/3 stop" as "2/3 Blende". */
function stops(found: string): string {
  const number = comma(found.replace(/ stops?$/, '')).replace(/,0$/, '');
  const one = /^[+−]?1$/.test(number) || (number.includes('/') && !number.includes(' '));
  return `${number.replace(/^[+−]0$/, '0')} ${one ? 'Blende' : 'Blenden'}`;
}

/** A name that somebody gave stays as it is, marked as a name. */
const named = (name: string) => `„${name}“`;

/** A noun by itself, then with its article: who, whose, to whom, whom. */
type Noun = readonly [bare: string, the: string, gen: string, dat: string, acc: string];

const fem = (adjective: string, noun: string, after = ''): Noun => {
  const [plain, weak] = adjective ? [`${adjective}e `, `${adjective}en `] : ['', ''];
  return [
    `${plain}${noun}${after}`,
    `die ${plain}${noun}${after}`,
    `der ${weak}${noun}${after}`,
    `der ${weak}${noun}${after}`,
    `die ${plain}${noun}${after}`,
  ];
};
const masc = (noun: string, whose: string): Noun => [noun, `der ${noun}`, `des ${whose}`, `dem ${noun}`, `den ${noun}`];
/** What is said without an article whatever it does in the sentence. */
const fixed = (words: string, whose = `von ${words}`): Noun => [words, words, whose, words, words];

/** A way that is called otherwise by itself than in a sentence. */
const bareAs = (bare: string, [, ...others]: Noun): Noun => [bare, ...others];

const NOUNS = new Map<string, Noun>(
  Object.entries({
    'left wall': fem('link', 'Wand'),
    'right wall': fem('recht', 'Wand'),
    'wall behind the camera': fem('', 'Wand', ' hinter der Kamera'),
    'wall behind the sitter': fem('', 'Wand', ' hinter der Person'),
    ceiling: fem('', 'Decke'),
    floor: masc('Boden', 'Bodens'),
    flash: masc('Blitz', 'Blitzes'),
    'plastic dome, head turned up': bareAs('weiße Kuppel, Kopf nach oben', fem('weiß', 'Kuppel')),
    'bounce card, head turned up': bareAs('ausgezogene Karte, Kopf nach oben', fem('ausgezogen', 'Karte')),
    'through the umbrella': bareAs('durch den Schirm', masc('Schirm', 'Schirms')),
    'from the softbox': bareAs('aus der Softbox', fem('', 'Softbox')),
    'straight at the face': [
      'gerade auf das Gesicht',
      'der Blitz gerade auf das Gesicht',
      'des Blitzes gerade auf das Gesicht',
      'dem Blitz gerade auf das Gesicht',
      'den Blitz gerade auf das Gesicht',
    ],
  }),
);

function nounOf(way: string): Noun {
  const known = NOUNS.get(way);
  if (known) return known;
  const corner = /^(.+) with the (.+)$/.exec(way);
  const edge = corner?.[2] ? sideOf(corner[2]) : null;
  const face = corner?.[1] && sideOf(corner[1]) ? NOUNS.get(corner[1]) : undefined;
  if (face && edge) {
    const [bare, ...others] = face;
    return [`${bare}, ${EDGE[edge]}`, ...others.map((one) => `${one} ${EDGE[edge]}`)] as unknown as Noun;
  }
  const held = /^(.+), held$/.exec(way)?.[1];
  if (held) {
    const words = `${named(held)}, gehalten`;
    return [words, words, `von ${named(held)}`, named(held), named(held)];
  }
  return fixed(named(way));
}

/** A surface or a way of lighting in the case that the sentence needs; `to` is "zur linken Wand". */
function way(found: string, how: string): string {
  const noun = nounOf(found);
  if (how !== 'to') return noun[['', 'the', 'gen', 'dat', 'acc'].indexOf(how)] ?? noun[0];
  const dat = noun[3];
  return dat.startsWith('der ') ? `zur ${dat.slice(4)}` : dat.startsWith('dem ') ? `zum ${dat.slice(4)}` : `zu ${dat}`;
}

/** Lights that the program itself names; all others have the name that somebody gave them. */
const LIGHTS = new Map<string, Noun>(
  Object.entries({
    sun: fem('', 'Sonne'),
    sky: masc('Himmel', 'Himmels'),
    flash: masc('Blitz', 'Blitzes'),
  }),
);
const light = (found: string, how: string) =>
  (LIGHTS.get(found.toLowerCase()) ?? fixed(named(found)))[how === 'acc' ? 4 : how === 'the' ? 1 : 0];

const asIs = (found: string) => found;
const oneOf = (words: Record<string, string>): Blank => ({
  pattern: Object.keys(words).join('|'),
  say: (found) => words[found] ?? null,
});
const ANYTHING = '.+?';

export const BLANKS: Record<string, Blank> = {
  n: { pattern: '[+−-]?\\d+(?:\\.\\d+)?', say: comma },
  stops: { pattern: '[+−-]?(?:\\d+ )?\\d+(?:\\.\\d+|/\\d+)? stops?', say: stops },
  // The notation of the trade is the same in German.
  f: { pattern: 'f/\\d+(?:\\.\\d+)?', say: asIs },
  t: { pattern: '1/\\d+(?:\\.\\d+)?|\\d+(?:\\.\\d+)? s', say: asIs },
  iso: { pattern: 'ISO \\d+(?:\\.\\d+)?', say: asIs },
  power: { pattern: '1/\\d+(?: \\+\\d\\.\\d+)?', say: asIs },
  kelvin: { pattern: '\\d+ K', say: asIs },
  nd: { pattern: 'ND [\\d.]+ stops?', say: (found) => `ND ${stops(found.slice(3))}` },
  gel: { pattern: ANYTHING, say: asIs },
  arrow: { pattern: '[←→↑↓↖↗⤒]', say: asIs },
  side: oneOf({ 'camera left': 'kameralinks', 'camera right': 'kamerarechts' }),
  hue: oneOf({ green: 'grün', magenta: 'magenta' }),
  tint: oneOf({ green: 'Grün', magenta: 'Magenta' }),
  warmth: oneOf({ warm: 'warm', cold: 'kalt' }),
  warmer: oneOf({ warm: 'wärmer', cool: 'kälter' }),
  hand: oneOf({ left: 'links', right: 'rechts' }),
  name: { pattern: ANYTHING, say: named },
  light: { pattern: ANYTHING, say: light },
  lights: {
    pattern: ANYTHING,
    say: (found, how) =>
      found
        .split(' and ')
        .map((one) => light(one, how))
        .join(' und '),
  },
  way: { pattern: ANYTHING, say: way },
  over: { pattern: '[A-Z ]+?', say: (found) => sided(OVER, found.toLowerCase()) },
  edge: { pattern: ANYTHING, say: (found) => sided(EDGE, found) },
};

function sided(words: Record<string, string>, face: string): string | null {
  const side = sideOf(face);
  return side ? (words[side] ?? null) : null;
}
