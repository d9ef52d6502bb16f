// Form fields that write single keys of the shoot file.
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import type { Path, Value } from '../api-types.ts';
import { figure } from '../notation.ts';
import { edit, inFeet, understood, vocabulary } from '../shoot.ts';
import { words } from '../strings/index.ts';
import { type Field, fieldsOf, fieldText, fieldValue, type Part, reflectanceOf } from './fields.ts';

/** One key of the shoot file. What is typed is written when the field is left or Enter is pressed. */
export function FieldInput({ field, path, value }: { field: Field; path: Path; value: Value | undefined }) {
  const S = words.value;
  const id = useId();
  const label = S.field[field.key] ?? field.key;
  if (field.kind === 'yes') {
    return (
      <label class="field yes" for={id}>
        <input
          id={id}
          type="checkbox"
          checked={value === true}
          onChange={(e) => void edit([{ path, value: e.currentTarget.checked ? true : null }])}
        />
        <span>{label}</span>
      </label>
    );
  }
  const options = field.kind === 'surface' ? vocabulary.value?.surfaces.map((s) => s.name) : field.options;
  const reflects = field.kind === 'surface' ? reflectanceOf(value, vocabulary.value) : null;
  const shown = fieldText(value);
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        key={shown}
        id={id}
        type="text"
        inputMode={field.kind === 'number' ? 'decimal' : undefined}
        defaultValue={shown}
        placeholder={field.hint}
        list={options?.length ? `${id}-list` : undefined}
        autocomplete="off"
        data-key={path.join('.')}
        aria-describedby={reflects === null ? undefined : `${id}-back`}
        onChange={(e) => {
          const next = fieldValue(field, e.currentTarget.value);
          if (next === undefined) e.currentTarget.value = shown;
          else if (fieldText(next ?? undefined) !== shown) void edit([{ path, value: next }]);
        }}
      />
      {options?.length ? (
        <datalist id={`${id}-list`}>
          {options.map((option) => (
            <option value={option} />
          ))}
        </datalist>
      ) : null}
      {field.kind === 'surface' ? (
        <small id={`${id}-back`} class="back">
          {reflects === null ? (
            '\u00a0'
          ) : (
            <>
              <i class="swatch" aria-hidden="true" style={{ opacity: reflects }} />
              {S.place.comesBack(figure(reflects, S, 2))}
            </>
          )}
        </small>
      ) : null}
    </div>
  );
}

/** All fields of one part. */
export function PartFields({
  part,
  path,
  value,
}: {
  part: Part;
  path: Path;
  value: Record<string, Value> | undefined;
}) {
  const form = understood.value?.form ?? {};
  return (
    <div class="fields">
      {fieldsOf(part, vocabulary.value, form, inFeet.value).map((field) => (
        <FieldInput key={field.key} field={field} path={[...path, field.key]} value={value?.[field.key]} />
      ))}
    </div>
  );
}

/** A list of parts of one kind, each opening to its fields, with a way to add and to remove. */
export function PartList(props: {
  part: Part;
  path: Path;
  all: Record<string, Value>[];
  add: string;
  fresh: () => Value;
  least?: number;
  title: ComponentChildren;
  owner?: ComponentChildren;
}) {
  const S = words.value;
  return (
    <section class="part">
      <h3>{props.title}</h3>
      {props.owner}
      {props.all.map((one, i) => {
        const name = String(one.name ?? one.wall ?? i + 1);
        return (
          <details class="item" key={i}>
            <summary>
              <span lang="en">{name}</span>
              <small class="soft">
                {[one.from_left, one.from_behind, one.size, one.reading, one.normal_at, one.ambient]
                  .filter((v) => typeof v === 'string')
                  .slice(0, 2)
                  .join(' · ')}
              </small>
            </summary>
            <PartFields part={props.part} path={[...props.path, i]} value={one} />
            {props.all.length > (props.least ?? 0) ? (
              <button
                type="button"
                class="quiet"
                onClick={() => void edit([{ path: [...props.path, i], value: null }])}
              >
                {S.place.remove(name)}
              </button>
            ) : null}
          </details>
        );
      })}
      <button
        type="button"
        class="quiet add"
        onClick={() => void edit([{ path: [...props.path, props.all.length], value: props.fresh() }])}
      >
        + {props.add}
      </button>
    </section>
  );
}
