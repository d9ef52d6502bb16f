// How sure an answer is, what that is made of, and what happens if one thing is different.
import type { Form } from './form.ts';

/** Inputs that are not known exactly. */
export const input: Form[] = [
  ['strength of the flash', 'Stärke des Blitzes'],
  ['distance to the face', 'Abstand zum Gesicht'],
  ['distance from flash to board', 'Abstand vom Blitz zur Tafel'],
  ['distance from {name} to the face', 'Abstand von {name} zum Gesicht'],
  ['lean of {name}', 'Neigung von {name}'],
  ['width of the room', 'Breite des Raums'],
  ['length of the room', 'Länge des Raums'],
  ['height of the ceiling', 'Höhe der Decke'],
  ['furniture and people not described', 'Möbel und Menschen, die nicht beschrieben sind'],
  ['paint of the {way}', 'Anstrich {way.gen}'],
];

/** What is assumed of them. */
export const spread: Form[] = [
  ['guide number measured by its owner', 'Leitzahl, selbst gemessen'],
  ['guide number as printed by its maker', 'Leitzahl, wie sein Hersteller sie angibt'],
  ['paced, about {n} %', 'abgeschritten, etwa {n} %'],
  ['held by hand, {n} cm either way', 'von Hand gehalten, {n} cm hin oder her'],
  ['held by hand, about {n}°', 'von Hand gehalten, etwa {n}°'],
  ['an ordinary furnished room', 'ein Raum, möbliert wie üblich'],
  ['judged by eye, about {n} %', 'nach Augenmaß, etwa {n} %'],
];

/** The sentence under the three lines. */
export const about: Form[] = [
  ['About {stops} either way until a frame is read', 'Auf etwa {stops} genau, bis ein erstes Bild da ist'],
  [
    'About {stops} either way until a frame is read; most of it is {input}',
    'Auf etwa {stops} genau, bis ein erstes Bild da ist; das meiste davon: {input}',
  ],
  [
    'About {stops} either way until a frame is read; the largest part is {input}',
    'Auf etwa {stops} genau, bis ein erstes Bild da ist; der größte Teil davon: {input}',
  ],
  ['Measure that first', 'Miss das zuerst'],
  ['Write the large pieces into the file', 'Trage die großen Stücke in die Auftragsdatei ein'],
  [
    'That is more than is in hand: should the frame come out dark, raise the ISO',
    'Das ist mehr als die Reserve: Wird das Bild zu dunkel, erhöhe die ISO-Zahl',
  ],
];

/** One thing that is different. */
export const sensitive: Form[] = [
  ['ceiling {n} cm lower', 'Decke {n} cm tiefer'],
  ['sitter half a metre nearer to the {way}', 'Person einen halben Meter näher {way.to}'],
  ['{way} a third darker', '{way} um ein Drittel dunkler'],
];
