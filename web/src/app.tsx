// The page: a header with the set-ups, and one part of the shoot at a time.
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { AnswerPart, Compare } from './answer.tsx';
import { Ask } from './ask/Ask.tsx';
import { Bag } from './bag.tsx';
import { StartOwn } from './begin.tsx';
import { CardPage, LargeLines } from './card.tsx';
import { Conflict } from './conflict.tsx';
import { ShootFile } from './file.tsx';
import { fileName } from './notation.ts';
import { Progress, Trouble } from './parts.tsx';
import { NotPaired, Pairing, PhoneHome, secretIn } from './phone.tsx';
import { Place } from './place/Place.tsx';
import { Proof } from './proof/Proof.tsx';
import { Reasons } from './reasons.tsx';
import {
  about,
  canRedo,
  canUndo,
  doc,
  download,
  goToSetUp,
  name,
  redo,
  rename,
  saveNow,
  saving,
  setUp,
  start,
  text,
  trouble,
  understood,
  undo,
} from './shoot.ts';
import { Shoots } from './shoots.tsx';
import { language, speak, words } from './strings/index.ts';
import { TermShown } from './term.tsx';

const VIEWS = ['answer', 'place', 'bag', 'file', 'card', 'shoots', 'lines', 'phone'] as const;
type View = (typeof VIEWS)[number];

const viewIn = (hash: string): View => {
  const named = hash.replace(/^#\/?/, '');
  return VIEWS.find((view) => view === named) ?? 'answer';
};
const view = signal<View>(viewIn(location.hash));
const secret = signal(secretIn(location.hash));

export function App() {
  const S = words.value;
  useEffect(() => {
    document.documentElement.lang = language.value;
    const moved = () => {
      const next = secretIn(location.hash);
      secret.value = next;
      if (next) return;
      const to = viewIn(location.hash);
      if (to !== view.value) window.scrollTo(0, 0);
      view.value = to;
    };
    const keys = (e: KeyboardEvent) => {
      if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
      const key = e.key.toLowerCase();
      // A field that is being typed in keeps its own undo.
      const typing =
        e.target instanceof HTMLTextAreaElement || (e.target instanceof HTMLInputElement && e.target.type === 'text');
      if (typing) return;
      if (key === 'z' || key === 'y') {
        e.preventDefault();
        void (key === 'y' || e.shiftKey ? redo() : undo());
      }
    };
    const leaving = (e: BeforeUnloadEvent) => {
      if (saving.value.is === 'saved') return;
      void saveNow();
      e.preventDefault();
    };
    window.addEventListener('hashchange', moved);
    window.addEventListener('keydown', keys);
    window.addEventListener('beforeunload', leaving);
    if (!secret.value) {
      void start().then(() => {
        if (about.value?.you === 'phone' && location.hash.length < 3) location.hash = '#/phone';
      });
    }
    return () => {
      window.removeEventListener('hashchange', moved);
      window.removeEventListener('keydown', keys);
      window.removeEventListener('beforeunload', leaving);
    };
  }, []);
  useEffect(() => {
    document.title = name.value ? `${name.value} – Rushlight` : 'Rushlight';
  }, [name.value]);

  if (secret.value) return <Pairing secret={secret.value} />;
  if (trouble.value?.code === 'not_paired') return <NotPaired />;
  if (view.value === 'lines')
    return (
      <>
        <LargeLines />
        <TermShown />
      </>
    );
  if (view.value === 'phone') return <PhoneHome />;
  return (
    <>
      <a class="skip" href="#main" onClick={(e) => (e.preventDefault(), document.getElementById('main')?.focus())}>
        {S.head.skip}
      </a>
      <Header />
      <main id="main" tabIndex={-1} class={`view-${view.value}`}>
        {trouble.value ? (
          <div class="over">
            <Trouble
              error={trouble.value}
              again={doc.value ? undefined : () => void start()}
              close={() => (trouble.value = null)}
            />
          </div>
        ) : null}
        {!understood.value && view.value !== 'shoots' && !trouble.value ? (
          <div class="sheet one">
            <Progress job={null} say={S.reasons.loading} />
          </div>
        ) : null}
        {view.value === 'answer' && understood.value ? (
          <div class="conversation">
            <div class="sheet talk">
              <Ask aside={<StartOwn quiet />} />
              <AnswerPart />
            </div>
            <div class="beside">
              <Proof />
            </div>
            <div class="sheet below">
              <Compare />
              <Reasons />
            </div>
          </div>
        ) : null}
        {view.value === 'place' ? <Place /> : null}
        {view.value === 'bag' ? <Bag /> : null}
        {view.value === 'file' && understood.value ? <ShootFile key={doc.value?.id} /> : null}
        {view.value === 'card' ? <CardPage /> : null}
        {view.value === 'shoots' ? <Shoots /> : null}
      </main>
      <Conflict />
      <TermShown />
    </>
  );
}

function Header() {
  const S = words.value;
  const read = understood.value;
  const setUps = read?.set_ups ?? [];
  const at = setUp.value;
  return (
    <header class="head">
      <div class="head-top">
        {doc.value ? (
          <h1 class="shoot-name">
            <input
              key={`${doc.value.id}${name.value}`}
              aria-label={S.head.rename}
              defaultValue={name.value}
              style={{ width: `calc(${Math.max(name.value.length * 0.94, 6)}ch + 1.7em)` }}
              onChange={(e) => {
                if (e.currentTarget.value.trim()) rename(e.currentTarget.value);
                else e.currentTarget.value = name.value;
              }}
              onKeyDown={(e) => {
                if (e.key === 'Enter') e.currentTarget.blur();
              }}
            />
          </h1>
        ) : (
          <h1 class="shoot-name">Rushlight</h1>
        )}
        <Saved />
      </div>
      <nav class="parts" aria-label={S.nav.label}>
        <ul>
          {(['answer', 'place', 'bag', 'file', 'card', 'shoots'] as const).map((to) => (
            <li>
              <a href={to === 'answer' ? '#/' : `#/${to}`} aria-current={view.value === to ? 'page' : undefined}>
                {S.nav[to]}
                {to === 'file' && read && !read.ok ? <span class="flag-bad"> ▲</span> : null}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <span class="head-tools">
        <Tool name={S.head.undo} sign="M4 8h8a4 4 0 0 1 0 8H7M4 8l4-4M4 8l4 4" off={!canUndo.value} act={undo} />
        <Tool name={S.head.redo} sign="M16 8H8a4 4 0 0 0 0 8h5M16 8l-4-4M16 8l-4 4" off={!canRedo.value} act={redo} />
        <button
          type="button"
          class="quiet"
          lang={language.value === 'en' ? 'de' : 'en'}
          aria-label={`${language.value === 'en' ? 'DE' : 'EN'} ${S.otherName}`}
          onClick={() => speak(language.value === 'en' ? 'de' : 'en')}
        >
          <span aria-hidden="true">{language.value === 'en' ? 'DE' : 'EN'}</span>
        </button>
      </span>
      {setUps.length > 1 ? (
        <nav class="set-ups" aria-label={S.head.setUps}>
          <ol>
            {setUps.map((one, i) => (
              <li>
                <button type="button" aria-current={i === at ? 'step' : undefined} onClick={() => void goToSetUp(i)}>
                  <span class="set-up-number">{i + 1}</span> {one.name}
                </button>
              </li>
            ))}
          </ol>
          <span class="set-up-steps">
            <button
              type="button"
              class="quiet"
              disabled={at <= 0}
              aria-label={S.head.before}
              onClick={() => void goToSetUp(at - 1)}
            >
              ←
            </button>
            <span>
              <span class="soft">
                {at + 1}/{setUps.length}
              </span>{' '}
              {setUps[at]?.name}
            </span>
            <button
              type="button"
              class="quiet"
              disabled={at >= setUps.length - 1}
              aria-label={S.head.next}
              onClick={() => void goToSetUp(at + 1)}
            >
              →
            </button>
          </span>
        </nav>
      ) : null}
    </header>
  );
}

/** A tool of the header: its name where there is room, its sign on a phone. */
function Tool(props: { name: string; sign: string; off: boolean; act: () => unknown }) {
  return (
    <button
      type="button"
      class="quiet"
      disabled={props.off}
      aria-label={props.name}
      title={props.name}
      onClick={() => void props.act()}
    >
      <svg class="tool-sign" viewBox="0 0 20 20" aria-hidden="true">
        <path d={props.sign} />
      </svg>
    </button>
  );
}

function Saved() {
  const S = words.value;
  const state = saving.value;
  if (!doc.value) return null;
  const keep = () => download(new Blob([text.value], { type: 'application/toml' }), `${fileName(name.value)}.toml`);
  return (
    <span class={`saved ${state.is}`} role="status" data-saving={state.is}>
      {state.is === 'failed' ? (
        <>
          <strong>▲ {S.saved.failed}</strong> {state.error.message || S.error.unreachable} {S.saved.failedLong}{' '}
          <button type="button" class="quiet" onClick={() => void saveNow()}>
            {S.saved.again}
          </button>{' '}
          <button type="button" class="quiet" onClick={keep}>
            {S.saved.download}
          </button>
        </>
      ) : state.is === 'conflict' ? (
        <>
          <strong>▲ {S.conflict.notSaved}</strong>{' '}
          <button type="button" class="quiet" onClick={() => (saving.value = { ...state, later: false })}>
            {S.conflict.decide}
          </button>
        </>
      ) : (
        S.saved[state.is]
      )}
    </span>
  );
}
