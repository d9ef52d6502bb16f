// Place and sitters, the bag, and the shoot file as text.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { address, asked, oneBrowser, openCopy, saved, shot } from './browser.mjs';

const { made, pageOf } = oneBrowser();
const textOf = async (page, id) => (await asked(page, 'GET', `/api/shoots/${id}`)).body.text;

test('a sitter is moved by arrow keys and by dragging, and the file says so', async () => {
  const { page, context, faults } = await pageOf();
  const id = await openCopy(page, 'test: plan');
  made.push(id);
  await page.goto(`${address}/#/place`);
  const sitter = page.locator('[data-thing=sitter-0]');
  await sitter.waitFor();
  const before = Number(/([\d.]+) m from the left wall/.exec(await sitter.getAttribute('aria-label'))[1]);
  await sitter.focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowRight');
  await page.keyboard.press('Shift+ArrowRight');
  const expected = (before + 0.12).toFixed(2);
  assert.match(await page.locator('[data-said]').innerText(), new RegExp(`${expected} m from the left wall`));
  await page.waitForFunction(
    (want) =>
      document.querySelector('[data-thing=sitter-0]')?.getAttribute('aria-label')?.includes(`${want} m from the left`),
    expected,
  );
  await saved(page);
  await page.waitForTimeout(1000);
  await saved(page);
  assert.match(await textOf(page, id), new RegExp(`from_left = "${expected} m"`));
  // The comments of the photographer are still there.
  assert.match(await textOf(page, id), /#/);

  const camera = page.locator('[data-thing=camera]');
  const at = await camera.boundingBox();
  const was = await camera.getAttribute('aria-label');
  await page.mouse.move(at.x + at.width / 2, at.y + at.height / 2);
  await page.mouse.down();
  await page.mouse.move(at.x + at.width / 2 + 60, at.y + at.height / 2 + 10, { steps: 6 });
  assert.match(await page.locator('[data-said]').innerText(), /camera: .+ from the left wall/);
  await shot(page, 'plan-dragging');
  await page.mouse.up();
  await page.waitForFunction(
    (label) => document.querySelector('[data-thing=camera]')?.getAttribute('aria-label') !== label,
    was,
  );
  await saved(page);
  await page.locator('main').focus();
  await page.keyboard.press('Control+z');
  await page.waitForFunction(
    (label) => document.querySelector('[data-thing=camera]')?.getAttribute('aria-label') === label,
    was,
  );
  assert.deepEqual(faults, []);
  await context.close();
});

test('a sitter is turned by the handle before the nose, and the file says where they look', async () => {
  const { page, context, faults } = await pageOf();
  const id = await openCopy(page, 'test: turn');
  made.push(id);
  await page.goto(`${address}/#/place`);
  const turn = page.locator('[data-turn="0"]');
  await turn.waitFor();
  const value = () => turn.getAttribute('aria-valuetext');
  const written = async (faces) => {
    await page.waitForFunction((want) => document.querySelector('[data-key="sitter.0.faces"]')?.value === want, faces);
    await saved(page);
    await page.waitForTimeout(900);
    await saved(page);
    assert.match(await textOf(page, id), new RegExp(`faces = "${faces}"`));
  };
  assert.equal(await value(), 'looks at the camera');

  // Dragged round to the right of the head as the plan shows it: the camera's right, which is three on the clock.
  const middleOf = async (what) => {
    const box = await page.locator(what).boundingBox();
    return [box.x + box.width / 2, box.y + box.height / 2];
  };
  const head = await middleOf('[data-thing=sitter-0] .shoulders');
  await page.mouse.move(...(await middleOf('[data-turn="0"] .knob')));
  await page.mouse.down();
  await page.mouse.move(head[0] + 50, head[1] + 30, { steps: 4 });
  await page.mouse.move(head[0] + 70, head[1] + 2, { steps: 4 });
  assert.match(await page.locator('[data-said]').innerText(), /looks to 3 o’clock, 90° past the camera to its right/);
  await shot(page, 'plan-turning');
  await page.mouse.up();
  await written("3 o'clock");

  // Near the camera it holds; by keys it goes on in steps that the file can write.
  await page.mouse.move(...(await middleOf('[data-turn="0"] .knob')));
  await page.mouse.down();
  await page.mouse.move(head[0] + 4, head[1] + 70, { steps: 4 });
  await page.mouse.up();
  await written('camera');
  await turn.focus();
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('Shift+ArrowLeft');
  assert.equal(await value(), 'looks to 6:40, 20° past the camera to its left');
  await written('6:40');
  assert.deepEqual(faults, []);
  await context.close();
});

test('fields write single keys; surfaces tell what comes back', async () => {
  const { page, context, faults } = await pageOf();
  const id = await openCopy(page, 'test: fields');
  made.push(id);
  await page.goto(`${address}/#/place`);
  const ceiling = page.locator('[data-key="place.ceiling"]');
  await ceiling.fill('white paint');
  await ceiling.press('Enter');
  await page.waitForFunction(() =>
    document.querySelector('[data-key="place.ceiling"]')?.closest('.field')?.textContent?.includes('0.8 comes back'),
  );
  const sitters = page.locator('.part', { has: page.getByRole('heading', { name: 'Sitters' }) });
  const count = await sitters.locator('.item').count();
  await page.getByRole('button', { name: 'Add a sitter' }).click();
  await page.waitForFunction((n) => document.querySelectorAll('[data-thing^=sitter]').length === n + 1, count);
  await sitters.locator('.item').last().locator('summary').click();
  await sitters
    .locator('.item')
    .last()
    .getByRole('button', { name: /^Remove/ })
    .click();
  await page.waitForFunction((n) => document.querySelectorAll('[data-thing^=sitter]').length === n, count);
  await page.waitForTimeout(900);
  await saved(page);
  assert.match(await textOf(page, id), /ceiling = "white paint"/);
  assert.deepEqual(faults, []);
  await context.close();
});

test('a place and a bag are kept, and used again', async () => {
  const { page, context, faults } = await pageOf();
  made.push(await openCopy(page, 'test: kept'));
  await page.goto(`${address}/#/bag`);
  await page.locator('[data-keep=bags] summary').click();
  await page.fill('[data-keep=bags] input[name=name]', 'Small bag');
  await page.getByRole('button', { name: 'Keep this bag' }).click();
  await page.getByRole('button', { name: 'Use it: Small bag' }).first().waitFor();
  await page.locator('.gels input').first().check();
  await page.waitForFunction(() => document.querySelector('.gels input')?.checked);
  await page.getByRole('button', { name: 'Use it: Small bag' }).first().click();
  await page.waitForFunction(() => !document.querySelector('.gels input')?.checked);
  await page.goto(`${address}/#/place`);
  await page.locator('[data-keep=places] summary').click();
  await page.fill('[data-keep=places] input[name=name]', 'This room');
  await page.getByRole('button', { name: 'Keep this place' }).click();
  await page.getByRole('button', { name: 'Use it: This room' }).first().waitFor();
  for (const kind of ['bags', 'places']) {
    for (const one of (await asked(page, 'GET', `/api/${kind}`)).body)
      await page.evaluate(
        (path) => fetch(path, { method: 'DELETE', headers: { 'content-type': 'application/json' } }),
        `/api/${kind}/${one.id}?based_on=${one.version}`,
      );
  }
  assert.deepEqual(faults, []);
  await context.close();
});

test('a scan of a room becomes the place', async () => {
  const { page, context } = await pageOf();
  made.push(await openCopy(page, 'test: scan'));
  await page.goto(`${address}/#/place`);
  await page.locator('[data-thing=camera]').waitFor();
  // A closed box of 6 x 5 x 2.5 m, y up.
  const v = [];
  for (const y of [0, 2.5])
    for (const [x, z] of [
      [0, 0],
      [5, 0],
      [5, 6],
      [0, 6],
    ])
      v.push(`v ${x} ${y} ${z}`);
  const obj = `${v.join('\n')}\no room\nf 1 2 3 4\nf 5 8 7 6\nf 1 5 6 2\nf 2 6 7 3\nf 3 7 8 4\nf 4 8 5 1\n`;
  await page
    .locator('.scan input')
    .setInputFiles({ name: 'room.obj', mimeType: 'text/plain', buffer: Buffer.from(obj) });
  await page.locator('.scan li').first().waitFor();
  await page.waitForFunction(() =>
    /6(\.00?)? x 5(\.00?)? x 2\.50?/.test(document.querySelector('[data-key="place.room"]')?.value ?? ''),
  );
  await context.close();
});

test('the file as text points at the line that cannot be read', async () => {
  const { page, context, faults } = await pageOf();
  made.push(await openCopy(page, 'test: file'));
  await page.goto(`${address}/#/file`);
  const area = page.locator('textarea');
  const text = await area.inputValue();
  const lines = text.split('\n');
  const at = lines.findIndex((l) => l.startsWith('aperture'));
  lines[at] = 'aperture = f/4';
  await area.fill(lines.join('\n'));
  await page.locator('.problems li').first().waitFor();
  await page.locator('.problems button').first().click();
  assert.equal(await page.evaluate(() => document.activeElement?.tagName), 'TEXTAREA');
  await shot(page, 'file-problem');
  assert.equal(await page.locator('.flag-bad').count(), 1);
  await area.fill(text);
  await page.waitForFunction(() => document.querySelectorAll('.problems li').length === 0);
  // Names with signs of the file's own notation come through unharmed.
  await page.goto(`${address}/#/`);
  await page.locator('.fill-in').first().click();
  await page.fill('.choices input', 'the "first" cornet <b>& \\ é');
  await page.keyboard.press('Enter');
  await page.waitForFunction(() => document.querySelector('.fill-in')?.textContent === 'the "first" cornet <b>& \\ é');
  assert.deepEqual(faults, []);
  await context.close();
});
