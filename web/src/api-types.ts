// The shapes of the API by the names that this page uses. They are those of `src/api.d.ts`, which is made from the server's
// own schema by `npm run types`; only what JSON Schema cannot say is added here.
import type { components } from './api.d.ts';

type Schemas = components['schemas'];

/** The server always writes a field: where the schema lets it be missing, it is null. */
type Told<T> = T extends (infer One)[]
  ? Told<One>[]
  : T extends object
    ? { [K in keyof T]-?: undefined extends T[K] ? Told<Exclude<T[K], undefined>> | null : Told<T[K]> }
    : T;

export type Kind = 'shoots' | 'bags' | 'places';

export type Doc = Told<Schemas['Document']>;
export type Listed = Told<Schemas['Listed']>;
export type Imported = Told<Schemas['Imported']>;

/** A value in a shoot file, as JSON. */
export type Value = string | number | boolean | Value[] | { [key: string]: Value };
export type Path = (string | number)[];
/** A change of a shoot file; null takes away what is there. */
export type Edit = { path: Path; value: Value | null };

// biome-ignore lint/suspicious/noExplicitAny: the parts of a shoot file are shown as they are written, whatever they hold
export type Form = Record<string, any>;

export type Understood = Omit<Told<Schemas['Understood']>, 'form'> & { form: Form };
export type Geometry = Told<Schemas['Geometry']>;
export type StartForm = Record<keyof Schemas['StartForm'], string>;
export type Vocabulary = Told<Schemas['Vocabulary']>;

export type Fault = { code: string; message: string; hint: string | null };
export type Job = Omit<Told<Schemas['Job']>, 'error'> & { error: Fault | null };

export type CameraSet = Told<Schemas['CameraReport']>;
export type FlashSet = Told<Schemas['FlashReport']>;
export type ChosenReport = Told<Schemas['ChosenReport']>;
export type Report = Told<Schemas['AnswerReport']>;
export type Answer = Told<Schemas['AnswerTold']>;
export type RoomMap = Told<Schemas['MapTold']>;
export type LightChanged = Told<Schemas['LightChangedTold']>;
export type PartText = Told<Schemas['PartText']>;
export type Scanned = Told<Schemas['ScannedPlace']>;
export type PhoneOpened = Told<Schemas['PhoneOpened']>;
export type Table = Told<Schemas['Table']>;
export type About = Told<Schemas['About']>;

/** What an aim by hand does; it comes in a header, which the schema does not describe. */
export type LiveAim = {
  words: string;
  target: { x: number; y: number; z: number };
  flash: { x: number; y: number; z: number };
  power: string;
  stops_below_full: number;
  azimuth_deg: number;
  elevation_deg: number;
  zoom_mm: number;
  verdict: 'chosen' | 'possible' | 'poor' | 'unusable' | null;
  why: string | null;
};
