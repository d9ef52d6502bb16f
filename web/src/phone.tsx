// On the phone: pairing by the secret in the address, then the list of shoots and the three lines.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Listed } from './api-types.ts';
import { whenWords } from './notation.ts';
import { Trouble } from './parts.tsx';
import { type ApiError, api } from './server.ts';
import { asError, doc, goToSetUp, open, start, trying, understood } from './shoot.ts';
import { words } from './strings/index.ts';

/** The one-time secret that the code on the computer's screen carries. */
export const secretIn = (hash: string) => /^#pair=([\w-]+)$/.exec(hash)?.[1] ?? null;

export function Pairing({ secret }: { secret: string }) {
  const S = words.value;
  const error = useSignal<ApiError | null>(null);
  useEffect(() => {
    // The secret leaves the address and the history of the browser before anything else happens.
    history.replaceState(null, '', `${location.pathname}${location.search}#/phone`);
    api
      .pair(secret)
      .then(() => start())
      .then(() => window.dispatchEvent(new HashChangeEvent('hashchange')))
      .catch((e: unknown) => {
        error.value = asError(e);
      });
  }, [secret]);
  return (
    <main id="main" class="sheet one">
      <h1>Rushlight</h1>
      {error.value ? (
        <>
          <Trouble error={error.value} />
          <p>{S.phone.pairFailed}</p>
          <p>{S.phone.pairFailedHint}</p>
        </>
      ) : (
        <p aria-live="polite">{S.phone.pairing} …</p>
      )}
    </main>
  );
}

export function NotPaired() {
  const S = words.value;
  return (
    <main id="main" class="sheet one">
      <h1>Rushlight</h1>
      <p>
        <strong>{S.phone.notPaired}</strong>
      </p>
      <p>{S.phone.notPairedHint}</p>
    </main>
  );
}

/** What a phone shows first: the shoots, and the set-ups of the one that is open; a touch leads to the lines. */
export function PhoneHome() {
  const S = words.value;
  const shoots = useSignal<Listed[]>([]);
  useEffect(() => {
    void trying(async () => void (shoots.value = await api.list('shoots')));
  }, []);
  const setUps = understood.value?.set_ups ?? [];
  return (
    <main id="main" class="sheet one phone-home">
      <h1>Rushlight</h1>
      {doc.value ? (
        <>
          <h2>{doc.value.name}</h2>
          <ol class="touch-list">
            {setUps.map((one, i) => (
              <li>
                <button
                  type="button"
                  onClick={() => {
                    void goToSetUp(i);
                    location.hash = '#/lines';
                  }}
                >
                  <span class="touch-number">{i + 1}</span> {one.name}
                </button>
              </li>
            ))}
          </ol>
        </>
      ) : null}
      <h2>{S.card.shoots}</h2>
      <ul class="touch-list">
        {shoots.value.map((one) => (
          <li>
            <button
              type="button"
              aria-current={one.id === doc.value?.id}
              onClick={() => void trying(() => open(one.id))}
            >
              {one.name} <small class="soft">{whenWords(one.saved_at, S)}</small>
            </button>
          </li>
        ))}
      </ul>
      <p>
        <a href="#/card">{S.card.title} →</a>
      </p>
      <p>
        <a href="#/">{S.card.leave} →</a>
      </p>
    </main>
  );
}
