// The shapes of the API, written by hand from its contract. `src/api.d.ts`, made from the server's own schema, is the
// authority: tests/api-types.test.ts holds this page to it.

export type Kind = 'shoots' | 'bags' | 'places';

export type Doc = { id: string; name: string; version: number; saved_at: string; text: string };
export type Listed = { id: string; name: string; version: number; saved_at: string; removed: boolean };
export type VersionListed = { version: number; saved_at: string; name: string; removed: boolean };

/** A value in a shoot file, as JSON. */
export type Value = string | number | boolean | Value[] | { [key: string]: Value };
export type Path = (string | number)[];
export type Edit = { path: Path; value: Value | null };

export type Problem = {
  line: number | null;
  column: number | null;
  message: string;
  why: string | null;
  remedy: string | null;
};

// biome-ignore lint/suspicious/noExplicitAny: the parts of a shoot file are shown as they are written, whatever they hold
export type Form = Record<string, any>;

export type Understood = {
  text: string;
  set_ups: { name: string }[];
  set_up: number;
  ok: boolean;
  problems: Problem[];
  warnings: string[];
  summary: string[];
  form: Form;
  owned: string[];
  drawing: string | null;
  geometry: Geometry | null;
};

export type WallName = 'left' | 'right' | 'behind camera' | 'behind sitter';

export type Geometry = {
  feet: boolean;
  room: { width: number; length: number; height: number };
  camera: { x: number; y: number; z: number };
  sitters: { name: string; x: number; y: number; face_height: number; facing_deg: number }[];
  furniture: { name: string; x: number; y: number; z: number; width: number; depth: number; height: number }[];
  boards: { name: string; x: number; y: number; z: number; width: number; height: number }[];
  openings: {
    name: string;
    wall: string;
    from_left_end: number;
    from_floor: number;
    width: number;
    height: number;
    kind: string;
  }[];
  lamps: { name: string; x: number; y: number; z: number }[];
  flash: { x: number; y: number; z: number } | null;
};

export type StartForm = {
  title: string;
  length: string;
  width: string;
  ceiling: string;
  wall: string;
  ceiling_surface: string;
  sitter_distance: string;
  skin: string;
  light: string;
  look: string;
};

export type Vocabulary = {
  surfaces: { name: string; reflectance: number; meaning: string }[];
  usual_lights: { name: string; reading: string; colour: string }[];
  patterns: { name: string; azimuth: number[]; elevation: number[] }[];
  skins: string[];
  hairs: string[];
  hair_colours: string[];
  eyes: string[];
  cloths: string[];
  clothes: string[];
  figures: string[];
  builds: string[];
  gels: { name: string; straw: string | null; amber: string | null }[];
  illuminants: string[];
  lamps: { name: string; lumen: number }[];
  opening_kinds: string[];
  weathers: string[];
  flash_kinds: string[];
  looks: { name: string; stops: number }[];
};

export type Fault = { code: string; message: string; hint: string | null };

export type Job = {
  id: string;
  kind: 'answer' | 'proof' | 'live';
  state: 'waiting' | 'working' | 'done' | 'failed' | 'stopped';
  ahead: number;
  stage: string | null;
  fraction: number | null;
  picture: { number: number; width: number; height: number; noise_percent: number | null } | null;
  error: Fault | null;
};

type N = number | null;
export type Point = { from_left: N; from_behind: N; height: N };
export type Cast = { duv: N; mired: N; temperature_k: N };
export type NamedStops = { name: string; stops: N };
export type Key = {
  azimuth_deg: N;
  elevation_deg: N;
  full_power_aperture: N;
  near_cheek_stops: N;
  far_cheek_stops: N;
  ratio: N;
  sockets_stops: N;
  softness: N;
  spill_stops: N;
  cast: Cast;
};
export type CameraSet = {
  aperture: string;
  shutter: string;
  iso: N;
  nd_stops: N;
  white_balance_k: N;
  tint_steps: number;
  f_number: N;
  shutter_s: N;
};
export type FlashSet = {
  power: string;
  stops_below_full: N;
  exact_stops_below_full: N;
  zoom_mm: N;
  dress: string;
  in_hand_stops: N;
};
export type Chosen = {
  route: string;
  surface: string;
  turn_deg: N;
  tilt_deg: N;
  words: string;
  flagged: boolean;
  light_from_clock: N;
  aim_m: Point;
  flash_m: Point;
};
export type Limit = { kind: string; asked: string; found: N; short: N; met: boolean };
export type Change = { what: string; cost: string; then: string };

export type Report = {
  version: number;
  title: string;
  lines: { camera: string; flash: string; aim: string; about: string };
  camera: CameraSet;
  flash: FlashSet;
  chosen: Chosen;
  moved_to_m?: Point | null;
  limits: Limit[];
  shortfall?: { words: string; binding: Limit[]; changes: Change[]; tried: string[] } | null;
  alternatives: {
    name: string;
    prefer: string;
    points: N;
    camera: CameraSet;
    flash: FlashSet;
    chosen: Chosen;
    key: Key;
  }[];
  key: Key;
  colour: {
    gel?: { name: string; shift_mired: N; loss_stops: N; temperature_k: N } | null;
    zones: { name: string; mired: N; duv: N }[];
    sources: { name: string; temperature_k: N; duv: N; share: N }[];
    told: string[];
  };
  exposure: {
    flash_alone_stops: N;
    ambient_alone_stops: N;
    total_stops: N;
    power_for_flash_alone_stops: N;
    power_for_total_stops: N;
  };
  balance: {
    flash_percent: N;
    ambient_percent: N;
    depth_of_field_m: N;
    settings_ev: N;
    zones: { name: string; level_stops: N; wish_stops: N; temperature_k: N }[];
    reach: { name: string; distance_m: N }[];
    controls: { name: string; step: string; flash_stops: N; ambient_stops: N; face_stops: N }[];
    later: {
      name: string;
      change_stops: N;
      then: { words: string; camera: CameraSet; power: string };
      instead?: { words: string; camera: CameraSet; power: string } | null;
    }[];
  };
  chart: { label: string; stops: N; kind: 'start' | 'gain' | 'loss' | 'result' }[];
  evenness?: { brightest: string; darkest: string; spread_stops: N; each: NamedStops[] } | null;
  uncertainty: { within_stops: N; parts: { input: string; spread: string; standard_deviation_stops: N }[] };
  sensitivities: { what: string; exposure_stops: N; azimuth_deg: N; elevation_deg: N; cast_mired: N }[];
  surfaces: {
    name: string;
    verdict: 'chosen' | 'possible' | 'poor' | 'unusable';
    why: string;
    route: string;
    key?: Key | null;
    score: { fault: string; points: N }[];
  }[];
  referee: { difference_stops: N; standard_error_stops: N; azimuth_deg: N; elevation_deg: N };
  notes: string[];
  cautions: string[];
};

export type Answer = {
  id: string;
  report: Report;
  /** The lines in the units of the file; those of the report are in metres. */
  lines: Report['lines'];
  drawing: string;
  chart: string;
  feet: boolean;
  text: string;
  shoot_text: string;
  set_up: number;
  geometry: Geometry;
  changes?: { what: string; cost: string; then: string; text: string | null }[];
};

export type Cell = { face: string; verdict: string; why: string; points: N };
export type RoomMap = { svg: string; cells: Cell[] };

export type Dial = { labels: string[]; factors: number[]; at: number };
export type Table = {
  lights: { name: string; is_flash: boolean; first_plane: number; planes: number }[];
  gels: { name: string; label: string; weights: number[][]; loss_stops: number }[];
  controls: {
    power: Dial;
    shutter: Dial;
    aperture: Dial;
    iso: Dial;
    gel: { at: number };
    balance: { labels: string[]; at: number; multipliers: number[][]; cut: number[]; matrices: number[][] };
  };
  curve: { top: number; values: number[] };
  paling: { from: number; to: number; most: number };
  exposure: { flash_stops: number; ambient_stops: number | null };
  sensor_limit: number;
};

export type LiveAim = {
  words: string;
  target: { x: number; y: number; z: number };
  flash: { x: number; y: number; z: number };
  power: string;
  stops_below_full: number;
  azimuth_deg: number;
  elevation_deg: number;
  verdict: 'chosen' | 'possible' | 'poor' | 'unusable' | null;
  why: string | null;
};

export type About = {
  version: string;
  phone: { open: boolean; url: string | null; paired: number };
  you: 'here' | 'phone';
  storage: string;
};
