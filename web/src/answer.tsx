// The answer: three large lines and two drawings; below it what is short, what differs, and other ways.
import { useSignal } from '@preact/signals';
import type { Answer, CameraSet, FlashSet } from './api-types.ts';
import { differences } from './compare.ts';
import { plain } from './notation.ts';
import { Dialog, Drawing, Fold, Progress, Trouble } from './parts.tsx';
import {
  answer,
  arrivals,
  ask,
  asking,
  fresh,
  goToSetUp,
  pinned,
  replaceText,
  setUp,
  stopAnswer,
  text,
  understood,
} from './shoot.ts';
import { words } from './strings/index.ts';
import { cameraLine, flashLine, spokenAim, spokenWay, thirdLine } from './strings/spoken.ts';
import { Said, Term, Told } from './term.tsx';

/** Whether less than a third of a stop is in hand. */
const nearTheEnd = (flash: FlashSet) => flash.in_hand_stops !== null && flash.in_hand_stops < 0.3;

/** A line that breaks only between its parts, never within "4900 K". */
function Parts({ of }: { of: string }) {
  const parts = of.split(' · ');
  return (
    <>
      {parts.map((part, i) => (
        <>
          <span class="whole-part">{i < parts.length - 1 ? `${part} ·` : part}</span>{' '}
        </>
      ))}
    </>
  );
}

/** The three lines of an answer. */
export function Lines({ of }: { of: Answer }) {
  const S = words.value;
  const { lines } = of;
  const { flash } = of.report;
  const camera = cameraLine(lines.camera, S);
  const set = flashLine(lines.flash, S);
  const aim = thirdLine(of, S);
  return (
    <dl class="lines">
      <div>
        <dt>{S.answer.camera}</dt>
        <dd lang={camera.lang}>
          <Parts of={camera.text} />
        </dd>
      </div>
      <div>
        <dt>{S.answer.flash}</dt>
        <dd>
          <span lang={set.lang}>
            <Parts of={set.text} />
          </span>
          {nearTheEnd(flash) ? <span class="warn"> ▲ {S.answer.littleInHand}</span> : null}
        </dd>
      </div>
      <div class="where">
        <dt>{S.answer.aim}</dt>
        <dd lang={aim.lang}>{aim.text}</dd>
      </div>
    </dl>
  );
}

export function AnswerPart() {
  const S = words.value;
  const state = asking.value;
  const now = answer.value;
  const read = understood.value;
  const large = useSignal(false);
  return (
    <section class="answer" aria-labelledby="answer-title">
      <h2 id="answer-title" class="unseen">
        {S.answer.title}
      </h2>
      <p class="unseen" aria-live="polite" data-voice>
        {state.is === 'working' ? S.answer.working : ''}
        {state.is === 'done' && now && arrivals.value
          ? `${S.answer.arrived} ${cameraLine(now.lines.camera, S).text}. ${flashLine(now.lines.flash, S).text}. ${thirdLine(now, S).text}`
          : ''}
      </p>
      {read && !read.ok ? (
        <div class="trouble" role="alert">
          <p>
            <strong>{S.answer.notOk}</strong>
          </p>
          <p lang="en">
            {read.problems[0]?.message} {read.problems[0]?.remedy}
          </p>
          <p>
            <a href="#/file">{S.answer.toFile} →</a>
          </p>
        </div>
      ) : null}
      {state.is === 'working' ? (
        <div class="working">
          <Progress job={state.job} say={S.answer.working} />
          <button type="button" class="quiet" onClick={stopAnswer}>
            {S.answer.stop}
          </button>
        </div>
      ) : null}
      {state.is === 'stopped' ? (
        <div class="working">
          <p>{S.answer.stopped}</p>
          <button type="button" onClick={() => void ask(true)}>
            {S.answer.again}
          </button>
        </div>
      ) : null}
      {state.is === 'failed' ? <Trouble error={state.error} again={() => void ask(true)} /> : null}
      {now ? (
        <div class={fresh.value ? 'now' : 'now old'} data-answer={now.id} data-fresh={fresh.value}>
          {fresh.value ? null : <p class="old-note">{S.answer.old}</p>}
          <Lines of={now} />
          <p class="about">
            <Said part="about">{now.lines.about}</Said>
          </p>
          {now.report.cautions.length ? (
            <div class="cautions">
              <h3>▲ {S.answer.cautions}</h3>
              <ul>
                {now.report.cautions.map((caution) => (
                  <li>
                    <Told part="cautions">{caution}</Told>
                  </li>
                ))}
              </ul>
            </div>
          ) : null}
          <Shortfall of={now} />
          <div class="drawings">
            {(['above', 'side'] as const).map((view) => (
              <figure class={`view ${view}`}>
                <Drawing svg={now.drawing} view={view} label={view === 'above' ? S.answer.above : S.answer.side} />
              </figure>
            ))}
            <button type="button" class="quiet enlarge" onClick={() => (large.value = true)}>
              {S.answer.enlarge}
            </button>
          </div>
          {large.value ? (
            <Dialog title={`${S.answer.above}, ${S.answer.side}`} wide close={() => (large.value = false)}>
              <Drawing svg={now.drawing} />
            </Dialog>
          ) : null}
        </div>
      ) : null}
    </section>
  );
}

function Shortfall({ of }: { of: Answer }) {
  const S = words.value;
  const short = of.report.shortfall;
  if (!short) return null;
  const changes = of.changes?.length ? of.changes : short.changes.map((c) => ({ ...c, text: null }));
  return (
    <div class="short" data-short>
      <h3>{S.short.title}</h3>
      <p class="short-words">
        <Said part="short">{short.words}</Said>
      </p>
      {changes.length ? (
        <>
          <h4>{S.short.changes}</h4>
          <ol class="changes">
            {changes.map((change) => (
              <li>
                <p class="change-what">
                  <Told part="what">{change.what}</Told>
                </p>
                <p>
                  <span class="soft">{S.short.cost}:</span> <Told part="cost">{change.cost}</Told>
                </p>
                <p>
                  <span class="soft">{S.short.then}:</span> <Told part="then">{change.then}</Told>
                </p>
                {change.text === null ? (
                  <p class="soft">{S.short.byHand}</p>
                ) : (
                  <button type="button" onClick={() => void replaceText(change.text as string)}>
                    {S.short.take}
                  </button>
                )}
              </li>
            ))}
          </ol>
        </>
      ) : null}
      {short.tried.length ? (
        <>
          <h4>{S.short.tried}</h4>
          <ul>
            {short.tried.map((one) => (
              <li>
                <Told part="what">{one}</Told>
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </div>
  );
}

const cameraSet = (c: CameraSet) =>
  [c.aperture, c.shutter, `ISO ${c.iso ?? '–'}`, `${c.white_balance_k ?? '–'} K`].join(' · ');

/** Pinning, two answers side by side, and the other ways that the answer itself names. */
export function Compare() {
  const S = words.value;
  const now = answer.value;
  const held = pinned.value;
  if (!now) return null;
  const other = held && held.answer.id !== now.id ? differences(held.answer.report, now.report, S) : [];
  return (
    <section class="compare" aria-labelledby="compare-title">
      <h2 id="compare-title" class={held ? '' : 'unseen'}>
        {S.compare.title}
      </h2>
      {held ? (
        <>
          {held.answer.id === now.id ? (
            <p>{S.compare.pinned}</p>
          ) : (
            <>
              <div class="pair">
                <div>
                  <h3>{S.compare.a}</h3>
                  <Lines of={held.answer} />
                </div>
                <div>
                  <h3>{S.compare.b}</h3>
                  <Lines of={now} />
                </div>
              </div>
              <h3>{S.compare.differences}</h3>
              {other.length ? (
                <ul class="differences">
                  {other.map((d) => (
                    <li>{d.words}</li>
                  ))}
                </ul>
              ) : (
                <p>{S.compare.same}</p>
              )}
            </>
          )}
          <p class="buttons">
            {held.answer.id === now.id ? null : (
              <button
                type="button"
                onClick={() => {
                  const back = held;
                  void replaceText(back.text, back.setUp);
                }}
              >
                {S.compare.back}
              </button>
            )}
            <button type="button" class="quiet" onClick={() => (pinned.value = null)}>
              {S.compare.unpin}
            </button>
          </p>
        </>
      ) : (
        <p class="buttons">
          <button
            type="button"
            onClick={() => (pinned.value = { answer: now, text: text.value, setUp: setUp.value })}
            disabled={!fresh.value}
          >
            {S.compare.pin}
          </button>
        </p>
      )}
    </section>
  );
}

export function Alternatives() {
  const S = words.value;
  const now = answer.value;
  if (!now) return null;
  const all = now.report.alternatives;
  return (
    <Fold title={S.compare.alternatives} name="alternatives" aside={plain(all.length, 0)}>
      {all.length === 0 ? <p>{S.compare.noAlternatives}</p> : null}
      <ol class="others">
        {all.map((other) => {
          const way = spokenWay(other.name, other.chosen, S);
          const aim = spokenAim(now, other.chosen, other.chosen.words, S);
          return (
            <li>
              <h4 lang={way.lang}>{way.text}</h4>
              <p>
                <span lang="en">{cameraSet(other.camera)}</span>
                <br />
                {other.flash.power} · zoom {other.flash.zoom_mm} · {plain(other.flash.in_hand_stops ?? 0, 1, S.decimal)}{' '}
                <Term k="in_hand">{S.compare.inHand}</Term>
                <br />
                <span lang={aim.lang}>{aim.text}</span>
              </p>
              <p>
                <span class="soft">{S.compare.prefer}:</span> <Said part="prefer">{other.prefer}</Said>
              </p>
            </li>
          );
        })}
      </ol>
    </Fold>
  );
}

export { goToSetUp };
