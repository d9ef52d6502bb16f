// The shoots there are: open, begin, rename, duplicate, remove, bring back, and every earlier version.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Kind, Listed } from './api-types.ts';
import { StartOwn } from './begin.tsx';
import { whenWords } from './notation.ts';
import { api } from './server.ts';
import { doc, open, rename, saveNow, trying } from './shoot.ts';
import { words } from './strings/index.ts';

const HOME = '#/';

function Row({ kind, of, again }: { kind: Kind; of: Listed; again: () => Promise<unknown> }) {
  const S = words.value;
  const renaming = useSignal(false);
  const history = useSignal<Listed[] | null>(null);
  const isOpen = kind === 'shoots' && doc.value?.id === of.id;
  const act = (what: () => Promise<unknown>) =>
    void trying(async () => {
      await what();
      await again();
    });
  return (
    <li class={of.removed ? 'row removed' : 'row'} data-name={of.name}>
      <div class="row-head">
        <h3>
          {of.name} {isOpen ? <small>● {S.shoots.openIs}</small> : null}
          {of.removed ? <small>{S.shoots.wasRemoved}</small> : null}
        </h3>
        <p class="soft">
          {S.shoots.version(of.version)} · {whenWords(of.saved_at, S)}
        </p>
      </div>
      <p class="buttons">
        {of.removed ? (
          <button
            type="button"
            onClick={() =>
              act(async () => {
                const versions = await api.versions(kind, of.id);
                const last = versions.filter((v) => !v.removed).reduce((n, v) => Math.max(n, v.version), 0);
                await api.restore(kind, of.id, last, of.version);
              })
            }
            aria-label={`${S.shoots.restore}: ${of.name}`}
          >
            {S.shoots.restore}
          </button>
        ) : (
          <>
            {kind === 'shoots' ? (
              <button
                type="button"
                aria-label={`${S.shoots.open}: ${of.name}`}
                onClick={() =>
                  void trying(async () => {
                    await open(of.id);
                    location.hash = HOME;
                  })
                }
              >
                {S.shoots.open}
              </button>
            ) : null}
            <button
              type="button"
              class="quiet"
              aria-label={`${S.shoots.rename}: ${of.name}`}
              onClick={() => (renaming.value = true)}
            >
              {S.shoots.rename}
            </button>
            {kind === 'shoots' ? (
              <button
                type="button"
                class="quiet"
                aria-label={`${S.shoots.duplicate}: ${of.name}`}
                onClick={() =>
                  act(async () => {
                    await saveNow();
                    const read = await api.read(kind, of.id);
                    await api.create(kind, S.shoots.copyOf(of.name), read.text);
                  })
                }
              >
                {S.shoots.duplicate}
              </button>
            ) : null}
            <button
              type="button"
              class="quiet"
              aria-expanded={history.value !== null}
              aria-label={`${S.shoots.history}: ${of.name}`}
              onClick={() => {
                if (history.value) history.value = null;
                else void trying(async () => void (history.value = await api.versions(kind, of.id)));
              }}
            >
              {S.shoots.history}
            </button>
            <button
              type="button"
              class="quiet"
              aria-label={`${S.shoots.remove}: ${of.name}`}
              onClick={() => act(() => api.remove(kind, of.id, of.version))}
            >
              {S.shoots.remove}
            </button>
          </>
        )}
      </p>
      {renaming.value ? (
        <form
          class="keep-form"
          onSubmit={(e) => {
            e.preventDefault();
            const name = String(new FormData(e.currentTarget).get('name') ?? '').trim();
            renaming.value = false;
            if (!name || name === of.name) return;
            act(async () => {
              if (isOpen) {
                rename(name);
                await saveNow();
              } else {
                const read = await api.read(kind, of.id);
                await api.save(kind, of.id, name, read.text, read.version);
              }
            });
          }}
        >
          <label>
            {S.shoots.renameTo}
            <input name="name" defaultValue={of.name} autocomplete="off" />
          </label>
          <button type="submit">{S.shoots.ok}</button>
          <button type="button" class="quiet" onClick={() => (renaming.value = false)}>
            {S.shoots.cancel}
          </button>
        </form>
      ) : null}
      {history.value ? (
        <ol class="versions">
          {[...history.value]
            .sort((a, b) => b.version - a.version)
            .map((v, i) => (
              <li>
                <span>
                  {S.shoots.version(v.version)} · {whenWords(v.saved_at, S)} {v.name === of.name ? '' : `· ${v.name}`}{' '}
                  {v.removed ? `· ${S.shoots.wasRemoved}` : ''}
                </span>
                {i === 0 ? (
                  <small class="soft">{S.shoots.latest}</small>
                ) : v.removed ? null : (
                  <button
                    type="button"
                    class="quiet"
                    aria-label={`${S.shoots.bringBack}: ${v.version}`}
                    onClick={() =>
                      act(async () => {
                        await saveNow();
                        const newest = await api.read(kind, of.id);
                        await api.restore(kind, of.id, v.version, newest.version);
                        history.value = await api.versions(kind, of.id);
                        if (isOpen) await open(of.id);
                      })
                    }
                  >
                    {S.shoots.bringBack}
                  </button>
                )}
              </li>
            ))}
        </ol>
      ) : null}
    </li>
  );
}

export function Shoots() {
  const S = words.value;
  const all = useSignal<Record<Kind, Listed[]>>({ shoots: [], bags: [], places: [] });
  const removed = useSignal(false);
  const told = useSignal<{ taken: number; refused: { file: string; why: string }[] } | null>(null);
  const list = () =>
    trying(async () => {
      const both = async (kind: Kind) => [
        ...(await api.list(kind)).filter((one) => !one.removed),
        ...(removed.value ? await api.listRemoved(kind) : []),
      ];
      const [shoots, bags, places] = await Promise.all([both('shoots'), both('bags'), both('places')]);
      all.value = { shoots, bags, places };
    });
  useEffect(() => {
    void list();
  }, [removed.value, doc.value?.version]);
  return (
    <section class="sheet one" aria-labelledby="shoots-title">
      <h2 id="shoots-title">{S.shoots.title}</h2>
      <p class="soft">{S.shoots.lead}</p>
      <div class="buttons">
        <StartOwn />
        <label class="file">
          {S.shoots.importFile}
          <input
            type="file"
            accept=".toml,.zip"
            onChange={(e) => {
              const file = e.currentTarget.files?.[0];
              e.currentTarget.value = '';
              if (file)
                void trying(async () => {
                  const result = await api.importFile(file);
                  told.value = { taken: result.taken.length, refused: result.refused };
                  await list();
                });
            }}
          />
        </label>
        <a class="button quiet" href="/api/export" download="rushlight.zip">
          {S.shoots.exportAll}
        </a>
      </div>
      <div aria-live="polite">
        {told.value ? (
          <>
            <p>{S.shoots.taken(told.value.taken)}</p>
            {told.value.refused.length ? (
              <ul>
                {told.value.refused.map((one) => (
                  <li>
                    {S.shoots.refused}: {one.file}. {one.why}
                  </li>
                ))}
              </ul>
            ) : null}
          </>
        ) : null}
      </div>
      {all.value.shoots.length === 0 ? <p>{S.shoots.empty}</p> : null}
      <ul class="rows" data-list="shoots">
        {all.value.shoots.map((one) => (
          <Row key={one.id} kind="shoots" of={one} again={list} />
        ))}
      </ul>
      {(['bags', 'places'] as const).map((kind) =>
        all.value[kind].length ? (
          <>
            <h2>{S.shoots[kind]}</h2>
            <ul class="rows" data-list={kind}>
              {all.value[kind].map((one) => (
                <Row key={one.id} kind={kind} of={one} again={list} />
              ))}
            </ul>
          </>
        ) : null,
      )}
      <label class="tick">
        <input type="checkbox" checked={removed.value} onChange={(e) => (removed.value = e.currentTarget.checked)} />
        {S.shoots.showRemoved}
      </label>
    </section>
  );
}
