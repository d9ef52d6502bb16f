// The shapes of the API by the names that this page uses. They are those of `src/api.d.ts`, which is made from the server's
// own schema by `npm run types`; only what JSON Schema cannot say is added here.
import type { components } from './api.d.ts';

type Schemas = components['schemas'];

/** The server always writes a field: where the schema lets it be missing, it is null. */
type Given<T> = T extends (infer One)[]
  ? Given<One>[]
  : T extends object
    ? { [K in keyof T]-?: undefined extends T[K] ? Given<Exclude<T[K], undefined>> | null : Given<T[K]> }
    : T;

export type Kind = 'shoots' | 'bags' | 'places';

export type Doc = Given<Schemas['Document']>;
export type Listed = Given<Schemas['Listed']>;
export type Imported = Given<Schemas['Imported']>;

/** A value in a shoot file, as JSON. */
export type Value = string | number | boolean | Value[] | { [key: string]: Value };
export type Path = (string | number)[];
/** A change of a shoot file; null takes away what is there. */
export type Edit = { path: Path; value: Value | null };

// biome-ignore lint/suspicious/noExplicitAny: the parts of a shoot file are shown as they are written, whatever they hold
export type Form = Record<string, any>;

export type Understood = Omit<Given<Schemas['Understood']>, 'form'> & { form: Form };
export type Geometry = Given<Schemas['Geometry']>;
export type StartForm = Record<keyof Schemas['StartForm'], string>;
export type Vocabulary = Given<Schemas['Vocabulary']>;

export type Refusal = { code: string; message: string; hint: string | null };
export type Job = Omit<Given<Schemas['Job']>, 'error'> & { error: Refusal | null };

/** An answer as data, and in words: the n-th sentence of a list in `told` belongs to the n-th item of the list of data. */
export type Report = Given<Schemas['Report']>;
export type FlashSet = Report['flash'];
export type Chosen = Report['chosen'];
export type WishState = Report['wishes'][number]['state'];
/** A board that a helper holds. */
export type HeldBoard = Extract<Chosen['route'], { by: 'held_board' }>;
export type Answer = Given<Schemas['AnswerTold']>;
export type RoomMap = Given<Schemas['MapTold']>;
export type LightChanged = Given<Schemas['LightChangedTold']>;
export type GelFigure = NonNullable<Vocabulary['gels'][number]['straw']>;
export type PartText = Given<Schemas['PartText']>;
export type Scanned = Given<Schemas['ScannedPlace']>;
export type PhoneOpened = Given<Schemas['PhoneOpened']>;
export type Table = Given<Schemas['Table']>;
export type About = Given<Schemas['About']>;

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
