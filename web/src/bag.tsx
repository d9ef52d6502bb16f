// The bag: the flash, gels, filters, boards, and who helps.

import type { GelFigure, Value } from './api-types.ts';
import { signed } from './notation.ts';
import { FieldInput, PartFields, PartList } from './place/Fields.tsx';
import { Keep, Owner } from './place/Place.tsx';
import { api } from './server.ts';
import { edit, inFeet, takePart, trying, understood, vocabulary } from './shoot.ts';
import { type Strings, words } from './strings/index.ts';
import { Term } from './term.tsx';

type Table = Record<string, Value>;

const same = (a: string, b: string) =>
  a
    .replace(/^half /, '1/2 ')
    .replace(/^quarter /, '1/4 ')
    .toLowerCase() === b.toLowerCase();

/** What a gel does to a flash. */
function gelWords(figure: GelFigure, S: Strings): string {
  if (figure.is === 'deep') return S.bag.deepColour;
  const loss = S.stops(figure.loss_stops);
  return figure.is === 'warmth'
    ? `${signed(figure.mired, S, 0)} ${S.bag.mired}, ${loss}`
    : `Duv ${signed(figure.duv, S, 3)}, ${loss}`;
}

export function Bag() {
  const S = words.value;
  const now = understood.value;
  if (!now) return null;
  const bag = (now.form.bag ?? {}) as Table;
  const gels = Array.isArray(bag.gels) ? (bag.gels as string[]) : [];
  const family = bag.gel_family === 'amber' ? 'amber' : 'straw';
  const use = (id: string) =>
    trying(async () => {
      await takePart('bags', (await api.read('bags', id)).text);
    });
  return (
    <div class="two">
      <section class="sheet" aria-labelledby="bag-title">
        <h2 id="bag-title">
          <Term k="bag">{S.bag.title}</Term>
        </h2>
        <p class="soft">{S.bag.lead}</p>
        <Owner part="bag" />
        <section class="part">
          <h3>
            <Term k="guide_number">{S.bag.flash}</Term>
          </h3>
          <PartFields part="flash" path={['bag', 'flash']} value={bag.flash as Table | undefined} />
        </section>
        <section class="part">
          <h3>{S.bag.helpers}</h3>
          <PartFields part="hands" path={['bag']} value={bag} />
        </section>
        <Keep kind="bags" use={(id) => void use(id)} />
      </section>
      <section class="sheet" aria-labelledby="gels-title">
        <h2 id="gels-title">
          <Term k="gel">{S.bag.gels}</Term>
        </h2>
        <p class="soft">{S.bag.gelsHint}</p>
        <div class="fields">
          <FieldInput
            field={{ key: 'gel_family', kind: 'text', options: ['straw', 'amber'], hint: 'straw' }}
            path={['bag', 'gel_family']}
            value={bag.gel_family}
          />
        </div>
        <ul class="gels">
          {vocabulary.value?.gels.map((gel) => {
            const figure = gel[family];
            const has = gels.some((g) => same(g, gel.name));
            return (
              <li>
                <label>
                  <input
                    type="checkbox"
                    checked={has}
                    onChange={(e) => {
                      const next = e.currentTarget.checked
                        ? [...gels, gel.name]
                        : gels.filter((g) => !same(g, gel.name));
                      void edit([{ path: ['bag', 'gels'], value: next.length ? next : null }]);
                    }}
                  />
                  <span lang="en">{gel.name}</span>
                  {figure ? <small class="soft">{gelWords(figure, S)}</small> : null}
                </label>
              </li>
            );
          })}
        </ul>
        {Array.isArray(bag.gel) ? <p class="soft">{S.bag.ownGels}</p> : null}
        <section class="part">
          <h3>
            <Term k="nd">{S.bag.nd}</Term>
          </h3>
          <div class="fields">
            <FieldInput
              field={{ key: 'nd', kind: 'list', hint: '3 stops, 6 stops' }}
              path={['bag', 'nd']}
              value={bag.nd}
            />
          </div>
        </section>
        <PartList
          part="bagBoard"
          path={['bag', 'board']}
          all={Array.isArray(bag.board) ? (bag.board as Table[]) : []}
          title={S.bag.boards}
          add={S.bag.addBoard}
          fresh={() => ({
            name: 'white board',
            size: inFeet.value ? '2 x 3 ft' : '0.7 x 1.0 m',
            surface: 'white card',
          })}
        />
      </section>
    </div>
  );
}
