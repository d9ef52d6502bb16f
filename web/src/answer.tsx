// The answer: three large lines and two drawings; below it what is short, what differs, and other ways.
import { useSignal } from '@preact/signals';
import type { Answer, FlashSet } from './api-types.ts';
import { differences } from './compare.ts';
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
  const { flash, told } = of.report;
  const { lines } = told;
  return (
    <dl class="lines" lang={told.language}>
      <div>
        <dt>{S.answer.camera}</dt>
        <dd>
          <Parts of={lines.camera} />
        </dd>
      </div>
      <div>
        <dt>{S.answer.flash}</dt>
        <dd>
          <Parts of={lines.flash} />
          {nearTheEnd(flash) ? <span class="warn"> ▲ {S.answer.littleInHand}</span> : null}
        </dd>
      </div>
      <div class="where">
        <dt>{S.answer.aim}</dt>
        <dd>{lines.aim}</dd>
      </div>
    </dl>
  );
}

export function AnswerPart() {
  const S = words.value;
  const state = asking.value;
  const now = answer.value;
  const told = now?.report.told;
  const read = understood.value;
  const large = useSignal(false);
  return (
    <section class="answer" aria-labelledby="answer-title">
      <h2 id="answer-title" class="unseen">
        {S.answer.title}
      </h2>
      <p class="unseen" aria-live="polite" data-voice>
        {state.is === 'working' ? S.answer.working : ''}
        {state.is === 'done' && told && arrivals.value
          ? `${S.answer.arrived} ${told.lines.camera}. ${told.lines.flash}. ${told.lines.aim}`
          : ''}
      </p>
      {read && !read.ok ? (
        <div class="trouble" role="alert">
          <p>
            <strong>{S.answer.notOk}</strong>
          </p>
          <p>
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
      {now && told ? (
        <div class={fresh.value ? 'now' : 'now old'} data-answer={now.id} data-fresh={fresh.value} lang={told.language}>
          {fresh.value ? null : <p class="old-note">{S.answer.old}</p>}
          <Lines of={now} />
          <p class="about">{told.lines.about}</p>
          {told.cautions.length ? (
            <div class="cautions">
              <h3>▲ {S.answer.cautions}</h3>
              <ul>
                {told.cautions.map((caution) => (
                  <li>{caution}</li>
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
  const short = of.report.told.shortfall;
  if (!short) return null;
  return (
    <div class="short" data-short>
      <h3>{S.short.title}</h3>
      <p class="short-words">{short.words}</p>
      {short.changes.length ? (
        <>
          <h4>{S.short.changes}</h4>
          <ol class="changes">
            {short.changes.map((change, i) => {
              const written = of.changes[i]?.text ?? null;
              return (
                <li>
                  <p class="change-what">{change.what}</p>
                  <p>
                    <span class="soft">{S.short.cost}:</span> {change.cost}
                  </p>
                  <p>
                    <span class="soft">{S.short.then}:</span> {change.then}
                  </p>
                  {written === null ? (
                    <p class="soft">{S.short.byHand}</p>
                  ) : (
                    <button type="button" onClick={() => void replaceText(written)}>
                      {S.short.take}
                    </button>
                  )}
                </li>
              );
            })}
          </ol>
        </>
      ) : null}
      {short.tried.length ? (
        <>
          <h4>{S.short.tried}</h4>
          <ul>
            {short.tried.map((one) => (
              <li>{one}</li>
            ))}
          </ul>
        </>
      ) : null}
    </div>
  );
}

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
  const all = now.report.told.alternatives;
  return (
    <Fold title={S.compare.alternatives} name="alternatives" aside={String(all.length)}>
      {all.length === 0 ? <p>{S.compare.noAlternatives}</p> : null}
      <ol class="others">
        {all.map((other) => (
          <li>
            <h4>{other.name}</h4>
            <p>
              {other.camera}
              <br />
              {other.flash}
              <br />
              {other.aim}
            </p>
            <p>
              <span class="soft">{S.compare.prefer}:</span> {other.prefer}
            </p>
          </li>
        ))}
      </ol>
    </Fold>
  );
}

export { goToSetUp };
