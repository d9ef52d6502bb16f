// Tilting the head on a section through the place: the upright plane in which the beam lies now.
import { useRef } from 'preact/hooks';
import type { Geometry, HeldBoard } from '../api-types.ts';
import { useMetresPerPixel } from '../place/drawn.tsx';
import { type Side as Face, openingPlace } from '../place/plan.ts';
import { words } from '../strings/index.ts';
import { cut, fan, level, metAt, type Point, type Stand, type Turned, tiltTo } from './beam.ts';
import { Handle, pathOf, Turner } from './Turner.tsx';

/** What stands no further from the plane than this is drawn in it, in metres: about as wide as a person. */
const NEAR = 0.45;
/** How much is shown behind the flash, in metres. */
const BEHIND = 0.8;

export function Side(props: {
  place: Geometry;
  /** Sides without a wall. */
  open: Face[];
  stand: Stand;
  turned: Turned;
  /** Half the height of the beam. */
  half: number;
  end: Point;
  /** How far the beam goes at most. */
  most: number;
  held: HeldBoard | null;
  /** A length in words. */
  say: (metres: number) => string;
  text: string;
  heard: string;
  help: string;
  tilt: (elevation: number) => void;
}) {
  const S = words.value;
  const { place: g, stand, turned, half, end } = props;
  const { width: W, length: L, height: H } = g.room;
  const { flash } = stand;
  const svg = useRef<SVGSVGElement>(null);
  const way = level(stand, turned.azimuth);

  // The scale is that of the longest way there is in this place, so that nothing jumps while the head turns.
  const corners = [0, W].flatMap((x) => [0, L].map((y) => Math.hypot(x - flash.x, y - flash.y)));
  const longest = Math.min(Math.max(...corners), 7 * H);
  const side = (longest + BEHIND) * 0.11 + 0.1;
  const rim = H * 0.13 + 0.2;
  const box = { x: -BEHIND - 0.1, y: -rim, width: longest + BEHIND + side + 0.1, height: H + 2 * rim };
  const pixel = useMetresPerPixel(svg, box.width, box.height);
  const unit = pixel * 3.9 || H / 40;

  const [back, front] = cut(flash, way, { x: 0, y: 0, width: W, depth: L }) ?? [0, longest];
  const [left, right] = [Math.max(back, -BEHIND), Math.min(front, longest)];
  const up = (z: number) => H - z;
  const along = (x: number, y: number) => (x - flash.x) * way.x + (y - flash.y) * way.y;
  const off = (x: number, y: number) => Math.abs((x - flash.x) * way.y - (y - flash.y) * way.x);
  const near = (p: { x: number; y: number }, within = NEAR) =>
    off(p.x, p.y) < within && along(p.x, p.y) > left && along(p.x, p.y) < right;
  const at = (p: Point) => ({
    x: Math.min(Math.max(along(p.x, p.y), left), right),
    y: up(Math.min(Math.max(p.z, 0), H)),
  });
  const from = { x: 0, y: up(flash.z) };
  const tip = at(end);
  const rays = fan(g, stand, turned, half, 'upright', props.most).map(at);
  const wall = metAt(g, {
    x: flash.x + way.x * front,
    y: flash.y + way.y * front,
    z: H / 2,
  });
  const wallOpen = wall.is === 'side' && props.open.includes(wall.side);
  const skyOpen = props.open.includes('ceiling');
  // Close to the flash there is no room for two names below the floor line.
  const narrow = right - left < unit * 32;
  const wallMet = !wallOpen && tip.x > right - 0.01 && tip.y > 0.02 && tip.y < H - 0.02;
  const held = props.held?.centre_m;
  return (
    <Turner
      svg={svg}
      kind="side"
      name={S.aim.tilt}
      box={box}
      fontSize={unit * 3.2}
      value={turned.elevation}
      min={-90}
      max={90}
      text={props.text}
      heard={props.heard}
      help={props.help}
      valueAt={(x, y) => tiltTo(stand, x, up(y))}
      set={props.tilt}
    >
      <path d={`M${left} 0H${right}V${H}H${left}Z`} class="section-air" />
      {g.furniture.map((f) => {
        const through = cut(flash, way, f);
        const [a, b] = through ? [Math.max(through[0], left), Math.min(through[1], right)] : [0, 0];
        return b - a > 0.02 ? (
          <g class="thing furniture">
            <rect x={a} y={up(f.z + f.height)} width={b - a} height={f.height} class="solid" />
            {b - a > f.name.length * unit * 1.4 ? (
              <text
                x={(a + b) / 2}
                y={up(f.z + f.height / 2) + unit}
                text-anchor="middle"
                class="plan-name small"
                lang="en"
              >
                {f.name}
              </text>
            ) : null}
          </g>
        ) : null;
      })}
      <path d={`${pathOf([from, ...rays])}Z`} class="beam-wedge" />
      <path d={`M${left} 0H${right}`} class={skyOpen ? 'section-edge open' : 'section-edge'} />
      <path d={`M${left} ${H}H${right}`} class="section-edge" />
      {back > -BEHIND ? <path d={`M${left} 0V${H}`} class="section-edge" /> : null}
      {front <= longest ? (
        <path d={`M${right} 0V${H}`} class={wallOpen ? 'section-edge open' : 'section-edge'} />
      ) : null}
      {g.openings.map((o) => {
        const p = openingPlace(g, o.wall, o.from_left_end, o.width);
        const hit = { x: flash.x + way.x * front, y: flash.y + way.y * front };
        return p && front <= longest && Math.hypot(p.x - hit.x, p.y - hit.y) < o.width / 2 ? (
          <g class="thing opening">
            <rect
              x={right - unit * 0.9}
              y={up(o.from_floor + o.height)}
              width={unit * 1.8}
              height={o.height}
              class="gap"
            />
          </g>
        ) : null;
      })}
      {g.boards
        .filter((b) => near(b, b.width / 2))
        .map((b) => (
          <g class="thing board">
            <path
              d={`M${along(b.x, b.y)} ${up(b.z - b.height / 2)}V${up(Math.min(b.z + b.height / 2, H))}`}
              class="leaf"
            />
          </g>
        ))}
      {held?.from_left != null && held.from_behind != null && held.height !== null ? (
        near({ x: held.from_left, y: held.from_behind }) ? (
          <g class="thing board">
            <path d={`M${along(held.from_left, held.from_behind)} ${up(held.height) - 0.35}v0.7`} class="leaf" />
            <text
              x={along(held.from_left, held.from_behind)}
              y={up(held.height) + 0.35 + unit * 3.4}
              text-anchor="middle"
              class="plan-name"
              lang="en"
            >
              {props.held?.name}
            </text>
          </g>
        ) : null
      ) : null}
      {g.sitters
        .filter((s) => near(s))
        .map((s) => (
          <Bust
            name={s.name}
            x={along(s.x, s.y)}
            eyes={up(s.face_height)}
            floor={H}
            looks={Math.sin((s.facing_deg * Math.PI) / 180) * way.x - Math.cos((s.facing_deg * Math.PI) / 180) * way.y}
            unit={unit}
          />
        ))}
      {near(g.camera) ? (
        <g class="thing camera">
          <rect
            x={along(g.camera.x, g.camera.y) - unit * 2.2}
            y={up(g.camera.z) - unit * 1.5}
            width={unit * 4.4}
            height={unit * 3}
            class="solid-light"
          />
          <text
            x={along(g.camera.x, g.camera.y)}
            y={Math.max(up(g.camera.z), up(flash.z)) + unit * 5.4}
            text-anchor="middle"
            class="plan-name"
          >
            {S.place.camera}
          </text>
        </g>
      ) : null}
      <path d={pathOf([from, tip])} class="beam-middle" />
      <g class="thing flash">
        <path
          d={`M0 ${from.y - unit * 2.4}l${unit * 2.4} ${unit * 2.4}l${-unit * 2.4} ${unit * 2.4}l${-unit * 2.4} ${-unit * 2.4}z`}
          class="flash"
        />
        <text x={0} y={from.y - unit * 3.6} text-anchor="middle" class="plan-name">
          {S.place.flash}
        </text>
      </g>
      <Handle {...tip} unit={unit} />
      <text x={left} y={-unit * 1.6} class="section-name">
        {skyOpen ? S.openSides.ceiling : `${S.field.ceiling} ${props.say(H)}`}
      </text>
      <text x={left} y={H + unit * 4} class="section-name">
        {S.field.floor}
      </text>
      {wall.is === 'side' && front <= longest ? (
        <text
          x={narrow ? right + unit * 1.6 : right}
          y={narrow ? H - unit : H + unit * 4}
          text-anchor={narrow ? 'start' : 'end'}
          class="section-name"
        >
          {wallOpen ? S.openSides[wall.side] : S.surfaces[wall.side]}
        </text>
      ) : null}
      {wallMet ? (
        <text x={right + unit * 3.6} y={tip.y + unit} class="section-height">
          {props.say(end.z)}
        </text>
      ) : null}
    </Turner>
  );
}

/** Head and shoulders from the side; the nose shows which way they look. */
function Bust(props: { name: string; x: number; eyes: number; floor: number; looks: number; unit: number }) {
  const { x, eyes, unit } = props;
  const nose = props.looks * 0.16;
  return (
    <g class="thing sitter">
      <path
        d={`M${x - 0.2} ${props.floor}V${Math.min(eyes + 0.38, props.floor)}Q${x - 0.18} ${eyes + 0.22} ${x} ${eyes + 0.2}Q${x + 0.18} ${eyes + 0.22} ${x + 0.2} ${Math.min(eyes + 0.38, props.floor)}V${props.floor}Z`}
        class="shoulders"
      />
      <path d={`M${x} ${eyes - 0.05}L${x + nose} ${eyes + 0.02}L${x} ${eyes + 0.07}Z`} class="solid-light" />
      <ellipse cx={x} cy={eyes} rx={0.09} ry={0.12} class="solid-light" />
      <text x={x} y={eyes - 0.12 - unit * 1.4} text-anchor="middle" class="plan-name" lang="en">
        {props.name}
      </text>
    </g>
  );
}
