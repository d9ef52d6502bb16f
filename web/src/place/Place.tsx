// Place and sitters: the plan to drag on, and every key as a field.
import { useSignal } from '@preact/signals';
import type { Listed, Value } from '../api-types.ts';
import { usePlace } from '../ask/Ask.tsx';
import { roomHint } from '../ask/sentence.ts';
import { lengthText } from '../notation.ts';
import { api } from '../server.ts';
import { edit, inFeet, makeOwn, setUp, takePart, text, trying, understood, vocabulary } from '../shoot.ts';
import { words } from '../strings/index.ts';
import { Term } from '../term.tsx';
import { FieldInput, PartFields, PartList } from './Fields.tsx';
import { FACES } from './fields.ts';
import { Plan } from './Plan.tsx';

type Table = Record<string, Value>;

/** Whether a part is this set-up's own or common to all, and the way to give it one of its own. */
export function Owner({ part }: { part: string }) {
  const S = words.value;
  const now = understood.value;
  if (!now || now.set_ups.length < 2) return null;
  const own = now.owned.includes(part);
  return (
    <p class="owner">
      <span class="soft">{own ? S.place.own : S.place.shared}</span>
      {own || !now.form[part] ? null : (
        <button type="button" class="quiet small" onClick={() => void makeOwn(part)}>
          {S.place.makeOwn}
        </button>
      )}
    </p>
  );
}

/** Keeps a part as a document of its own, and lists those that were kept. */
export function Keep(props: { kind: 'bags' | 'places'; use: (id: string) => void }) {
  const S = words.value;
  const T = props.kind === 'bags' ? S.bag : S.place;
  const kept = useSignal<Listed[] | null>(null);
  const said = useSignal('');
  const list = () => trying(async () => void (kept.value = await api.list(props.kind)));
  return (
    <details
      class="item keep"
      data-keep={props.kind}
      onToggle={(e) => {
        if ((e.currentTarget as HTMLDetailsElement).open) void list();
      }}
    >
      <summary>{T.load}</summary>
      <form
        class="keep-form"
        onSubmit={(e) => {
          e.preventDefault();
          const form = e.currentTarget;
          const name = String(new FormData(form).get('name') ?? '').trim();
          if (!name) return;
          void trying(async () => {
            const part = await api.give(text.value, setUp.value, props.kind);
            await api.create(props.kind, name, part.text);
            said.value = S.place.kept(name);
            form.reset();
            await list();
          });
        }}
      >
        <label>
          {T.keepName}
          <input name="name" required autocomplete="off" />
        </label>
        <button type="submit">{T.keep}</button>
      </form>
      <p aria-live="polite">{said.value}</p>
      {kept.value?.length === 0 ? <p class="soft">{T.noneKept}</p> : null}
      <ul class="plain-list">
        {kept.value?.map((one) => (
          <li>
            {one.name}{' '}
            <button type="button" class="quiet" onClick={() => props.use(one.id)}>
              {S.bag.use}: {one.name}
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

export function Place() {
  const S = words.value;
  const now = understood.value;
  const scanned = useSignal<{ file: File; turned: number; told: string[] } | null>(null);
  if (!now) return null;
  const form = now.form;
  const place = (form.place ?? {}) as Table;
  const g = now.geometry;
  const m = (n: number) => lengthText(n, inFeet.value);
  const middle = g
    ? { from_left: m(g.room.width / 2), from_behind: m(g.room.length / 2) }
    : { from_left: m(1.5), from_behind: m(2) };
  const list = (key: string, of: Table = form as Table) => (Array.isArray(of[key]) ? (of[key] as Table[]) : []);
  const scan = (file: File | null, turned: number) => {
    if (file)
      void trying(async () => {
        const read = await api.scan(file, turned);
        scanned.value = { file, turned, told: read.told };
        await takePart('places', read.text);
      });
  };
  return (
    <div class="two">
      <section class="sheet place-plan" aria-labelledby="plan-title">
        <h2 id="plan-title">{S.place.plan}</h2>
        {g ? <Plan geometry={g} form={form} /> : <p>{S.place.noPlan}</p>}
        <div class="scan">
          <label class="file">
            {S.place.scan}
            <input
              type="file"
              accept=".glb,.gltf,.obj"
              onChange={(e) => {
                scan(e.currentTarget.files?.[0] ?? null, 0);
                e.currentTarget.value = '';
              }}
            />
          </label>
          <p class="soft">{S.place.scanHint}</p>
          {scanned.value ? (
            <>
              <h3>{S.place.scanTold}</h3>
              {/* What a scan holds is said in English alone. */}
              <ul lang="en">
                {scanned.value.told.map((one) => (
                  <li>{one}</li>
                ))}
              </ul>
              <button
                type="button"
                class="quiet"
                onClick={() => scanned.value && scan(scanned.value.file, (scanned.value.turned + 1) % 4)}
              >
                {S.place.scanTurn}
              </button>
            </>
          ) : null}
        </div>
        <Keep kind="places" use={(id) => void usePlace(id)} />
      </section>
      <section class="sheet" aria-labelledby="place-title">
        <h2 id="place-title">{S.place.title}</h2>
        <section class="part">
          <h3>{S.place.room}</h3>
          <Owner part="place" />
          <div class="fields">
            <FieldInput
              field={{ key: 'room', kind: 'text', hint: roomHint(inFeet.value) }}
              path={['place', 'room']}
              value={place.room}
            />
          </div>
          <h4>
            <Term k="reflectance">{S.place.surfaces}</Term>
          </h4>
          <div class="fields">
            {FACES.map((face) => (
              <FieldInput
                key={face}
                field={{ key: face, kind: 'surface', hint: S.place.asWritten }}
                path={['place', face]}
                value={place[face]}
              />
            ))}
          </div>
        </section>
        <PartList
          part="sitter"
          path={['sitter']}
          all={list('sitter')}
          title={S.place.sitters}
          add={S.place.add.sitter}
          owner={<Owner part="sitter" />}
          least={1}
          fresh={() => ({ ...middle })}
        />
        <section class="part">
          <h3>{S.place.camera_}</h3>
          <Owner part="camera" />
          <PartFields part="camera" path={['camera']} value={form.camera as Table} />
        </section>
        <PartList
          part="ambient"
          path={['ambient']}
          all={list('ambient')}
          title={<Term k="ambient">{S.place.ambient}</Term>}
          add={S.place.add.ambient}
          owner={<Owner part="ambient" />}
          fresh={() => ({
            name: 'lamp',
            reading: vocabulary.value?.usual_lights.some((l) => l.name === 'living room evening')
              ? 'living room evening'
              : 'EV 5',
          })}
        />
        <PartList
          part="opening"
          path={['place', 'opening']}
          all={list('opening', place)}
          title={S.place.openings}
          add={S.place.add.opening}
          fresh={() => ({
            name: 'window',
            wall: 'left',
            from_left_end: m(1),
            from_floor: m(0.9),
            size: inFeet.value ? '4 ft x 4 ft' : '1.2 x 1.2 m',
            kind: 'window',
          })}
        />
        <PartList
          part="furniture"
          path={['place', 'furniture']}
          all={list('furniture', place)}
          title={S.place.furniture}
          add={S.place.add.furniture}
          fresh={() => ({
            name: 'cupboard',
            size: inFeet.value ? '3 ft x 2 ft x 6 ft' : '1.0 x 0.5 x 1.8 m',
            from_left: m(0),
            from_behind: m(0),
          })}
        />
        <PartList
          part="board"
          path={['place', 'board']}
          all={list('board', place)}
          title={<Term k="vflat">{S.place.boards}</Term>}
          add={S.place.add.board}
          fresh={() => ({
            name: 'board',
            size: inFeet.value ? '3 ft x 6 ft' : '1.0 x 2.0 m',
            ...middle,
            surface: 'white card',
          })}
        />
        <PartList
          part="zone"
          path={['zone']}
          all={list('zone')}
          title={<Term k="zone">{S.place.zones}</Term>}
          add={S.place.add.zone}
          fresh={() => ({ name: 'sky', reading: 'EV 12' })}
        />
        <PartList
          part="later"
          path={['later']}
          all={list('later')}
          title={S.place.later}
          add={S.place.add.later}
          fresh={() => ({ name: '15 minutes later', ambient: '1 stop down' })}
        />
        <section class="part">
          <h3>{S.place.sky}</h3>
          {form.sky ? (
            <>
              <PartFields part="sky" path={['sky']} value={form.sky as Table} />
              <button type="button" class="quiet" onClick={() => void edit([{ path: ['sky'], value: null }])}>
                {S.place.remove(S.place.sky)}
              </button>
            </>
          ) : (
            <button
              type="button"
              class="quiet add"
              onClick={() =>
                void edit([
                  {
                    path: ['sky'],
                    value: {
                      latitude: '52.0 N',
                      longitude: '5.0 E',
                      date: new Date().toISOString().slice(0, 10),
                      time: '12:00',
                      camera_looks: 'N',
                      weather: 'clear',
                    },
                  },
                ])
              }
            >
              + {S.place.add.sky}
            </button>
          )}
        </section>
      </section>
    </div>
  );
}
