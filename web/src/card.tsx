// The card, on paper and on the phone; and opening this page to a phone.
import { useSignal } from '@preact/signals';
import { useEffect, useLayoutEffect, useRef } from 'preact/hooks';
import type { Answer, LightChanged as Changed } from './api-types.ts';
import { figure } from './notation.ts';
import { adoptDrawing, Dialog, Progress, Trouble } from './parts.tsx';
import { api, spoken } from './server.ts';
import { about, answer, ask, asking, goToSetUp, name, setUp, trying, understood } from './shoot.ts';
import { language, words } from './strings/index.ts';

export function CardPage() {
  const S = words.value;
  const now = answer.value;
  const card = (as: 'html' | 'pdf') => spoken(`/api/answers/${now?.id}/card.${as}`);
  return (
    <div class="two card-page">
      <section class="sheet" aria-labelledby="card-title">
        <h2 id="card-title">{S.card.title}</h2>
        <p class="soft">{S.card.lead}</p>
        {now ? (
          <>
            <p class="buttons">
              <a class="button" href="#/lines">
                {S.card.bigLines}
              </a>
              <a class="button quiet" href={card('html')} target="_blank" rel="noreferrer">
                {S.card.open}
              </a>
              <a class="button quiet" href={card('pdf')} target="_blank" rel="noreferrer">
                {S.card.pdf}
              </a>
            </p>
            <CardFrame key={card('html')} src={card('html')} />
          </>
        ) : (
          <p>{S.card.none}</p>
        )}
      </section>
      <OnThePhone />
    </div>
  );
}

/** The card as it will be; until it is there, that it is being made. */
function CardFrame({ src }: { src: string }) {
  const S = words.value;
  const there = useSignal(false);
  return (
    <>
      {there.value ? null : <Progress job={null} say={S.card.making} />}
      <iframe
        class={there.value ? 'card-frame' : 'card-frame waiting'}
        allow="screen-wake-lock *"
        title={S.card.frame}
        src={src}
        onLoad={() => (there.value = true)}
      />
    </>
  );
}

function OnThePhone() {
  const S = words.value;
  const opened = useSignal<{ url: string; qr: string; minutes: number } | null>(null);
  const qr = useRef<HTMLDivElement>(null);
  const refresh = () => trying(async () => void (about.value = await api.about()));
  useEffect(() => {
    void refresh();
    // How many phones are paired changes while the code is shown.
    const timer = setInterval(() => void (document.visibilityState === 'visible' && refresh()), 4000);
    return () => clearInterval(timer);
  }, []);
  useLayoutEffect(() => {
    if (!opened.value || !qr.current) return;
    const code = adoptDrawing(opened.value.qr);
    if (!code) return;
    code.setAttribute('role', 'img');
    code.setAttribute('aria-label', S.phone.qr);
    qr.current.replaceChildren(code);
  }, [opened.value]);
  const phone = about.value?.phone;
  const open = () => trying(async () => void ((opened.value = await api.openPhone()), await refresh()));
  return (
    <section class="sheet" aria-labelledby="phone-title">
      <h2 id="phone-title">{S.phone.title}</h2>
      <p>{S.phone.lead}</p>
      {about.value?.you === 'phone' ? (
        <p>{S.phone.onlyHere}</p>
      ) : (
        <>
          <p class="soft">{S.phone.opens}</p>
          {opened.value ? (
            <div class="pairing">
              <div class="qr" ref={qr} />
              <div>
                <p>{S.phone.scan}</p>
                <p>
                  <code>{opened.value.url}</code>
                </p>
                <p class="soft">{S.phone.minutes(opened.value.minutes)}</p>
              </div>
            </div>
          ) : null}
          <p aria-live="polite" data-paired>
            {phone?.open ? S.phone.paired(phone.paired) : S.phone.isShut}
          </p>
          <p class="buttons">
            <button type="button" onClick={() => void open()}>
              {opened.value || phone?.open ? S.phone.again : S.phone.open}
            </button>
            {phone?.open || opened.value ? (
              <button
                type="button"
                class="quiet"
                onClick={() =>
                  void trying(async () => {
                    await api.shutPhone();
                    opened.value = null;
                    await refresh();
                  })
                }
              >
                {S.phone.shut}
              </button>
            ) : null}
          </p>
        </>
      )}
    </section>
  );
}

/** A line of the answer with its figures large and its words smaller, so that both can be read at arm's length. */
export function LargeLine({ text, kind }: { text: string; kind: string }) {
  return (
    <p class={`large-line ${kind}`}>
      {text.split(' · ').map((part, i) => (
        <>
          {i ? ' ' : ''}
          <span class="large-part">
            {part
              .split(/(\d[\d.,/]*(?: \+0\.[37])?|f\/[\d.]+|[←→↑↓↖↗↘↙])/)
              .map((piece) => (/^(?:f\/)?\d|^[←→↑↓↖↗↘↙]$/.test(piece) ? <b>{piece}</b> : piece))}
          </span>
        </>
      ))}
    </p>
  );
}

/** Three lines for a phone in sunlight, held in one hand. */
export function LargeLines() {
  const S = words.value;
  const now = answer.value;
  const read = understood.value;
  const changing = useSignal(false);
  const changed = useSignal<(Changed & { of: string; stops: number }) | null>(null);
  const box = useRef<HTMLDivElement>(null);
  const count = read?.set_ups.length ?? 1;
  const at = setUp.value;
  const shown = changed.value && changed.value.of === now?.id ? changed.value : null;
  const change = (id: string, stops: number) =>
    trying(async () => void (changed.value = { of: id, stops, ...(await api.lightChanged(id, stops)) }));
  useEffect(() => {
    if (shown) void change(shown.of, shown.stops);
  }, [language.value]);
  // The words give way, not the figures, until everything stands on the screen at once.
  useLayoutEffect(() => {
    const fitted = () => {
      const el = box.current;
      if (!el) return;
      let size = 6.4;
      el.style.setProperty('--words', `${size}mm`);
      while (size > 3.4 && el.scrollHeight > el.clientHeight + 1) {
        size -= 0.3;
        el.style.setProperty('--words', `${size}mm`);
      }
    };
    fitted();
    void document.fonts?.ready.then(fitted);
    window.addEventListener('resize', fitted);
    return () => window.removeEventListener('resize', fitted);
  });
  const name_ = read?.set_ups[at]?.name ?? name.value;
  return (
    <main id="main" class="large-page">
      <header class="large-head">
        <h1>{name_}</h1>
        <a href="#/">{S.card.leave}</a>
      </header>
      <div class="large-box" ref={box} aria-live="polite" data-answer={now?.id}>
        {now && asking.value.is !== 'working' ? (
          <Lines3 of={now} changed={shown} />
        ) : asking.value.is === 'failed' ? (
          <Trouble error={asking.value.error} again={() => void ask(true)} />
        ) : (
          <Progress job={asking.value.is === 'working' ? asking.value.job : null} say={S.answer.working} />
        )}
      </div>
      <nav class="large-nav" aria-label={S.card.setUps}>
        <button type="button" disabled={at <= 0} onClick={() => void goToSetUp(at - 1)} aria-label={S.head.before}>
          ← {S.card.before}
        </button>
        <button type="button" class="light-changed" disabled={!now} onClick={() => (changing.value = true)}>
          {S.card.changed}
        </button>
        <button
          type="button"
          disabled={at >= count - 1}
          onClick={() => void goToSetUp(at + 1)}
          aria-label={S.head.next}
        >
          {S.card.next} →
        </button>
      </nav>
      {changing.value && now ? (
        <LightChanged
          from={shown?.stops ?? 0}
          close={() => (changing.value = false)}
          back={
            shown
              ? () => {
                  changed.value = null;
                  changing.value = false;
                }
              : undefined
          }
          take={(stops) => {
            changing.value = false;
            void change(now.id, stops);
          }}
        />
      ) : null}
    </main>
  );
}

function Lines3({ of, changed }: { of: Answer; changed: (Changed & { stops: number }) | null }) {
  const S = words.value;
  const { lines } = of.report.told;
  return (
    <>
      {changed ? (
        <p class="large-note" data-changed>
          {changed.possible ? S.card.now : S.card.cannot} {offsetWords(changed.stops)}
          {changed.words ? ` · ${changed.words}` : null}
        </p>
      ) : null}
      <LargeLine kind="camera" text={changed?.camera ?? lines.camera} />
      <LargeLine kind="flash" text={changed?.flash ?? lines.flash} />
      <LargeLine kind="aim" text={lines.aim} />
    </>
  );
}

const thirds = (n: number) => Math.round(n * 3) / 3;
function offsetWords(stops: number): string {
  const S = words.value;
  const n = S.stops(Math.round(Math.abs(stops) * 10) / 10);
  return Math.abs(stops) < 0.05 ? S.card.same : stops < 0 ? S.card.darker(n) : S.card.brighter(n);
}

/** "The light has changed": one number. */
function LightChanged(props: {
  from: number;
  close: () => void;
  take: (stops: number) => void;
  back?: (() => void) | undefined;
}) {
  const S = words.value;
  const stops = useSignal(props.from);
  const to = (n: number) => {
    stops.value = thirds(Math.min(Math.max(n, -8), 8));
  };
  return (
    <Dialog title={S.card.changedTitle} close={props.close}>
      <form
        class="light-form"
        onSubmit={(e) => {
          e.preventDefault();
          props.take(stops.value);
        }}
      >
        <div class="light-number">
          <button type="button" aria-label={S.card.lessStop} onClick={() => to(stops.value - 1 / 3)}>
            −
          </button>
          <label>
            <span class="unseen">{S.card.number}</span>
            <input
              inputMode="decimal"
              value={figure(stops.value, words.value)}
              onChange={(e) => {
                const n = Number(e.currentTarget.value.replace('−', '-').replace(',', '.'));
                if (Number.isFinite(n)) stops.value = Math.min(Math.max(n, -8), 8);
              }}
            />
          </label>
          <button type="button" aria-label={S.card.moreStop} onClick={() => to(stops.value + 1 / 3)}>
            +
          </button>
        </div>
        <p class="light-word" aria-live="polite">
          {offsetWords(stops.value)}
        </p>
        <p class="soft">{S.card.changedHint}</p>
        <p class="buttons">
          <button type="submit">{S.card.use}</button>
          {props.back ? (
            <button type="button" class="quiet" onClick={props.back}>
              {S.card.original}
            </button>
          ) : null}
        </p>
      </form>
    </Dialog>
  );
}
