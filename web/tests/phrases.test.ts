import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { de } from '../src/strings/de.ts';
import { en } from '../src/strings/en.ts';
import { blanksIn, type Form } from '../src/strings/phrases/form.ts';
import { BOOKS, blankOf, german, type Part } from '../src/strings/phrases.ts';

/** The sentences of answers to the examples and to changes of them, as the program gave them; see scripts/sentences.mjs. */
const heard = JSON.parse(readFileSync(new URL('./sentences.json', import.meta.url), 'utf8')) as Record<Part, string[]>;

/** Sentences that are known to be English still. Whoever adds one says why. */
const STILL_ENGLISH: string[] = [];

const LEFT_OVER =
  /\b(stops?|wall|ceiling|floor|the|of|and|with|from|is|are|at|by|to|light|flash|head|face|about|mired|power|sitter|camera|hand|key|warm by|skin|shadow|side|further|nearer)\b/;
/** What is English in a German sentence: nothing but names that somebody gave, and gels. */
const leftOver = (words: string) =>
  LEFT_OVER.exec(words.replace(/[„‚][^“‘]*[“‘]/g, '').replace(/\bplus green\b/g, ''))?.[0];

const said = (part: Part, sentence: string) => german(sentence, de, part);
const each = Object.entries(BOOKS) as [Part, Form[]][];

/** Something that may stand in each blank. */
const SAMPLES: Record<string, string> = {
  n: '12.5',
  stops: '1.3 stops',
  f: 'f/5.6',
  t: '1/160',
  iso: 'ISO 400',
  power: '1/4 +0.7',
  kelvin: '4600 K',
  nd: 'ND 3 stops',
  gel: '1/2 CTO',
  arrow: '←',
  side: 'camera left',
  hue: 'green',
  tint: 'magenta',
  warmth: 'cold',
  warmer: 'warm',
  hand: 'left',
  name: 'Aunt Vera',
  light: 'street lamp',
  lights: 'tubes and desk lamp',
  way: 'left wall',
  over: 'LEFT WALL',
  edge: 'ceiling',
  misses: '1.3 stops of flash short of 1 stop in hand, and 4° off in height (12°)',
  reasons: 'comes from 50° beside the nose; 1.3 stops weaker',
  moves: '0.5 m to camera right and 0.3 m further from the camera',
  steps: 'shutter 1/50, power 1/8',
};
const filled = (english: string): string =>
  english.replace(/\{([a-z]+)\d?\}/g, (_, kind: string) => SAMPLES[kind] ?? filled(BOOKS[kind as Part][0]![0]));

describe('the sentences of answers', () => {
  it('are all in the phrasebook', () => {
    const missing = Object.entries(heard).flatMap(([part, all]) =>
      all.filter((one) => said(part as Part, one).lang !== 'de').map((one) => `${part}: ${one}`),
    );
    expect(missing).toEqual(STILL_ENGLISH);
  });
  it('leave no English in the German', () => {
    for (const [part, all] of Object.entries(heard)) {
      for (const one of all) {
        const { text, lang } = said(part as Part, one);
        if (lang === 'de') expect(leftOver(text), text).toBeUndefined();
      }
    }
  });
  it('stay as they are on the English page', () => {
    for (const [part, all] of Object.entries(heard)) {
      for (const one of all) expect(german(one, en, part as Part)).toEqual({ text: one, lang: 'en' });
    }
  });
});

describe('the phrasebook', () => {
  it('has blanks of kinds that there are, the same on both sides', () => {
    for (const [part, forms] of each) {
      for (const [english, german_] of forms) {
        const blanks = blanksIn(english);
        for (const blank of blanks) expect(() => blankOf(blank!.replace(/\d$/, '')), english).not.toThrow();
        expect([...new Set(blanksIn(german_))].sort(), `${part}: ${english}`).toEqual([...new Set(blanks)].sort());
      }
    }
  });
  it('says every one of its forms, whole and without English', () => {
    for (const [part, forms] of each) {
      for (const [english] of forms) {
        const { text, lang } = said(part, filled(english));
        expect(lang, `${part}: ${filled(english)}`).toBe('de');
        expect(leftOver(text), text).toBeUndefined();
        expect(text, english).not.toMatch(/[{}]|undefined|null/);
      }
    }
  });
  it('leaves a sentence that it does not know as it is', () => {
    for (const one of [
      'The moon is made of cheese.',
      '',
      'comes from somewhere',
      'constructor',
      '3.2 m of travel, uphill',
    ]) {
      for (const [part] of each) {
        // Where a name is all that a form asks for, anything is a name.
        if (part === 'target') continue;
        expect(said(part, one), part).toEqual({ text: one, lang: 'en' });
      }
    }
  });
  it('never says half of a sentence', () => {
    for (const [part, one] of [
      ['about', 'About 1/3 stop either way until a frame is read; the largest part is luck. Measure that first.'],
      ['why', 'comes from 80° beside the nose; smells of paint (f/2.8 at full power, ISO 100)'],
      ['notes', 'High-speed sync is not considered. Nor is tea.'],
      [
        'short',
        'This ask cannot be met as it stands. Nearest to it: left wall, 3 stops of joy short of 1 stop in hand.',
      ],
      ['cost', '30 cm are sharp instead of 20 cm; and a song'],
    ] as const) {
      expect(said(part, one)).toEqual({ text: one, lang: 'en' });
    }
  });
});

describe('a German sentence', () => {
  const says = (part: Part, english: string, german_: string) =>
    expect(said(part, english), english).toEqual({ text: german_, lang: 'de' });

  it('says how sure an answer is', () => {
    says(
      'about',
      'About 2/3 stop either way until a frame is read; most of it is paint of the left wall. Measure that first. That is more than is in hand: should the frame come out dark, raise the ISO.',
      'Auf etwa 2/3 Blende genau, bis ein erstes Bild da ist; das meiste davon: Anstrich der linken Wand. Miss das zuerst. Das ist mehr als die Reserve: Wird das Bild zu dunkel, erhöhe die ISO-Zahl.',
    );
    says(
      'about',
      'About 1 1/3 stops either way until a frame is read; the largest part is furniture and people not described. Write the large pieces into the file.',
      'Auf etwa 1 1/3 Blenden genau, bis ein erstes Bild da ist; der größte Teil davon: Möbel und Menschen, die nicht beschrieben sind. Trage die großen Stücke in die Auftragsdatei ein.',
    );
    says('input', 'paint of the floor', 'Anstrich des Bodens');
    says('input', 'paint of the old piano', 'Anstrich von „old piano“');
    says('input', 'distance from St. Vitus; board to the face', 'Abstand von „St. Vitus; board“ zum Gesicht');
    says('sensitive', 'sitter half a metre nearer to the flash', 'Person einen halben Meter näher zum Blitz');
    says('sensitive', 'wall behind the camera a third darker', 'Wand hinter der Kamera um ein Drittel dunkler');
    says(
      'sensitive',
      'sitter half a metre nearer to the left wall with the ceiling',
      'Person einen halben Meter näher zur linken Wand an der Kante zur Decke',
    );
  });
  it('labels the chart', () => {
    says('chart', '5.0 m of travel', '5,0 m Lichtweg');
    says('chart', 'left wall keeps 82 % of the light', 'linke Wand: 82 % des Lichts kommen zurück');
    says('chart', 'power 1/4 +0.7', 'Leistung 1/4 +0.7');
    says('chart', 'ND 1 stop', 'ND 1 Blende');
    says('chart', 'full flash 1 m away, zoom 50, f/5.6 ISO 200', 'voller Blitz in 1 m Abstand, zoom 50, f/5.6 ISO 200');
    says('chart', 'ambient: the lamp of the house', 'vorhandenes Licht: „the lamp of the house“');
  });
  it('says what was asked, and what is missed', () => {
    says('asked', '1 stop in hand', '1 Blende Reserve');
    says('asked', 'ambient at -2.0 stops', 'vorhandenes Licht bei −2 Blenden');
    says('asked', 'sky at -1.0 stops', '„sky“ bei −1 Blende');
    says('asked', 'skin warm by 35 mired, on the shadow side too', 'Haut 35 Mired wärmer, auch auf der Schattenseite');
    says('asked', 'room cool by 20 mired', 'Raum 20 Mired kälter');
    says(
      'short',
      'This ask cannot be met as it stands. Nearest to it: white board, held, 1.2 stops of flash short of 2.0 stops in hand, and 0.4 stops off "sky at -1.0 stops" (-0.1).',
      'So, wie er da steht, lässt sich der Wunsch nicht erfüllen. Am nächsten kommt ihm „white board“, gehalten: 1,2 Blenden zu wenig Blitz für „2 Blenden Reserve“ und 0,4 Blenden neben „‚sky‘ bei −1 Blende“ (−0,1).',
    );
    says(
      'short',
      'This ask cannot be met as it stands. Nearest to it: straight at the face, not soft light (0.03 wide for its distance).',
      'So, wie er da steht, lässt sich der Wunsch nicht erfüllen. Am nächsten kommt ihm der Blitz gerade auf das Gesicht: kein weiches Licht (Breite durch Abstand: 0,03).',
    );
  });
  it('says why, and why not', () => {
    says(
      'why',
      'about 58 mired warm: unusable for neutral skin; comes from 44° beside the nose; 2.4 stops weaker (f/3.2 at full power, ISO 100)',
      'etwa 58 Mired warm; für neutrale Haut nicht zu brauchen; kommt aus 44° seitlich der Nase; 2,4 Blenden schwächer (f/3.2 bei voller Leistung, ISO 100)',
    );
    says(
      'why',
      'key from 45° camera left, -12° above the eyes, cheeks 8.4:1, cast +9 mired; f/7.2 at full power, ISO 100; see the notes',
      'Hauptlicht aus 45° kameralinks, 12° unter den Augen, Wangen 8,4:1, Farbstich +9 Mired; f/7.2 bei voller Leistung, ISO 100; siehe „Gut zu wissen“',
    );
    says('prefer', 'softer: the light is 1.7 times as wide', 'weicher: Das Licht ist 1,7-mal so breit');
  });
  it('notes, and takes care', () => {
    says(
      'notes',
      'window and flash differ by only about 5 mired, so one white balance serves both sides of the face.',
      '„window“ und Blitz liegen nur etwa 5 Mired auseinander, darum genügt ein Weißabgleich für beide Gesichtshälften.',
    );
    says(
      'notes',
      'If the floor must be used all the same: gel the look on purpose, then one white balance near 4000 K with a little magenta. Its cast: about 12 mired cold.',
      'Wenn es doch der Boden sein muss: färbe das Bild bewusst mit einer Folie, dann nimm einen Weißabgleich um 4000 K mit etwas Magenta. Der Farbstich dabei: etwa 12 Mired kalt.',
    );
    says(
      'notes',
      '1/30 is slow for a person: use a support and ask the sitter to hold still.',
      '1/30 ist lang für einen Menschen: Stütze die Kamera und bitte die Person, still zu halten.',
    );
    says(
      'cautions',
      'A bare flash 0.8 m from open eyes dazzles: keep 1 m or more, and say when it will fire.',
      'Ein nackter Blitz 0,8 m vor offenen Augen blendet: Bleib 1 m oder weiter weg, und sag, wann er kommt.',
    );
  });
  it('says what would help, and what it costs', () => {
    says('what', 'move the sitter 0.5 m to camera left', 'die Person 0,5 m nach kameralinks rücken');
    says('what', 'have someone hold the white board', 'jemanden „white board“ halten lassen');
    says(
      'cost',
      '30 cm are sharp instead of 20 cm; 1.0 stops more of the flash',
      '30 cm sind scharf statt 20 cm; 1 Blende mehr vom Blitz',
    );
    says(
      'then',
      'white board, held, f/4 · 1/160 · ISO 100 · ND 3 stops, 1/4 +0.3 at zoom 70, 1.6 stops in hand',
      '„white board“, gehalten, f/4 · 1/160 · ISO 100 · ND 3 Blenden, 1/4 +0.3 bei zoom 70, 1,6 Blenden Reserve',
    );
  });
  it('says what to change when the light has changed', () => {
    says('later', 'shutter 1/50, all else untouched', 'Verschlusszeit 1/50, alles andere bleibt');
    says(
      'later',
      'ISO 800, power 1/8 +0.7, all else untouched. The light that is there comes out 1.3 stops darker than planned. 1/30 is slow for a person: use a support and ask the sitter to hold still.',
      'ISO 800, Leistung 1/8 +0.7, alles andere bleibt. Das vorhandene Licht wird 1,3 Blenden dunkler als geplant. 1/30 ist lang für einen Menschen: Stütze die Kamera und bitte die Person, still zu halten.',
    );
    says(
      'later',
      'shutter 1/15, all else untouched. 1/15 is slow for a person; or else: shutter 1/60, ISO 800, all else untouched.',
      'Verschlusszeit 1/15, alles andere bleibt. 1/15 ist lang für einen Menschen; oder sonst: Verschlusszeit 1/60, ISO 800, alles andere bleibt.',
    );
  });
  it('tells an aim by hand as it tells the aim of an answer', () => {
    says(
      'aim',
      '← bounce LEFT WALL 1.9 m up, 0.4 m ahead of the camera: head turned 75° left, tilt 15 up',
      '← über die LINKE WAND, 1,9 m hoch, 0,4 m vor der Kamera: Blitzkopf 75° nach links, 15° nach oben',
    );
    says(
      'aim',
      '↑ bounce CEILING, 0.6 m behind the camera: head straight ahead, tilt 80 up; flag the head',
      '↑ über die DECKE, 0,6 m hinter der Kamera: Blitzkopf geradeaus, 80° nach oben; zur Person hin abdecken',
    );
    says(
      'aim',
      '→ bounce off low cupboard, turned 40° right, level',
      '→ über „low cupboard“, Blitzkopf 40° nach rechts, waagerecht',
    );
  });
  it('says how far a job is', () => {
    says('stage', 'the picture: flash', 'das Bild: Blitz');
    says('stage', 'the picture: ceiling tubes', 'das Bild: „ceiling tubes“');
    says('control', 'shutter, 1/3 stop slower', 'Verschlusszeit, 1/3 Blende länger');
    says('zone', 'ceiling tubes alone', '„ceiling tubes“ allein');
  });
});
