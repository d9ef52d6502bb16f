// Where the stops go, line by line.
import type { Form } from './form.ts';

export const chart: Form[] = [
  ['full flash 1 m away, zoom {n}, {f} {iso}', 'voller Blitz in 1 m Abstand, zoom {n}, {f} {iso}'],
  ['umbrella', 'Schirm'],
  ['softbox', 'Softbox'],
  ['{nd}', '{nd}'],
  ['gel {gel}', 'Folie {gel}'],
  ['{n} m of travel', '{n} m Lichtweg'],
  ['place in the beam, angle to the camera', 'Platz im Strahl, Winkel zur Kamera'],
  ['what the room sends back', 'was der Raum zurückgibt'],
  ['{way} keeps {n} % of the light', '{way}: {n} % des Lichts kommen zurück'],
  ['matt surface scatters it all ways', 'matte Fläche streut es nach allen Seiten'],
  ['later bounces of the room', 'was der Raum danach noch zurückgibt'],
  ['direct spill of the head', 'direktes Streulicht des Blitzkopfs'],
  ['power {power}', 'Leistung {power}'],
  ['ambient: {light}', 'vorhandenes Licht: {light}'],
  ['at the face, against an exact reading', 'im Gesicht, gegen eine genaue Messung'],
];
