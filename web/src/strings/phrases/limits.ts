// What was insisted on, by how much it is missed, and the sentence that says so.
import type { Form } from './form.ts';

/** What was asked. */
export const asked: Form[] = [
  ['{stops} in hand', '{stops} Reserve'],
  ['no more light than the least power gives', 'nicht mehr Licht, als die kleinste Leistung gibt'],
  ['{n} s between frames', '{n} s von Bild zu Bild'],
  ['skin within {n} mired', 'Haut innerhalb von {n} Mired'],
  ['skin neither green nor magenta', 'Haut weder grün noch magenta'],
  ['skin neutral', 'Haut neutral'],
  ['skin neutral, on the shadow side too', 'Haut neutral, auch auf der Schattenseite'],
  ['skin {warmer} by {n} mired', 'Haut {n} Mired {warmer}'],
  ['skin {warmer} by {n} mired, on the shadow side too', 'Haut {n} Mired {warmer}, auch auf der Schattenseite'],
  ['room neutral', 'Raum neutral'],
  ['room {warmer} by {n} mired', 'Raum {n} Mired {warmer}'],
  ['key {n}° from the nose, give or take {n2}°', 'Hauptlicht {n}° seitlich der Nase, {n2}° mehr oder weniger'],
  [
    'key {n}° from the nose from {side}, give or take {n2}°',
    'Hauptlicht {n}° seitlich der Nase, von {side}, {n2}° mehr oder weniger',
  ],
  // Less than nothing above is below; the sign would be overlooked.
  ['key -{n}° above the eyes', 'Hauptlicht {n}° unter den Augen'],
  ['key {n}° above the eyes', 'Hauptlicht {n}° über den Augen'],
  ['soft light', 'weiches Licht'],
  ['hard light', 'hartes Licht'],
  ['ratio {n}:1', 'Verhältnis {n}:1'],
  ['faces within {stops}', 'Gesichter innerhalb von {stops}'],
  ['background {stops} against the face', 'Hintergrund {stops} gegen das Gesicht'],
  ['ambient out of the picture', 'vorhandenes Licht ganz heraus'],
  ['ambient at {stops}', 'vorhandenes Licht bei {stops}'],
  ['{name} at {stops}', '{name} bei {stops}'],
];

/** By how much something asked is missed. */
export const missed: Form[] = [
  ['{stops} of flash short of {asked}', '{stops} zu wenig Blitz für {asked.quoted}'],
  ['{stops} too bright even at the least power', 'selbst bei der kleinsten Leistung {stops} zu hell'],
  ['{n} s too slow for {asked} ({n2} s)', '{n} s zu langsam für {asked.quoted} ({n2} s)'],
  ['{n} mired over {asked} ({n2})', '{n} Mired zu viel für {asked.quoted} ({n2})'],
  ['too {hue} on skin (Duv {n})', 'zu {hue} auf der Haut (Duv {n})'],
  ['{n}° outside "{asked}" ({n2}° {side})', '{n}° neben {asked.quoted} ({n2}° {side})'],
  ['{n}° off in height ({n2}°)', '{n}° neben der gewünschten Höhe ({n2}°)'],
  ['not soft light ({n} wide for its distance)', 'kein weiches Licht (Breite durch Abstand: {n})'],
  ['not hard light ({n} wide for its distance)', 'kein hartes Licht (Breite durch Abstand: {n})'],
  ['{stops} off the {asked}', '{stops} neben {asked.quoted}'],
  ['{stops} too uneven over the faces ({n})', 'von Gesicht zu Gesicht {stops} zu ungleich ({n})'],
  ['{stops} off "{asked}" ({n})', '{stops} neben {asked.quoted} ({n})'],
  ['{n} mired beyond "{asked}" ({n2})', '{n} Mired neben {asked.quoted} ({n2})'],
];

/** The nearest way and what it misses; ways with a comma of their own come first. */
export const nearest: Form[] = [
  ['{name}, held, {misses}', '{name}, gehalten: {misses}'],
  ['plastic dome, head turned up, {misses}', 'die weiße Kuppel, Kopf nach oben: {misses}'],
  ['bounce card, head turned up, {misses}', 'die ausgezogene Karte, Kopf nach oben: {misses}'],
  ['{way}, {misses}', '{way.the}: {misses}'],
];

export const short: Form[] = [
  [
    'This ask cannot be met as it stands. Nearest to it: {nearest}',
    'So, wie er da steht, lässt sich der Wunsch nicht erfüllen. Am nächsten kommt ihm {nearest}',
  ],
];
