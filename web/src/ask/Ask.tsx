// The ask: a sentence whose fill-ins are buttons, each with a small choice.
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef } from 'preact/hooks';
import type { Listed, Value } from '../api-types.ts';
import { api } from '../server.ts';
import { edit, inFeet, takePart, trying, understood, vocabulary } from '../shoot.ts';
import { words } from '../strings/index.ts';
import { Term } from '../term.tsx';
import { type Choice, choices, editFor, hintOf, MORE, sentence, shownWish, type Wish, wished } from './sentence.ts';

/** A small choice over the page, beside the button that opened it; on a phone at its lower edge. */
export function FillIn(props: {
  label: string;
  text: string;
  unset?: boolean;
  items: Choice[];
  current?: string | null;
  hint?: string;
  own?: boolean;
  typed?: string;
  take: (value: string | null) => void;
  links?: { label: string; href: string }[];
  drop?: () => void;
  onOpen?: () => void;
  startOpen?: boolean;
}) {
  const open = useSignal(props.startOpen ?? false);
  const box = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const id = useId();
  const S = words.value;
  const close = (back = true) => {
    open.value = false;
    if (back) button.current?.focus();
  };
  // The button that opened it closes it by itself.
  const isOutside = (at: EventTarget | null) =>
    !box.current?.contains(at as Node) && !button.current?.contains(at as Node);
  useEffect(() => {
    if (!open.value) return;
    // Over everything else, a dialog too. A browser without popovers shows it all the same, at the lower edge.
    box.current?.showPopover?.();
    props.onOpen?.();
    const first = (what: string) => box.current?.querySelector<HTMLElement>(what);
    (first('[aria-pressed=true]') ?? first('.choice, input'))?.focus();
    const outside = (e: PointerEvent) => {
      if (isOutside(e.target)) close(false);
    };
    document.addEventListener('pointerdown', outside);
    return () => document.removeEventListener('pointerdown', outside);
  }, [open.value]);
  const take = (value: string | null) => {
    close();
    props.take(value);
  };
  const move = (e: KeyboardEvent) => {
    if (e.key === 'Escape') {
      // The dialog around it stays.
      e.preventDefault();
      e.stopPropagation();
      close();
    }
    if (e.key !== 'ArrowDown' && e.key !== 'ArrowUp') return;
    const all = [...(box.current?.querySelectorAll<HTMLElement>('.choice, input') ?? [])];
    const at = all.indexOf(document.activeElement as HTMLElement);
    all[(at + (e.key === 'ArrowDown' ? 1 : -1) + all.length) % all.length]?.focus();
    e.preventDefault();
  };
  return (
    <span class="fill">
      <button
        ref={button}
        type="button"
        class={props.unset ? 'fill-in unset' : 'fill-in'}
        aria-haspopup="dialog"
        aria-expanded={open.value}
        aria-label={`${props.label}: ${props.text}`}
        onClick={() => {
          open.value = !open.value;
        }}
      >
        {props.text}
      </button>
      {open.value ? (
        <div
          ref={box}
          popover="manual"
          class="choices"
          role="dialog"
          aria-label={S.ask.choose(props.label)}
          onKeyDown={move}
          onFocusOut={(e) => {
            if (e.relatedTarget && isOutside(e.relatedTarget)) close(false);
          }}
        >
          <p class="choices-title">{props.label}</p>
          {props.items.map((item) => (
            <button
              type="button"
              class="choice"
              aria-pressed={item.value === (props.current ?? null)}
              onClick={() => take(item.value)}
            >
              <span class="choice-mark" aria-hidden="true">
                {item.value === (props.current ?? null) ? '✓' : ''}
              </span>
              {item.label}
              {item.note ? <small>{item.note}</small> : null}
              {item.means ? <span class="choice-means">{item.means}</span> : null}
            </button>
          ))}
          {props.own === false ? null : (
            <form
              onSubmit={(e) => {
                e.preventDefault();
                const value = new FormData(e.currentTarget).get('own');
                if (typeof value === 'string' && value.trim()) take(value.trim());
              }}
            >
              <label for={`${id}-own`}>{S.ask.own}</label>
              <span class="own">
                <input
                  id={`${id}-own`}
                  name="own"
                  defaultValue={props.typed ?? ''}
                  placeholder={props.hint}
                  autocomplete="off"
                />
                <button type="submit">{S.ask.take}</button>
              </span>
              {props.hint ? <small>{props.hint}</small> : null}
            </form>
          )}
          {props.links?.map((link) => (
            <a href={link.href} class="choices-link" onClick={() => close(false)}>
              {link.label} →
            </a>
          ))}
          {props.drop ? (
            <button
              type="button"
              class="quiet"
              onClick={() => {
                close(false);
                props.drop?.();
              }}
            >
              {S.ask.drop}
            </button>
          ) : null}
        </div>
      ) : null}
    </span>
  );
}

function WishFill({ wish, dropable }: { wish: Wish; dropable?: boolean }) {
  const S = words.value;
  const form = understood.value?.form ?? {};
  const kept = useSignal<Listed[]>([]);
  const value = form.ask?.[wish] as Value | undefined;
  const written =
    wish === 'sitter'
      ? form.sitter?.[0]?.name
      : wish === 'place'
        ? form.place?.room
        : typeof value === 'string'
          ? value
          : '';
  const items = choices(wish, form, vocabulary.value, S, inFeet.value);
  // A list shows what stands, also when it was typed in another spelling.
  const current = typeof value === 'string' ? value.replace(wish === 'key' ? / from (left|right)$/ : /$^/, '') : null;
  return (
    <FillIn
      label={S.ask.what[wish]}
      text={shownWish(wish, form, S)}
      unset={wish !== 'sitter' && wish !== 'place' && value === undefined}
      items={wish === 'place' ? kept.value.map((p) => ({ value: `kept:${p.id}`, label: p.name })) : items}
      current={current}
      hint={hintOf(wish, inFeet.value, S)}
      typed={typeof written === 'string' ? written : ''}
      onOpen={() => {
        if (wish === 'place') void trying(async () => void (kept.value = await api.list('places')));
      }}
      take={(chosen) => {
        if (chosen?.startsWith('kept:')) void usePlace(chosen.slice(5));
        else void edit(editFor(wish, chosen, form));
      }}
      links={
        wish === 'sitter'
          ? [{ label: S.ask.editSitters, href: '#/place' }]
          : wish === 'place'
            ? [{ label: S.ask.editPlace, href: '#/place' }]
            : []
      }
      drop={dropable ? () => void edit([{ path: ['ask', wish], value: null }]) : undefined}
    />
  );
}

/** Puts a kept place into the shoot. */
export const usePlace = (id: string) =>
  trying(async () => {
    await takePart('places', (await api.read('places', id)).text);
  });

/** The ask, with `aside` behind the last of its wishes. */
export function Ask({ aside }: { aside?: ComponentChildren }) {
  const S = words.value;
  const adding = useSignal<Wish | null>(null);
  const now = understood.value;
  if (!now) return null;
  const more = wished(now.form);
  const left = MORE.filter((wish) => !more.includes(wish) && (wish !== 'zone' || now.form.zone));
  const form = now.form;
  return (
    <section class="ask" aria-labelledby="ask-title">
      <h2 id="ask-title" class="unseen">
        {S.ask.title}
      </h2>
      <p class="sentence">
        {sentence(form, S).map((piece) =>
          piece.is === 'fill' ? (
            <WishFill key={piece.wish} wish={piece.wish} />
          ) : piece.is === 'term' ? (
            <Term k={piece.term}>{piece.text}</Term>
          ) : (
            piece.text
          ),
        )}
      </p>
      <div class="also">
        {more.length ? <span>{S.ask.also} </span> : null}
        {more.map((wish) => (
          <span class="wish" key={wish}>
            {S.ask.what[wish]} <WishFill wish={wish} dropable />
          </span>
        ))}
        {adding.value ? (
          <span class="wish">
            {S.ask.what[adding.value]}{' '}
            <FillIn
              key={adding.value}
              label={S.ask.what[adding.value]}
              text="…"
              startOpen
              items={choices(adding.value, form, vocabulary.value, S, inFeet.value).filter((c) => c.value !== null)}
              hint={hintOf(adding.value, inFeet.value, S)}
              take={(value) => {
                const wish = adding.value;
                adding.value = null;
                if (wish) void edit(editFor(wish, value, form));
              }}
            />
          </span>
        ) : null}
        <FillIn
          label={S.ask.more}
          text={`+ ${S.ask.more}`}
          unset
          own={false}
          items={left.map((wish) => ({ value: wish, label: S.ask.what[wish] }))}
          take={(wish) => {
            adding.value = wish as Wish | null;
          }}
        />
        {aside}
      </div>
    </section>
  );
}
