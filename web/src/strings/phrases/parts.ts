// Short pieces: parts of the picture, controls, aims, and how far a job is.
import type { Form } from './form.ts';

/** Parts of the picture and the lights in it. What somebody has named themselves is left to the page. */
export const zone: Form[] = [
  ['face, lit side', 'Gesicht, helle Seite'],
  ['face, shadow side', 'Gesicht, Schattenseite'],
  ['background', 'Hintergrund'],
  ['flash', 'Blitz'],
  ['sun', 'Sonne'],
  ['sky', 'Himmel'],
  ['{light} alone', '{light} allein'],
];

export const knob: Form[] = [
  ['shutter', 'Verschlusszeit'],
  ['aperture', 'Blende'],
  ['ISO', 'ISO'],
  ['power', 'Leistung'],
  ['flash distance', 'Abstand des Blitzes'],
  ['gel', 'Folie'],
  ['{nd}', '{nd}'],
];

export const click: Form[] = [
  ['{stops} slower', '{stops} länger'],
  ['{stops} wider', '{stops} weiter offen'],
  ['{stops} up', '{stops} höher'],
  ['{n} % nearer', '{n} % näher'],
  ['for each {stops} of loss', 'je {stops} Verlust'],
  ['onto the lens', 'an das Objektiv'],
];

export const control: Form[] = [
  ['{knob}, {click}', '{knob}, {click}'],
  ['zoom {n} at {power}', 'zoom {n} bei {power}'],
];

export const turn: Form[] = [
  ['straight ahead', 'geradeaus'],
  ['turned right round', 'ganz herumgedreht'],
  ['turned {n}° {hand}', '{n}° nach {hand}'],
];

export const tilt: Form[] = [
  ['level', 'waagerecht'],
  ['tilt {n} up', '{n}° nach oben'],
  ['tilt {n} down', '{n}° nach unten'],
];

export const beside: Form[] = [
  ['level with the camera', 'neben der Kamera'],
  ['{n} m behind the camera', '{n} m hinter der Kamera'],
  ['{n} m ahead of the camera', '{n} m vor der Kamera'],
];

/** Where on a wall. */
export const spot: Form[] = [
  ['{over}', '{over}'],
  ['{over} where it meets the {edge}', '{over} {edge}'],
];

export const meets: Form[] = [
  ['{spot}', '{spot}'],
  ['{spot} {n} m up', '{spot}, {n} m hoch'],
  ['{spot} {n} m up, {beside}', '{spot}, {n} m hoch, {beside}'],
  ['{spot}, {beside}', '{spot}, {beside}'],
];

/** An aim by hand, which has only these words and not the data that an answer has. */
export const aim: Form[] = [
  ['{arrow} straight at the face, {turn}, {tilt}', '{arrow} gerade auf das Gesicht, Blitzkopf {turn}, {tilt}'],
  ['{arrow} bounce off the open, {turn}, {tilt}', '{arrow} ins Freie, Blitzkopf {turn}, {tilt}'],
  ['{arrow} bounce off {name}, {turn}, {tilt}', '{arrow} über {name}, Blitzkopf {turn}, {tilt}'],
  ['{arrow} bounce {meets}: head {turn}, {tilt}', '{arrow} über {meets}: Blitzkopf {turn}, {tilt}'],
  ['flag the head', 'zur Person hin abdecken'],
];

/** What is being worked on. */
export const stage: Form[] = [
  ['reading the shoot', 'der Auftrag wird gelesen'],
  ['trying where the sitter could stand', 'Plätze für die Person werden ausprobiert'],
  ['working out how light travels here', 'der Weg des Lichts wird ausgerechnet'],
  ['trying every aim', 'jedes Ziel wird ausprobiert'],
  ['trying the gels', 'die Folien werden ausprobiert'],
  ['asking the path tracer', 'der Schiedsrichter wird gefragt'],
  ['seeing what if things are a little different', 'wie es wäre, wenn eines anders ist'],
  ['looking for the smallest change that would help', 'die kleinste Änderung, die hilft, wird gesucht'],
  ['building the picture', 'das Bild wird aufgebaut'],
  ['making the picture ready', 'das Bild wird vorbereitet'],
  ['the picture: {light}', 'das Bild: {light}'],
];
