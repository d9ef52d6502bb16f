// The reasons: each a section that opens. The figures are the engine's; here they are only laid out.
import { useSignal } from '@preact/signals';
import { Alternatives } from './answer.tsx';
import type { RoomMap } from './api-types.ts';
import { lengthWords, miredWords, offset, plain } from './notation.ts';
import { Drawing, Fold } from './parts.tsx';
import { api } from './server.ts';
import { answer, trying } from './shoot.ts';
import { words } from './strings/index.ts';
import { spokenWay } from './strings/spoken.ts';
import { Said, Term, Told, Words } from './term.tsx';

/** A figure as the language of the page writes it. */
const figure = (n: number, decimals = 1) => plain(n, decimals, words.value.decimal);

export function Reasons() {
  const S = words.value;
  const now = answer.value;
  const map = useSignal<{ id: string; map: RoomMap } | null>(null);
  if (!now) return null;
  const r = now.report;
  const R = S.reasons;
  const reach = Math.max(...r.chart.map((line) => Math.abs(line.stops ?? 0)), 1);
  const missed = r.limits.filter((limit) => !limit.met).length;
  return (
    <section class="reasons" aria-labelledby="reasons-title">
      <h2 id="reasons-title">{R.title}</h2>

      <Fold title={R.chart} name="chart" open>
        <p class="soft">{R.chartLead}</p>
        <table class="chart">
          <caption class="unseen">{R.chart}</caption>
          <tbody>
            {r.chart.map((line) => (
              <tr class={line.kind}>
                <th scope="row">
                  <Told part="chart">{line.label}</Told>
                </th>
                <td class="number">
                  {line.stops === null ? '–' : `${line.stops < 0 ? '−' : '+'}${figure(Math.abs(line.stops))}`}
                </td>
                <td class="word">
                  {line.kind === 'start'
                    ? R.start
                    : line.kind === 'result'
                      ? R.result
                      : (line.stops ?? 0) < 0
                        ? R.darker
                        : R.brighter}
                </td>
                <td class="bar" aria-hidden="true">
                  <i style={{ width: `${(Math.abs(line.stops ?? 0) / reach) * 100}%` }} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Fold>

      <Fold title={R.asked} name="asked" aside={missed ? `✕ ${missed}` : `✓ ${r.limits.length}`} open={missed > 0}>
        <div class="scroll" tabIndex={0} role="group" aria-label={R.asked}>
          <table class="figures">
            <thead>
              <tr>
                <th scope="col">{R.table.asked}</th>
                <th scope="col">{R.table.get}</th>
                <th scope="col">{R.table.met}</th>
              </tr>
            </thead>
            <tbody>
              {r.limits.map((limit) => (
                <tr>
                  <th scope="row">
                    <Said part="asked" most={1}>
                      {limit.asked}
                    </Said>
                  </th>
                  <td>{found(limit.kind, limit.found)}</td>
                  <td>{limit.met ? `✓ ${R.table.yes}` : `✕ ${R.table.no(found(limit.kind, limit.short))}`}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
        {r.evenness ? (
          <p>{R.evenness(r.evenness.brightest, r.evenness.darkest, figure(r.evenness.spread_stops ?? 0))}</p>
        ) : null}
        {r.evenness ? (
          <ul class="plain-list">
            {r.evenness.each.map((one) => (
              <li>
                <span lang="en">{one.name}</span>: {offset(one.stops, S)}
              </li>
            ))}
          </ul>
        ) : null}
      </Fold>

      <Fold
        title={R.map}
        name="map"
        onOpen={() => {
          if (map.value?.id !== now.id)
            void trying(async () => void (map.value = { id: now.id, map: await api.map(now.id) }));
        }}
      >
        <p class="soft">{R.mapLead}</p>
        {map.value?.id === now.id ? (
          <div class="room-map">
            <Drawing svg={map.value.map.svg} label={R.map} />
          </div>
        ) : (
          <p>{R.loading} …</p>
        )}
      </Fold>

      <Fold title={R.surfaces} name="surfaces" aside={String(r.surfaces.length)}>
        <ol class="others">
          {r.surfaces.map((s) => {
            const way = spokenWay(s.name, s, S);
            return (
              <li class={s.verdict}>
                <h4>
                  <span class="sign" aria-hidden="true">
                    {s.verdict === 'chosen' ? '●' : s.verdict === 'possible' ? '○' : s.verdict === 'poor' ? '∕' : '✕'}
                  </span>{' '}
                  <span lang={way.lang}>{way.text}</span> <small>{R.verdict[s.verdict]}</small>
                </h4>
                <p>
                  <Said part="why">{s.why}</Said>
                </p>
              </li>
            );
          })}
        </ol>
      </Fold>

      <Alternatives />

      <Fold title={R.colour} name="colour">
        <p>
          {r.colour.gel ? (
            R.gelIs(
              r.colour.gel.name,
              r.colour.gel.shift_mired === null ? '–' : figure(r.colour.gel.shift_mired, 0),
              figure(r.colour.gel.loss_stops ?? 0),
            )
          ) : (
            <>{R.gelNone}</>
          )}
        </p>
        {r.colour.told.map((one) => (
          <p>
            <Said part="mixed">{one}</Said>
          </p>
        ))}
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">{R.table.part}</th>
              <th scope="col">{R.table.against}</th>
            </tr>
          </thead>
          <tbody>
            {r.colour.zones.map((zone) => (
              <tr>
                <th scope="row">
                  <Told part="zone">{zone.name}</Told>
                </th>
                <td>
                  {miredWords(zone.mired, S)}
                  {zone.duv !== null && Math.abs(zone.duv) >= 0.002
                    ? `, ${zone.duv > 0 ? R.green : R.magenta} (Duv ${zone.duv > 0 ? '+' : '−'}${Math.abs(zone.duv).toFixed(3).replace('.', S.decimal)})`
                    : ''}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">{R.table.light}</th>
              <th scope="col">{R.table.kelvin}</th>
              <th scope="col">{R.table.share}</th>
            </tr>
          </thead>
          <tbody>
            {r.colour.sources.map((source) => (
              <tr>
                <th scope="row">
                  <Told part="zone">{source.name}</Told>
                </th>
                <td>{source.temperature_k === null ? '–' : `${Math.round(source.temperature_k / 100) * 100} K`}</td>
                <td>{source.share === null ? '–' : `${figure(source.share * 100, 0)} %`}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Fold>

      <Fold title={R.energy} name="energy">
        <p>
          <Words>{R.inHand(S.stops(Math.round((r.flash.in_hand_stops ?? 0) * 10) / 10), r.flash.power)}</Words>
        </p>
        {r.balance.flash_percent !== null && r.balance.ambient_percent !== null ? (
          <p>{R.share(figure(r.balance.flash_percent, 0), figure(r.balance.ambient_percent, 0))}</p>
        ) : null}
        {r.balance.depth_of_field_m !== null ? (
          <p>{R.sharp(lengthWords(r.balance.depth_of_field_m, now.feet).replace('.', S.decimal))}</p>
        ) : null}
        <h4>{R.controls}</h4>
        <div class="scroll" tabIndex={0} role="group" aria-label={R.controls}>
          <table class="figures">
            <thead>
              <tr>
                <th scope="col">{R.table.step}</th>
                <th scope="col">{R.table.flash}</th>
                <th scope="col">{R.table.ambient}</th>
                <th scope="col">{R.table.face}</th>
              </tr>
            </thead>
            <tbody>
              {r.balance.controls.map((control) => (
                <tr>
                  <th scope="row">
                    <Told part="control">{`${control.name}, ${control.step}`}</Told>
                  </th>
                  <td>{offset(control.flash_stops, S)}</td>
                  <td>{offset(control.ambient_stops, S)}</td>
                  <td>{offset(control.face_stops, S)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
        {r.balance.reach.length ? (
          <ul class="plain-list">
            {r.balance.reach.map((one) => (
              <li>
                <Told part="control">{one.name}</Told>:{' '}
                {one.distance_m === null ? '–' : lengthWords(one.distance_m, now.feet).replace('.', S.decimal)}
              </li>
            ))}
          </ul>
        ) : null}
      </Fold>

      {r.balance.zones.length ? (
        <Fold title={R.zones} name="zones">
          <ul class="plain-list">
            {r.balance.zones.map((zone) => (
              <li>
                <span lang="en">{zone.name}</span>: {offset(zone.level_stops, S)}
                {zone.wish_stops === null ? '' : ` (${R.table.asked}: ${offset(zone.wish_stops, S)})`}
              </li>
            ))}
          </ul>
        </Fold>
      ) : null}

      {r.balance.later.length ? (
        <Fold title={R.later} name="later">
          <ul class="others">
            {r.balance.later.map((one) => (
              <li>
                <h4>
                  <span lang="en">{one.name}</span> <small>{R.change(offset(one.change_stops, S))}</small>
                </h4>
                <p>
                  <Told part="later">{one.then.words}</Told>: {one.then.camera.aperture} · {one.then.camera.shutter} ·
                  ISO {one.then.camera.iso} · {one.then.power}
                </p>
                {one.instead ? (
                  <p>
                    {R.instead}: <Told part="later">{one.instead.words}</Told>
                  </p>
                ) : null}
              </li>
            ))}
          </ul>
        </Fold>
      ) : null}

      <Fold
        title={R.unsure}
        name="unsure"
        aside={r.uncertainty.within_stops === null ? '' : `± ${figure(r.uncertainty.within_stops)}`}
      >
        <p>
          <Words>{R.within(figure(r.uncertainty.within_stops ?? 0))}</Words>
        </p>
        <table class="chart unsure">
          <tbody>
            {r.uncertainty.parts.map((part) => (
              <tr>
                <th scope="row">
                  <Told part="input">{part.input}</Told>
                  <small>
                    <Told part="spread">{part.spread}</Told>
                  </small>
                </th>
                <td class="number">± {figure(part.standard_deviation_stops ?? 0, 2)}</td>
                <td class="bar" aria-hidden="true">
                  <i
                    style={{
                      width: `${Math.min(((part.standard_deviation_stops ?? 0) / (r.uncertainty.parts[0]?.standard_deviation_stops || 1)) * 100, 100)}%`,
                    }}
                  />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Fold>

      <Fold title={R.sensitive} name="sensitive">
        <div class="scroll" tabIndex={0} role="group" aria-label={R.sensitive}>
          <table class="figures">
            <thead>
              <tr>
                <th scope="col">{R.table.what}</th>
                <th scope="col">{R.table.exposure}</th>
                <th scope="col">
                  <Term k="azimuth">{R.table.azimuth}</Term>
                </th>
                <th scope="col">
                  <Term k="elevation">{R.table.up}</Term>
                </th>
                <th scope="col">
                  <Term k="cast">{R.table.cast}</Term>
                </th>
              </tr>
            </thead>
            <tbody>
              {r.sensitivities.map((one) => (
                <tr>
                  <th scope="row">
                    <Told part="sensitive">{one.what}</Told>
                  </th>
                  <td>{offset(one.exposure_stops, S)}</td>
                  <td>{one.azimuth_deg === null ? '–' : `${figure(one.azimuth_deg, 0)}°`}</td>
                  <td>{one.elevation_deg === null ? '–' : `${figure(one.elevation_deg, 0)}°`}</td>
                  <td>{miredWords(one.cast_mired, S)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </Fold>

      <Fold
        title={R.referee}
        name="referee"
        aside={r.referee.difference_stops === null ? '' : offset(r.referee.difference_stops, S)}
      >
        <p>
          <Words>
            {R.refereeWords(offset(r.referee.difference_stops, S), figure(r.referee.standard_error_stops ?? 0, 2))}
          </Words>
        </p>
        {r.referee.azimuth_deg !== null && r.referee.elevation_deg !== null ? (
          <p>{R.refereeKey(figure(Math.abs(r.referee.azimuth_deg), 0), figure(r.referee.elevation_deg, 0))}</p>
        ) : null}
      </Fold>

      <Fold title={R.notes} name="notes" aside={String(r.notes.length)}>
        <ul class="notes">
          {r.notes.map((note) => (
            <li>
              <Said part="notes">{note}</Said>
            </li>
          ))}
        </ul>
      </Fold>

      <Fold title={S.answer.whole} name="whole">
        <pre class="whole" lang="en" tabIndex={0}>
          {now.text}
        </pre>
      </Fold>
    </section>
  );
}

/** A limit's figure with the unit that its kind has. */
function found(kind: string, value: number | null): string {
  if (value === null) return '–';
  switch (kind) {
    case 'cast':
    case 'skin_colour':
    case 'room_colour':
      return `${figure(value, 0)} ${words.value.bag.mired}`;
    case 'green_magenta':
      return `Duv ${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(3).replace('.', words.value.decimal)}`;
    case 'direction':
    case 'height':
      return `${figure(value, 0)}°`;
    case 'softness':
      return figure(value, 2);
    case 'ratio':
      return `${figure(value)}:1`;
    case 'recycle':
      return `${figure(value)} s`;
    default: {
      const S = words.value;
      return ['power', 'least_power', 'evenness'].includes(kind)
        ? S.stops(Math.round(value * 10) / 10)
        : offset(value, S);
    }
  }
}
