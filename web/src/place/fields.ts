// Which keys each part of a shoot file has, in the order in which they are asked, and what can be chosen for them.
import type { Form, Value, Vocabulary } from '../api-types.ts';

export type Field = {
  key: string;
  kind: 'text' | 'number' | 'yes' | 'list' | 'surface';
  /** What may be chosen; anything else can be typed too. */
  options?: string[];
  hint?: string;
};

export type Part =
  | 'sitter'
  | 'camera'
  | 'opening'
  | 'furniture'
  | 'board'
  | 'ambient'
  | 'zone'
  | 'later'
  | 'sky'
  | 'flash'
  | 'bagBoard'
  | 'hands';

export const FACES = ['left', 'right', 'behind_camera', 'behind_sitter', 'ceiling', 'floor'] as const;
const HOURS = Array.from({ length: 12 }, (_, i) => `${i + 1} o'clock`);

const text = (key: string, hint?: string, options?: string[]): Field => ({
  key,
  kind: 'text',
  ...(hint ? { hint } : {}),
  ...(options ? { options } : {}),
});
const yes = (key: string): Field => ({ key, kind: 'yes' });

/** The fields of a part; a shoot has its lengths in metres or in feet, never in both. */
export function fieldsOf(part: Part, v: Vocabulary | null, form: Form, feet: boolean): Field[] {
  const size = (metres: string, inFeet: string) => (feet ? inFeet : metres);
  switch (part) {
    case 'sitter':
      return [
        text('name', 'the cornet player'),
        text('from_left', size('2.3 m', '7 ft 6 in')),
        text('from_behind', size('4.7 m', '15 ft')),
        text('face_height', size('1.6 m', '5 ft 3 in')),
        text('faces', 'camera', ['camera', 'left', 'right', ...HOURS]),
        text('posture', 'standing', ['standing', 'sitting']),
        text('figure', 'person', v?.figures),
        { key: 'age', kind: 'number', hint: '40' },
        text('build', 'medium', v?.builds),
        text('stature', size('1.75 m', '5 ft 9 in')),
        text('skin', 'intermediate', v?.skins),
        text('hair', 'short', v?.hairs),
        text('hair_colour', 'brown', v?.hair_colours),
        text('eyes', 'brown', v?.eyes),
        text('clothes', 'jersey', v?.clothes),
        text('top', 'grey', v?.cloths),
        text('trousers', 'charcoal', v?.cloths),
        text('cap', '–', v?.cloths),
      ];
    case 'camera':
      return [
        text('from_left', size('2.0 m', '6 ft 6 in')),
        text('from_behind', size('2.0 m', '6 ft 6 in')),
        text('height', size('1.6 m', '5 ft 3 in')),
        text('lens', '85 mm', ['35 mm', '50 mm', '85 mm', '105 mm', '135 mm']),
        yes('landscape'),
        text('sync', '1/200', ['1/160', '1/200', '1/250']),
        text('iso', '100 to 6400'),
        text('widest', 'f/2.8', ['f/1.4', 'f/1.8', 'f/2.8', 'f/4']),
      ];
    case 'opening':
      return [
        text('name', 'window'),
        text('wall', 'left', ['left', 'right', 'behind camera', 'behind sitter']),
        text('kind', 'window', v?.opening_kinds),
        text('from_left_end', size('1.0 m', '3 ft')),
        text('from_floor', size('0.9 m', '3 ft')),
        text('size', size('1.2 x 1.4 m', '4 ft x 4 ft 6 in')),
      ];
    case 'furniture':
      return [
        text('name', 'cupboard'),
        text('size', size('1.2 x 0.5 x 1.9 m', '4 x 2 x 6 ft')),
        text('from_left', size('1.0 m', '3 ft')),
        text('from_behind', size('1.0 m', '3 ft')),
        text('from_floor', size('0 m', '0 ft')),
        { key: 'surface', kind: 'surface', hint: 'bookshelf' },
      ];
    case 'board':
      return [
        text('name', 'board'),
        text('size', size('1.0 x 2.0 m', '3 x 6 ft')),
        text('from_left', size('1.0 m', '3 ft')),
        text('from_behind', size('1.0 m', '3 ft')),
        text('height', size('1.0 m', '3 ft')),
        text('faces', 'sitter', ['sitter', 'camera', ...HOURS]),
        text('tilt', '0 deg'),
        { key: 'surface', kind: 'surface', hint: 'white card' },
        { key: 'back', kind: 'surface' },
        yes('held'),
      ];
    case 'ambient':
      return [
        text('name', 'ceiling lamp'),
        text(
          'reading',
          'EV 5',
          v?.usual_lights.map((l) => l.name),
        ),
        text(
          'lamp',
          '60 W bulb',
          v?.lamps.map((l) => l.name),
        ),
        { key: 'lumen', kind: 'number', hint: '800' },
        text('from', 'all round', [
          'all round',
          ...((form.place?.opening ?? []) as { name?: string }[]).flatMap((o) => (o.name ? [o.name] : [])),
          ...(form.sky ? ['sky'] : []),
          ...HOURS,
        ]),
        text('height', size('2 m', '6 ft 6 in')),
        text('metered', 'towards the camera', ['towards the camera', 'towards the light']),
        text('colour', '2700 K', ['2700 K', '3000 K', '4000 K', '5600 K', '6500 K']),
        text('duv', 'Duv +0.006'),
        text('illuminant', 'FL2', v?.illuminants),
      ];
    case 'zone':
      return [
        text('name', 'sky'),
        text('normal_at', 'f/4 1/200 ISO 100'),
        text('reading', 'EV 11.6'),
        text('colour', '9000 K'),
      ];
    case 'later':
      return [text('name', '15 minutes later'), text('ambient', '1 stop down')];
    case 'sky':
      return [
        text('latitude', '52.10 N'),
        text('longitude', '5.12 E'),
        text('date', '2026-09-12'),
        text('time', '19:20'),
        text('zone', 'Europe/Amsterdam'),
        text('camera_looks', 'SW', ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW']),
        text('weather', 'clear', v?.weathers),
        { key: 'ground', kind: 'surface', hint: 'grass' },
      ];
    case 'flash':
      return [
        text('name', 'the flash'),
        text('kind', 'medium', v?.flash_kinds),
        {
          key: 'guide_numbers',
          kind: 'list',
          hint: size('GN 36 m at zoom 50 (measured)', 'GN 118 ft at zoom 50 (measured)'),
        },
        text('total_light', '700 m2 sr'),
        text('colour', '5600 K'),
        text('least_power', '1/128', ['1/64', '1/128', '1/256']),
        text('recycle', '2.6 s'),
        yes('dome'),
        yes('bounce_card'),
        text('umbrella', '1.7 stops'),
        text('softbox', '2 stops'),
      ];
    case 'bagBoard':
      return [
        text('name', 'white board'),
        text('size', size('0.7 x 1.0 m', '2 x 3 ft')),
        { key: 'surface', kind: 'surface', hint: 'white card' },
      ];
    case 'hands':
      return [yes('assistant'), { key: 'helpers', kind: 'number', hint: '0' }, yes('stand')];
  }
}

/** A value as it stands in a field. */
export function fieldText(value: Value | undefined): string {
  if (value === undefined || value === null) return '';
  if (typeof value === 'object' && !Array.isArray(value)) {
    if ('from_left' in value) return `${value.from_left} / ${value.from_behind} / ${value.height}`;
    const reflects = value.rgb ?? value.reflectance ?? value.loss;
    return [value.name, Array.isArray(reflects) ? reflects.join(' ') : reflects, value.size]
      .filter((v) => v !== undefined)
      .join(', ');
  }
  return Array.isArray(value) ? value.map(fieldText).join(', ') : String(value);
}

/** What was typed into a field as a value of the shoot file; null for nothing. Undefined when it cannot be one. */
export function fieldValue(field: Field, typed: string): Value | null | undefined {
  const value = typed.trim();
  if (value === '') return null;
  if (field.kind === 'number') {
    const n = Number(value.replace(',', '.'));
    return Number.isFinite(n) ? n : undefined;
  }
  if (field.kind === 'list') return value.split(/\s*,\s*/).filter(Boolean);
  // A reflectance by its number.
  if (field.kind === 'surface' && /^0?[.,]\d+$/.test(value)) {
    return { name: `reflects ${value.replace(',', '.')}`, reflectance: Number(value.replace(',', '.')) };
  }
  return value;
}

/** How much of the light a surface sends back, as far as the page knows. */
export function reflectanceOf(value: Value | undefined, v: Vocabulary | null): number | null {
  if (typeof value === 'string') {
    // "grey carpet" is "carpet grey", as the file takes it.
    const plain = (s: string) =>
      s
        .toLowerCase()
        .split(/[-_\s]+/)
        .filter(Boolean)
        .sort()
        .join(' ');
    return v?.surfaces.find((s) => plain(s.name) === plain(value))?.reflectance ?? null;
  }
  if (value && typeof value === 'object' && !Array.isArray(value)) {
    if (typeof value.reflectance === 'number') return value.reflectance;
    if (Array.isArray(value.rgb)) {
      const rgb = value.rgb as number[];
      return rgb.reduce((sum, n) => sum + n, 0) / Math.max(rgb.length, 1);
    }
  }
  return null;
}
