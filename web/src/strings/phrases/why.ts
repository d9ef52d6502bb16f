// Why a way of lighting was taken or not, and why one might prefer another.
import type { Form } from './form.ts';

export const cast: Form[] = [
  [
    'mostly {hue} (Duv {n}) rather than warm or cold ({n2} mired): the kelvin setting cannot remove it, only tint or a gel can',
    'vor allem {hue} (Duv {n}), weniger warm oder kalt ({n2} Mired): Mit Kelvin geht das nicht weg, nur mit dem Farbstich-Regler oder einer Folie',
  ],
  ['about {n} mired {warmth}', 'etwa {n} Mired {warmth}'],
  ['about {n} mired {warmth} and {hue} (Duv {n2})', 'etwa {n} Mired {warmth} und {hue} (Duv {n2})'],
];

/** One reason of several. */
export const reason: Form[] = [
  ['{cast}: unusable for neutral skin', '{cast}; für neutrale Haut nicht zu brauchen'],
  ['{cast}', '{cast}'],
  ['lights the other side ({n}° {side})', 'beleuchtet die andere Seite ({n}° {side})'],
  ['comes {n}° down: hollow eyes', 'kommt aus {n}° von oben: dunkle Augenhöhlen'],
  ['small and hard: crisp nose shadow', 'klein und hart: scharfer Nasenschatten'],
  ['too soft for the crisp shadow asked', 'zu weich für den scharfen Schatten, der gewünscht ist'],
  ['{stops} short of what is asked in hand', '{stops} weniger als die gewünschte Reserve'],
  ['uneven over the faces', 'ungleich von Gesicht zu Gesicht'],
  ['flat: comes from only {n}° beside the nose, cheeks {n2}:1', 'flach: nur {n}° seitlich der Nase, Wangen {n2}:1'],
  ['comes from behind ({n}° round)', 'kommt von hinten ({n}° herum)'],
  ['comes from {n}° beside the nose', 'kommt aus {n}° seitlich der Nase'],
  [
    'comes from below ({n}°), like a torch under the chin',
    'kommt von unten ({n}°), wie eine Taschenlampe unter dem Kinn',
  ],
  ['comes steeply, {n}° down: shadow in the eye sockets', 'kommt steil, {n}° von oben: Schatten in den Augenhöhlen'],
  ['comes {n}° above the eyes', 'kommt aus {n}° über den Augen'],
  ['would do as well, but needs a pair of hands', 'ginge ebenso, aber jemand muss sie halten'],
  ['would do nearly as well', 'ginge fast ebenso gut'],
  ['{stops} weaker', '{stops} schwächer'],
  ['{stops} stronger', '{stops} stärker'],
];

/** How the chosen way's reason goes on. */
export const rest: Form[] = [
  [
    'cheeks {n}:1, cast {n2} mired; {f} at full power, ISO 100',
    'Wangen {n}:1, Farbstich {n2} Mired; {f} bei voller Leistung, ISO 100',
  ],
  [
    'cheeks {n}:1, cast {n2} mired; {f} at full power, ISO 100; see the notes',
    'Wangen {n}:1, Farbstich {n2} Mired; {f} bei voller Leistung, ISO 100; siehe „Gut zu wissen“',
  ],
];

export const why: Form[] = [
  ['key from {n}° {side}, -{n2}° above the eyes, {rest}', 'Hauptlicht aus {n}° {side}, {n2}° unter den Augen, {rest}'],
  ['key from {n}° {side}, {n2}° above the eyes, {rest}', 'Hauptlicht aus {n}° {side}, {n2}° über den Augen, {rest}'],
  ['{reasons} ({f} at full power, ISO 100)', '{reasons} ({f} bei voller Leistung, ISO 100)'],
];

export const prefer: Form[] = [
  [
    '{stops} more in hand: quicker recycling, a cooler flash',
    '{stops} mehr Reserve: kürzere Pausen, ein kühlerer Blitz',
  ],
  ['softer: the light is {n} times as wide', 'weicher: Das Licht ist {n}-mal so breit'],
  ['cleaner skin: {n} mired less cast', 'reinere Haut: {n} Mired weniger Farbstich'],
  ['{n}° nearer to the angle asked for', '{n}° näher am gewünschten Winkel'],
  ['gentler: cheeks {n}:1 instead of {n2}:1', 'sanfter: Wangen {n}:1 statt {n2}:1'],
  ['more drama: cheeks {n}:1 instead of {n2}:1', 'mehr Drama: Wangen {n}:1 statt {n2}:1'],
  ['nobody has to hold anything', 'niemand muss etwas halten'],
  ['the head needs no flag', 'der Blitzkopf muss nicht abgedeckt werden'],
];
