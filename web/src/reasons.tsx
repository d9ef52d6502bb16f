// The reasons: each a section that opens. The figures are the engine's; here they are only laid out.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { Alternatives } from './answer.tsx';
import type { RoomMap, WishState } from './api-types.ts';
import { figure as figureIn, lengthWords, miredWords, offset, signed } from './notation.ts';
import { Drawing, Fold } from './parts.tsx';
import { api } from './server.ts';
import { answer, trying } from './shoot.ts';
import { language, words } from './strings/index.ts';
import { Term, Words } from './term.tsx';

/** A figure as the language of the page writes it. */
const figure = (n: number, decimals = 1) => figureIn(n, words.value, decimals);

/** A mark before the word, so that a column is read at a glance. */
const STATE_MARKS: Record<WishState, string> = { kept: '✓', nearly: '≈', missed: '✕' };

export function Reasons() {
  const S = words.value;
  const now = answer.value;
  const map = useSignal<{ of: string; map: RoomMap } | null>(null);
  const mapOpen = useSignal(false);
  // A map belongs to an answer, and its words to a language.
  const wanted = now && mapOpen.value ? `${language.value} ${now.id}` : null;
  useEffect(() => {
    if (!now || !wanted || map.value?.of === wanted) return;
    void trying(async () => void (map.value = { of: wanted, map: await api.map(now.id) }));
  }, [wanted]);
  if (!now) return null;
  const r = now.report;
  const R = S.reasons;
  const reach = Math.max(...r.chart.map((line) => Math.abs(line.stops ?? 0)), 1);
  const { told } = r;
  const { sharp } = r.balance;
  const flash = r.balance.flash_share * 100;
  const length = (metres: number) => lengthWords(metres, now.feet, S);
  const missed = r.wishes.filter((wish) => wish.state === 'missed').length;
  return (
    <section class="reasons" aria-labelledby="reasons-title" lang={told.language}>
      <h2 id="reasons-title">{R.title}</h2>

      <Fold title={R.chart} name="chart" open>
        <p class="soft">{R.chartLead}</p>
        <table class="chart">
          <caption class="unseen">{R.chart}</caption>
          <tbody>
            {r.chart.map((line, i) => (
              <tr class={line.kind}>
                <th scope="row">{told.chart[i]}</th>
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

      <Fold title={R.asked} name="asked" aside={missed ? `✕ ${missed}` : `✓ ${r.wishes.length}`} open={missed > 0}>
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
              {r.wishes.map((wish, i) => (
                <tr>
                  <th scope="row">{told.wishes[i]?.asked}</th>
                  <td>{told.wishes[i]?.found}</td>
                  <td>
                    {STATE_MARKS[wish.state]} {told.wishes[i]?.state}
                  </td>
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

      <Fold title={R.map} name="map" onOpen={() => (mapOpen.value = true)}>
        <p class="soft">{R.mapLead}</p>
        {map.value?.of === wanted ? (
          <div class="room-map">
            <Drawing svg={map.value.map.svg} label={R.map} />
          </div>
        ) : (
          <p>{R.loading} …</p>
        )}
      </Fold>

      <Fold title={R.surfaces} name="surfaces" aside={String(r.surfaces.length)}>
        <ol class="others">
          {r.surfaces.map((s, i) => (
            <li class={s.verdict}>
              <h4>
                <span class="sign" aria-hidden="true">
                  {s.verdict === 'chosen' ? '●' : s.verdict === 'possible' ? '○' : s.verdict === 'poor' ? '∕' : '✕'}
                </span>{' '}
                {told.surfaces[i]?.name} <small>{R.verdict[s.verdict]}</small>
              </h4>
              <p>{told.surfaces[i]?.why}</p>
            </li>
          ))}
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
        <table class="figures">
          <thead>
            <tr>
              <th scope="col">{R.table.part}</th>
              <th scope="col">{R.table.against}</th>
            </tr>
          </thead>
          <tbody>
            {r.colour.zones.map((zone, i) => (
              <tr>
                <th scope="row">{told.colour.zones[i]}</th>
                <td>
                  {miredWords(zone.mired, S)}
                  {zone.duv !== null && Math.abs(zone.duv) >= 0.002
                    ? `, ${zone.duv > 0 ? R.green : R.magenta} (Duv ${signed(zone.duv, S, 3)})`
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
            {r.colour.sources.map((source, i) => (
              <tr>
                <th scope="row">{told.colour.sources[i]}</th>
                <td>{source.temperature_k === null ? '–' : `${Math.round(source.temperature_k / 100) * 100} K`}</td>
                <td>{source.share === null ? '–' : `${figure(source.share * 100, 0)} %`}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Fold>

      <Fold title={R.energy} name="energy">
        <p>
          <Words>{R.inHand(S.stops(Math.round((r.flash.in_hand_stops ?? 0) * 10) / 10), told.engraved.power)}</Words>
        </p>
        <p>{R.share(figure(flash, 0), figure(100 - flash, 0))}</p>
        {sharp ? (
          <p>
            {sharp.far_m === null ? R.sharpFrom(length(sharp.near_m)) : R.sharp(length(sharp.far_m - sharp.near_m))}
          </p>
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
              {r.balance.controls.map((control, i) => (
                <tr>
                  <th scope="row">
                    {told.controls[i]?.name}, {told.controls[i]?.step}
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
            {r.balance.reach.map((one, i) => (
              <li>
                {told.reach[i]}: {one.distance_m === null ? '–' : length(one.distance_m)}
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
            {r.balance.later.map((one, i) => (
              <li>
                <h4>
                  <span lang="en">{one.name}</span> <small>{R.change(offset(one.change_stops, S))}</small>
                </h4>
                <p>{told.later[i]?.then}</p>
                {told.later[i]?.instead ? (
                  <p>
                    {R.instead}: {told.later[i].instead}
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
            {r.uncertainty.parts.map((part, i) => (
              <tr>
                <th scope="row">
                  {told.uncertainty[i]?.input} <small>{told.uncertainty[i]?.spread}</small>
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
              {r.sensitivities.map((one, i) => (
                <tr>
                  <th scope="row">{told.sensitivities[i]}</th>
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
          <Words>{R.refereeIs}</Words>
        </p>
        <p>{told.referee}</p>
      </Fold>

      <Fold title={R.notes} name="notes" aside={String(told.notes.length)}>
        <ul class="notes">
          {told.notes.map((note) => (
            <li>{note}</li>
          ))}
        </ul>
      </Fold>

      <Fold title={S.answer.whole} name="whole">
        <pre class="whole" tabIndex={0}>
          {now.text}
        </pre>
      </Fold>
    </section>
  );
}
