// What to do or to know, and where to take care.
import type { Form } from './form.ts';

const power: Form[] = [
  [
    'Full power falls {stops} short: open up, raise the ISO, or bring the light nearer',
    'Volle Leistung ist {stops} zu wenig: Öffne die Blende, erhöhe die ISO-Zahl oder hole das Licht näher heran',
  ],
  [
    'Even the least power is {stops} too much: stop down, lower the ISO, or move the flash away',
    'Selbst die kleinste Leistung ist {stops} zu viel: Schließe die Blende, senke die ISO-Zahl oder geh mit dem Blitz weiter weg',
  ],
  [
    'Only {stops} are left in hand, {n} fewer than asked: recycling will be slow and the flash will get warm',
    'Nur {stops} Reserve, {n} weniger als gewünscht: Der Blitz lädt langsam und wird warm',
  ],
  [
    'Near full power: watch the recycling, about {n} s after each frame',
    'Fast volle Leistung: Achte auf die Ladezeit, etwa {n} s nach jedem Bild',
  ],
  ['{iso} leaves a stop more in hand', '{iso} lässt eine Blende mehr Reserve'],
  [
    '{iso} leaves a stop more in hand, and puts the light that is there at {n}',
    '{iso} lässt eine Blende mehr Reserve und bringt das vorhandene Licht auf {n}',
  ],
];

const spill: Form[] = [
  [
    "If the head is turned less than about {n}° away from the face, block the direct spill with a card or a hand on the sitter's side",
    'Ist der Blitzkopf weniger als etwa {n}° vom Gesicht weggedreht, halte sein direktes Streulicht zur Person hin mit einer Karte oder der Hand ab',
  ],
  [
    'here it is turned {n}° away and the spill stays {stops} under',
    'hier ist er {n}° weggedreht, und das Streulicht bleibt {stops} darunter',
  ],
  [
    'here it is turned {n}° away and nothing of the beam meets the face',
    'hier ist er {n}° weggedreht, und nichts vom Strahl trifft das Gesicht',
  ],
  [
    "Flag the head: a dark card a hand's length from it, between the head and the face, or its direct spill would show as a hard shadow ({n}° away from the face)",
    'Decke den Blitzkopf ab: mit einer dunklen Karte, eine Handlänge davor, zwischen Blitzkopf und Gesicht. Sonst zeigt sich sein direktes Streulicht als harter Schatten ({n}° vom Gesicht weg)',
  ],
  [
    "Block the head on the sitter's side: its direct spill is only {stops} under the bounce",
    'Decke den Blitzkopf zur Person hin ab: Sein direktes Streulicht liegt nur {stops} unter dem zurückgeworfenen Licht',
  ],
];

const zoom: Form[] = [
  [
    'A small panel is better with the head zoomed in (here {stops} from zoom 50 to 105); a wall is not: it becomes the lamp whatever the zoom',
    'Für eine kleine Tafel ist ein enger Zoom besser (hier {stops} von zoom 50 bis 105), für eine Wand nicht: Sie wird bei jedem Zoom selbst zur Lampe',
  ],
  [
    'The zoom hardly matters on a wall ({stops} from 50 to 105): the wall becomes the lamp. Only a small panel gains from zooming in',
    'Auf einer Wand macht der Zoom wenig aus ({stops} von 50 bis 105): Die Wand wird selbst zur Lampe. Nur eine kleine Tafel gewinnt durch einen engen Zoom',
  ],
];

/** Greenish lamps and their part of the light. */
export const greenish: Form[] = [
  ...['is', 'are'].map(
    (verb): Form => [
      `{lights} ${verb} greenish and {stops} under: {n} % of the light on the face, which moves its colour by {n2} mired and Duv {n3}`,
      '{lights}: grünlich und {stops} darunter, {n} % des Lichts im Gesicht; das verschiebt seine Farbe um {n2} Mired und Duv {n3}',
    ],
  ),
];

/** What a gel does to the flash. */
export const shift: Form[] = [
  ['{n} mired', '{n} Mired'],
  ['{n} mired, Duv {n2} {hue}', '{n} Mired, Duv {n2} {hue}'],
];

/** What a note says of mixed light; the colour part of an answer says the same. */
export const mixed: Form[] = [
  [
    '{light} and flash differ by about {n} mired where they arrive, but reach both sides of the face in such shares that these lie only {n2} mired apart: one balance serves',
    '{light} und Blitz liegen dort, wo sie ankommen, etwa {n} Mired auseinander, erreichen aber beide Gesichtshälften so, dass diese nur {n2} Mired auseinanderliegen: Ein Abgleich genügt',
  ],
  [
    '{light} and flash differ by about {n} mired: one balance is a compromise, and the two sides of the face will differ a little',
    '{light} und Blitz liegen etwa {n} Mired auseinander: Ein Abgleich ist ein Kompromiss, und die beiden Gesichtshälften werden sich ein wenig unterscheiden',
  ],
  [
    '{light} and flash differ by only about {n} mired, so one white balance serves both sides of the face',
    '{light} und Blitz liegen nur etwa {n} Mired auseinander, darum genügt ein Weißabgleich für beide Gesichtshälften',
  ],
  [
    'The two sides of the face are {n} mired apart: no single balance serves both',
    'Die beiden Gesichtshälften liegen {n} Mired auseinander: Kein Abgleich passt für beide',
  ],
  [
    'The two sides of the face are {n} mired apart: one balance is a compromise',
    'Die beiden Gesichtshälften liegen {n} Mired auseinander: Ein Abgleich ist ein Kompromiss',
  ],
  [
    "Most of it is the flash's own light off coloured walls: a white board on the shadow side covers them",
    'Das meiste davon ist Blitzlicht, das von farbigen Wänden kommt: Eine weiße Tafel auf der Schattenseite verdeckt sie',
  ],
  [
    'The light that is there is far under, but fills the shadow side: a white board there, or a gel that makes the flash alike, cures it',
    'Das vorhandene Licht liegt weit darunter, hellt aber die Schattenseite auf: Dagegen hilft dort eine weiße Tafel oder eine Folie, die den Blitz angleicht',
  ],
  [
    'Make the lights alike with a gel, or bring the light that is there three stops under, where its colour can be ignored',
    'Gleiche die Lichter mit einer Folie an, oder bringe das vorhandene Licht drei Blenden darunter, wo seine Farbe nicht mehr zählt',
  ],
  ['{greenish}', '{greenish}'],
  [
    '{greenish}: below what is seen, so no green gel is needed',
    '{greenish}. Das sieht man nicht; eine grüne Folie braucht es nicht',
  ],
  [
    '{greenish}: hardly seen, so no green gel is needed',
    '{greenish}. Das sieht man kaum; eine grüne Folie braucht es nicht',
  ],
  [
    'the green gel on the flash makes both alike, and the tint of the balance takes it out',
    'die grüne Folie vor dem Blitz gleicht beide an, und der Farbstich-Regler des Abgleichs nimmt es heraus',
  ],
  [
    '{greenish}: that shows. A green gel on the flash (Duv {n} would match) and magenta in the balance make both alike, or bring the lamps three stops under',
    '{greenish}. Das sieht man. Eine grüne Folie vor dem Blitz (Duv {n} würde passen) und Magenta im Abgleich gleichen beide an, oder bringe die Lampen drei Blenden darunter',
  ],
  [
    '{gel} on the flash: {shift}, so its light has {kelvin}',
    'Folie {gel} vor dem Blitz: {shift}, damit hat sein Licht {kelvin}',
  ],
  [
    '{gel} on the flash: {shift}, so its light has {kelvin}, and where both arrive it lies {n} mired from the light that is there',
    'Folie {gel} vor dem Blitz: {shift}, damit hat sein Licht {kelvin}, und wo beide ankommen, liegt es {n} Mired neben dem vorhandenen Licht',
  ],
  ['{gel} on the flash: a deep colour', 'Folie {gel} vor dem Blitz: eine tiefe Farbe'],
  [
    '{gel} on the flash: a deep colour, and where both arrive it lies {n} mired from the light that is there',
    'Folie {gel} vor dem Blitz: eine tiefe Farbe, und wo beide ankommen, liegt es {n} Mired neben dem vorhandenen Licht',
  ],
  [
    'A {gel} on the flash ({shift}), which is not in the bag, would bring its light and the light that is there together',
    'Die Folie {gel} vor dem Blitz ({shift}), die nicht in der Tasche ist, brächte sein Licht und das vorhandene zusammen',
  ],
  [
    'A {gel} on the flash ({shift}), better than the {gel2}, would bring its light and the light that is there together',
    'Die Folie {gel} vor dem Blitz ({shift}), besser als {gel2}, brächte sein Licht und das vorhandene zusammen',
  ],
  ['it costs {stops}', 'das kostet {stops}'],
];

/** Keeping other light away, or colouring on purpose. */
export const shut: Form[] = [
  ['gel the look on purpose', 'färbe das Bild bewusst mit einer Folie'],
  [
    'shut out the {light} or gel the look on purpose',
    'halte {light.acc} fern oder färbe das Bild bewusst mit einer Folie',
  ],
];

export const kelvins: Form[] = [
  ['{kelvin}', '{kelvin}'],
  ['{n} to {kelvin}', '{n} bis {kelvin}'],
  ['{kelvin} with a little {tint}', '{kelvin} mit etwas {tint}'],
  ['{n} to {kelvin} with a little {tint}', '{n} bis {kelvin} mit etwas {tint}'],
];

const tempting: Form[] = [
  [
    'If the {way} must be used all the same: {shut}, then one white balance near {kelvins}',
    'Wenn es doch {way.the} sein muss: {shut}, dann nimm einen Weißabgleich um {kelvins}',
  ],
  [
    'If the {way} must be used all the same ({light} and this bounce would be about {n} mired apart: no single balance serves both): {shut}, then one white balance near {kelvins}',
    'Wenn es doch {way.the} sein muss ({light} und dieses Licht lägen etwa {n} Mired auseinander: Kein Abgleich passt für beide): {shut}, dann nimm einen Weißabgleich um {kelvins}',
  ],
  ['Its cast: {cast}', 'Der Farbstich dabei: {cast}'],
];

/** The light of the place, or a zone, that does not come out as asked. */
export const target: Form[] = [
  ['ambient light at the face', 'Vorhandenes Licht im Gesicht'],
  ['{name}', '{name}'],
];

const SLOW: Form = [
  '{t} is slow for a person: use a support and ask the sitter to hold still',
  '{t} ist lang für einen Menschen: Stütze die Kamera und bitte die Person, still zu halten',
];

const settings: Form[] = [
  [
    '{t} is faster than the sync speed of {t2}: part of the frame will miss the flash',
    '{t} ist kürzer als die Synchronzeit von {t2}: Ein Teil des Bildes bekommt den Blitz nicht',
  ],
  [
    'A depth of {n} m cannot be had with this lens at this distance; f/16 comes nearest. Step back or use a shorter lens',
    '{n} m Tiefe werden mit diesem Objektiv in diesem Abstand nicht scharf; f/16 kommt am nächsten. Geh zurück oder nimm ein kürzeres Objektiv',
  ],
  [
    "The room's own light is only {stops} under at {t}, the fastest clean shutter: dim it, close the curtains, or stop down",
    'Das Licht des Raums liegt bei {t}, der kürzesten sauberen Zeit, nur {stops} darunter: Dimme es, zieh die Vorhänge zu oder schließe die Blende',
  ],
  [
    'The room comes out {stops} brighter than asked: a smaller aperture, a lower ISO or ND brings it down',
    'Der Raum wird {stops} heller als gewünscht: Eine kleinere Blende, eine kleinere ISO-Zahl oder ein ND-Filter macht ihn dunkler',
  ],
  [
    'The room comes out {stops} darker than asked: a higher ISO or a tripod brings it up',
    'Der Raum wird {stops} dunkler als gewünscht: Eine höhere ISO-Zahl oder ein Stativ macht ihn heller',
  ],
  SLOW,
  [
    '{target}: {stops} brighter than asked. The shutter stays at {t}, the fastest with a clean flash frame; a smaller aperture, a lower ISO or ND on the lens brings it down',
    '{target}: {stops} heller als gewünscht. Die Verschlusszeit bleibt bei {t}, der kürzesten, bei der der Blitz das ganze Bild trifft; eine kleinere Blende, eine kleinere ISO-Zahl oder ein ND-Filter macht es dunkler',
  ],
  ['High-speed sync is not considered', 'Blitzen mit kürzeren Zeiten als der Synchronzeit ist nicht bedacht'],
  [
    '{target}: {stops} darker than asked. A slower shutter, a wider aperture or a higher ISO brings it up, not more flash',
    '{target}: {stops} dunkler als gewünscht. Eine längere Zeit, eine größere Blende oder eine höhere ISO-Zahl macht es heller, nicht mehr Blitz',
  ],
  [
    'The shutter does not change the flash part at or below sync; it moves only what is there without the flash',
    'Bis zur Synchronzeit ändert die Verschlusszeit nichts am Blitz; sie bewegt nur, was ohne Blitz da ist',
  ],
  [
    '{nd} on the lens takes from flash and ambient alike, so the fastest synced shutter serves the flash best. Focus and compose before fitting it, or check that focus works with it; its tint needs a white-balance frame',
    '{nd} am Objektiv nimmt Blitz und vorhandenem Licht gleich viel, darum dient dem Blitz die Synchronzeit am besten. Stelle scharf und wähle den Ausschnitt, bevor du das Filter aufsetzt, oder prüfe, ob es auch damit scharf wird; sein Farbstich braucht ein Bild für den Weißabgleich',
  ],
  [
    'Another way in the sun: one step into open shade saves about {stops}',
    'In der Sonne geht es auch anders: Ein Schritt in den offenen Schatten spart etwa {stops}',
  ],
  ...[
    ['brighter', 'heller'],
    ['darker', 'dunkler'],
  ].map(
    ([english, german]): Form => [
      `The daylight that you metered is {stops} ${english} than computed for this sky, and skies like it spread by about {n}: look at the weather, the time and what stands before the sky. Your reading is used`,
      `Das Tageslicht, das du gemessen hast, ist {stops} ${german} als für diesen Himmel berechnet, und solche Himmel streuen um etwa {n}: Sieh nach dem Wetter, der Zeit und nach dem, was vor dem Himmel steht. Es gilt deine Messung`,
    ],
  ),
];

export const notes: Form[] = [
  ...power,
  ...spill,
  ...zoom,
  ...mixed,
  ...tempting,
  [
    'Deep-set eyes will go dark under so steep a light: chin up a little, or a white card at the chest',
    'Tief liegende Augen werden unter so steilem Licht dunkel: das Kinn etwas hoch, oder eine weiße Karte vor die Brust',
  ],
  ...settings,
];

export const cautions: Form[] = [
  [
    'A bare flash {n} m from open eyes dazzles: keep 1 m or more, and say when it will fire',
    'Ein nackter Blitz {n} m vor offenen Augen blendet: Bleib 1 m oder weiter weg, und sag, wann er kommt',
  ],
  [
    'Small children: bounce the flash or keep 1.5 m away, use the lowest power that serves, and stop when they turn away or a parent asks',
    'Kleine Kinder: Blitze über eine Fläche oder bleib 1,5 m weg, nimm die kleinste Leistung, die reicht, und hör auf, wenn sie sich abwenden oder die Eltern es wollen',
  ],
  [
    'The sun stands ahead of the lens: do not look at it through an optical finder, and do not leave the lens pointed at it',
    'Die Sonne steht vor dem Objektiv: Sieh sie nicht durch einen optischen Sucher an, und lass das Objektiv nicht auf sie gerichtet',
  ],
  [
    'Near full power the flash gets hot and recycles slowly: rest it as its maker says, and stop if it smells',
    'Nahe der vollen Leistung wird der Blitz heiß und lädt langsam: Lass ihn ruhen, wie sein Hersteller es sagt, und hör auf, wenn er riecht',
  ],
];

/** Other light than planned, and what it does to the picture. */
export const later: Form[] = [
  ['nothing to change', 'nichts zu ändern'],
  ['{steps}, all else untouched', '{steps}, alles andere bleibt'],
  ['{t} is slow for a person', '{t} ist lang für einen Menschen'],
  ['or else: {steps}, all else untouched', 'oder sonst: {steps}, alles andere bleibt'],
  SLOW,
  [
    'The light that is there comes out {stops} brighter than planned, for the flash is at its most: bring the flash nearer, or find shade',
    'Das vorhandene Licht wird {stops} heller als geplant, denn der Blitz gibt schon alles: Hole ihn näher heran oder such Schatten',
  ],
  [
    'The light that is there comes out {stops} darker than planned',
    'Das vorhandene Licht wird {stops} dunkler als geplant',
  ],
  [
    'Full power is {stops} short: raise the ISO, open up or bring the light nearer',
    'Volle Leistung ist {stops} zu wenig: Erhöhe die ISO-Zahl, öffne die Blende oder hole das Licht näher heran',
  ],
  [
    'The face comes out {stops} too bright: the light that is there is enough without the flash',
    'Das Gesicht wird {stops} zu hell: Das vorhandene Licht genügt ohne Blitz',
  ],
  ['{f} instead of {f2}: more is sharp', '{f} statt {f2}: Es wird mehr scharf'],
];

/** One setting that is touched. */
export const step: Form[] = [
  ['shutter {t}', 'Verschlusszeit {t}'],
  ['{iso}', '{iso}'],
  ['{f}', '{f}'],
  ['power {power}', 'Leistung {power}'],
];
