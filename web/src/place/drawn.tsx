// How a place is drawn from above: its floor with the names of the walls, and the things in it. Shared by all drawings.
import { useSignal } from '@preact/signals';
import type { RefObject } from 'preact';
import { useLayoutEffect } from 'preact/hooks';
import type { Geometry } from '../api-types.ts';
import { words } from '../strings/index.ts';
import type { Side, Thing } from './plan.ts';

/** Metres that a pixel of the screen shows of a drawing with a view box of this size; 0 until it has been measured. */
export function useMetresPerPixel(svg: RefObject<SVGSVGElement | null>, width: number, height: number): number {
  const measured = useSignal(0);
  useLayoutEffect(() => {
    const node = svg.current;
    if (!node) return;
    const measure = () => {
      const box = node.getBoundingClientRect();
      if (box.width && box.height) measured.value = Math.max(width / box.width, height / box.height);
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(node);
    return () => watch.disconnect();
  }, [width, height]);
  return measured.value;
}

/** Space around a plan for the names of its walls, in metres. */
export const aroundOf = (g: Geometry) => Math.max(g.room.width, g.room.length) * 0.075 + 0.25;

/** The floor with its grid, and the walls by name; sides without a wall are broken lines. */
export function Floor({ of: g, margin, open }: { of: Geometry; margin: number; open: Side[] }) {
  const S = words.value;
  const { width: W, length: L } = g.room;
  const name = (side: Side, wall: string | undefined) => (open.includes(side) ? S.openSides[side] : wall);
  const edges: [Side, string][] = [
    ['left', `M0 0V${L}`],
    ['right', `M${W} 0V${L}`],
    ['behind camera', `M0 ${L}H${W}`],
    ['behind sitter', `M0 0H${W}`],
  ];
  return (
    <>
      <rect x={0} y={0} width={W} height={L} class="plan-room" />
      <Grid width={W} length={L} step={g.feet ? 0.3048 * 3 : 1} />
      {edges.map(([side, path]) => (
        <path d={path} class={open.includes(side) ? 'plan-edge open' : 'plan-edge'} />
      ))}
      <text x={W / 2} y={-margin * 0.45} class="plan-wall">
        {name('behind sitter', S.field.behind_sitter)}
      </text>
      <text x={W / 2} y={L + margin * 0.72} class="plan-wall">
        {name('behind camera', S.field.behind_camera)}
      </text>
      <text transform={`translate(${-margin * 0.5} ${L / 2}) rotate(-90)`} class="plan-wall">
        {name('left', S.field.left)}
      </text>
      <text transform={`translate(${W + margin * 0.5} ${L / 2}) rotate(90)`} class="plan-wall">
        {name('right', S.field.right)}
      </text>
    </>
  );
}

/** More sitters than this get numbers, since their names would cover one another. */
const NAMED = 3;
export const numberOf = (g: Geometry, thing: Thing) =>
  thing.what === 'sitter' && g.sitters.length > NAMED ? Number(thing.id.slice(7)) + 1 : undefined;

/** Whose number is whose. */
export function Numbers({ of: g }: { of: Geometry }) {
  return g.sitters.length > NAMED ? (
    <ol class="plan-numbers" lang="en">
      {g.sitters.map((s) => (
        <li>{s.name}</li>
      ))}
    </ol>
  ) : null;
}

function Grid({ width, length, step }: { width: number; length: number; step: number }) {
  const lines: string[] = [];
  for (let x = step; x < width; x += step) lines.push(`M${x} 0V${length}`);
  for (let y = step; y < length; y += step) lines.push(`M0 ${length - y}H${width}`);
  return <path d={lines.join('')} class="plan-grid" />;
}

/** A thing of the plan, drawn where it stands; `unit` is the size of its signs. */
export function Shape({
  thing,
  up,
  unit,
  facing,
  number,
}: {
  thing: Thing;
  up: (y: number) => number;
  unit: number;
  facing?: number;
  /** Stands for the name of a sitter among many. */
  number?: number;
}) {
  const { x } = thing;
  const y = up(thing.y);
  // Camera and flash are named by this page, everything else in the shoot file.
  const tongue = thing.what === 'camera' || thing.what === 'flash' ? undefined : 'en';
  const name = (dx: number, dy: number, anchor: 'start' | 'middle' | 'end' = 'middle') => (
    <text x={x + dx} y={y + dy} text-anchor={anchor} class="plan-name" lang={tongue}>
      {thing.name}
    </text>
  );
  switch (thing.what) {
    case 'furniture': {
      // A name that is longer than the piece is wide runs along it, where it is longer that way.
      const long = thing.name.length * unit * 1.5 > thing.width && thing.depth > thing.width;
      const middle = { x: x + thing.width / 2, y: y - thing.depth / 2 };
      return (
        <>
          <rect x={x} y={y - thing.depth} width={thing.width} height={thing.depth} class="solid" />
          <text
            transform={`translate(${middle.x} ${middle.y})${long ? ' rotate(-90)' : ''}`}
            y={unit}
            text-anchor="middle"
            class="plan-name small"
            lang="en"
          >
            {thing.name}
          </text>
        </>
      );
    }
    case 'opening': {
      const along = thing.wall === 'left' || thing.wall === 'right';
      const t = unit * 2.4;
      return (
        <>
          <rect
            x={along ? x - t / 2 : x - thing.width / 2}
            y={along ? y - thing.width / 2 : y - t / 2}
            width={along ? t : thing.width}
            height={along ? thing.width : t}
            class="gap"
          />
          {name(
            thing.wall === 'left' ? unit * 2.5 : thing.wall === 'right' ? -unit * 2.5 : 0,
            thing.wall === 'behind camera' ? -unit * 2.4 : thing.wall === 'behind sitter' ? unit * 5 : unit,
            thing.wall === 'left' ? 'start' : thing.wall === 'right' ? 'end' : 'middle',
          )}
        </>
      );
    }
    case 'board':
      return (
        <>
          <circle cx={x} cy={y} r={Math.max(thing.width / 2, unit * 2)} class="reach" />
          <path d={`M${x - thing.width / 2} ${y}H${x + thing.width / 2}`} class="leaf" />
          {name(0, unit * 5)}
        </>
      );
    case 'lamp':
      return (
        <>
          <circle cx={x} cy={y} r={unit * 2.6} class="lamp" />
          <path
            d={`M${x - unit * 1.8} ${y - unit * 1.8}l${unit * 3.6} ${unit * 3.6}m0 ${-unit * 3.6}l${-unit * 3.6} ${unit * 3.6}`}
            class="lamp"
          />
          {name(0, unit * 6)}
        </>
      );
    case 'flash':
      return (
        <>
          <path
            d={`M${x} ${y - unit * 2.6}l${unit * 2.6} ${unit * 2.6}l${-unit * 2.6} ${unit * 2.6}l${-unit * 2.6} ${-unit * 2.6}z`}
            class="flash"
          />
          {name(0, unit * 6)}
        </>
      );
    case 'camera':
      return (
        <>
          <circle cx={x} cy={y} r={unit * 4} class="grip" />
          <rect x={x - unit * 2.6} y={y - unit * 1.2} width={unit * 5.2} height={unit * 3.6} class="solid-light" />
          <rect x={x - unit * 1.1} y={y - unit * 2.8} width={unit * 2.2} height={unit * 2} class="solid-light" />
          {name(0, unit * 6.4)}
        </>
      );
    case 'sitter': {
      // The nose shows which way they look: 0 at the wall behind the camera, positive to the camera's right.
      const turn = -Math.round(facing ?? 0);
      return (
        <>
          <circle cx={x} cy={y} r={unit * 4} class="grip" />
          <g transform={`translate(${x} ${y}) rotate(${turn})`}>
            <ellipse cx="0" cy="0" rx={unit * 3.6} ry={unit * 1.9} class="shoulders" />
            <circle cx="0" cy="0" r={unit * 1.9} class="solid-light" />
            <path d={`M${-unit} ${unit * 1.5}L0 ${unit * 3.2}L${unit} ${unit * 1.5}Z`} class="solid-light" />
          </g>
          {number === undefined ? (
            name(0, -unit * 4.6)
          ) : (
            <text x={x} y={y + unit * 0.95} text-anchor="middle" class="plan-number">
              {number}
            </text>
          )}
        </>
      );
    }
  }
}
