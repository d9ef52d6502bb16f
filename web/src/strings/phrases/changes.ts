// The smallest changes that would make an ask possible: what, at what cost, and where that leads.
import type { Form } from './form.ts';

/** How far somebody is to move. */
export const move: Form[] = [
  ['{n} m to {side}', '{n} m nach {side}'],
  ['{n} m nearer to the camera', '{n} m näher zur Kamera'],
  ['{n} m further from the camera', '{n} m weiter weg von der Kamera'],
];

export const what: Form[] = [
  ['raise the speed to {iso}', 'auf {iso} erhöhen'],
  ['allow speeds up to {iso}', 'bis {iso} zulassen'],
  ['lower the speed to {iso}', 'auf {iso} senken'],
  ['open up to {f}', 'auf {f} öffnen'],
  ['stop down to {f}', 'auf {f} schließen'],
  ['keep only {stops} in hand', 'nur {stops} Reserve behalten'],
  ['wait {n} s between frames', '{n} s von Bild zu Bild warten'],
  [
    'bring the ambient down by {stops}: curtains, fewer lamps',
    'das vorhandene Licht um {stops} dunkler machen: Vorhänge, weniger Lampen',
  ],
  ['let the skin be up to {n} mired off', 'der Haut bis zu {n} Mired Farbstich lassen'],
  ['let the skin take the colour of the surface', 'die Haut die Farbe der Fläche annehmen lassen'],
  ['let the key be up to {n}° off its angle', 'das Hauptlicht bis zu {n}° neben seinem Winkel zulassen'],
  ['let the key come from {side}', 'das Hauptlicht von {side} kommen lassen'],
  ['take the key from -{n}° above the eyes', 'das Hauptlicht aus {n}° unter den Augen nehmen'],
  ['take the key from {n}° above the eyes', 'das Hauptlicht aus {n}° über den Augen nehmen'],
  ['accept soft light', 'weiches Licht annehmen'],
  ['accept hard light', 'hartes Licht annehmen'],
  ['settle for a ratio of {n}:1', 'mit einem Verhältnis von {n}:1 zufrieden sein'],
  ['let the faces differ by {stops}', 'die Gesichter um {stops} verschieden hell sein lassen'],
  ['settle for a background at {stops}', 'mit einem Hintergrund bei {stops} zufrieden sein'],
  ['have someone hold the {name}', 'jemanden {name} halten lassen'],
  ['take the flash off the camera', 'den Blitz von der Kamera nehmen'],
  ['put the flash on a stand, off the camera', 'den Blitz auf ein Stativ stellen, weg von der Kamera'],
  ['move the sitter {moves}', 'die Person {moves} rücken'],
];

/** Each stands after "Es kostet:". */
export const cost: Form[] = [
  [
    '{stops} more noise; the ambient rises with it unless the shutter follows',
    '{stops} mehr Rauschen; das vorhandene Licht wird mit heller, wenn die Verschlusszeit nicht folgt',
  ],
  ['{stops} more of the flash', '{stops} mehr vom Blitz'],
  ['{n} cm are sharp instead of {n2} cm', '{n} cm sind scharf statt {n2} cm'],
  ['another depth of field', 'eine andere Schärfentiefe'],
  [
    'the flash is ready after about {n} s instead of {n2} s, gets warmer, and nothing is left for a cloud or a darker suit',
    'der Blitz ist nach etwa {n} s bereit statt nach {n2} s, wird wärmer, und für eine Wolke oder einen dunkleren Anzug bleibt nichts',
  ],
  ['{n} s longer between frames', '{n} s länger von Bild zu Bild'],
  ['the room is dimmer to work in; pupils open', 'im Raum arbeitet es sich dunkler; die Pupillen werden weit'],
  [
    'a cast on skin that white balance takes out only for all the light together',
    'einen Farbstich auf der Haut, den der Weißabgleich nur aus allem Licht zugleich herausnimmt',
  ],
  ['green or magenta on skin', 'Grün oder Magenta auf der Haut'],
  ['another pattern on the face than the one asked for', 'ein anderes Muster im Gesicht als das gewünschte'],
  ['the other half of the face is lit', 'die andere Gesichtshälfte ist beleuchtet'],
  ['shadows fall at another slope than asked', 'die Schatten fallen in einer anderen Neigung als gewünscht'],
  ['another edge to every shadow', 'eine andere Kante an jedem Schatten'],
  ['deeper shadows', 'tiefere Schatten'],
  ['flatter modelling', 'flachere Formen'],
  [
    'the faces furthest from the light need lifting afterwards',
    'die Gesichter, die am weitesten vom Licht weg sind, müssen nachher aufgehellt werden',
  ],
  ['a brighter background', 'einen helleren Hintergrund'],
  ['a darker background', 'einen dunkleren Hintergrund'],
  ['a pair of hands for as long as it takes', 'zwei Hände, so lange es dauert'],
  [
    'a trigger, and a stand to weigh down or a hand to hold it',
    'einen Auslöser und ein beschwertes Stativ oder eine Hand, die den Blitz hält',
  ],
  [
    'another background behind the head; turn the camera with them',
    'einen anderen Hintergrund hinter dem Kopf; drehe die Kamera mit',
  ],
];

/** Speed, with the filter on the lens if there is one. */
export const speed: Form[] = [
  ['{iso}', '{iso}'],
  ['{iso} · {nd}', '{iso} · {nd}'],
];

export const then: Form[] = [
  [
    '{way}, {f} · {t} · {speed}, {power} at zoom {n}, {stops} in hand',
    '{way}, {f} · {t} · {speed}, {power} bei zoom {n}, {stops} Reserve',
  ],
];
