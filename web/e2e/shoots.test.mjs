// Shoots: begin, rename, duplicate, remove, bring back, versions, files in and out, two windows, and a store that fails.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { address, answered, asked, firstOpened, oneBrowser, openCopy, openOn, saved, shot } from './browser.mjs';

const { made, pageOf } = oneBrowser(async (page) => {
  const all = (await asked(page, 'GET', '/api/shoots')).body;
  return all.filter((s) => /^test: |from this window$/.test(s.name)).map((s) => s.id);
});
const row = (page, name) => page.locator(`.row[data-name="${name}"]`);

test('a shoot is begun from ten fill-ins', async () => {
  const { page, context, faults } = await pageOf();
  await page.goto(`${address}/#/shoots`);
  await page.getByRole('button', { name: 'Start my own' }).click();
  const dialog = page.getByRole('dialog', { name: 'Start my own' });
  assert.equal(await dialog.locator('.fill-in').count(), 10);
  await dialog.locator('.fill-in[aria-label^="Title"]').click();
  await page.fill('.choices input', 'test: begun');
  await page.keyboard.press('Enter');
  await dialog.locator('.fill-in[aria-label^="Skin"]').click();
  await dialog.locator('.choice', { hasText: 'dark' }).click();
  await shot(page, 'begin');
  await page.getByRole('button', { name: 'Make the shoot' }).click();
  await page.waitForFunction(() => document.querySelector('.shoot-name input')?.value === 'test: begun');
  await page.locator('.sentence').first().waitFor();
  await answered(page);
  assert.deepEqual(faults, []);
  await context.close();
});

test('shoots are renamed, doubled, removed and brought back, and keep their versions', async () => {
  const { page, context, faults } = await pageOf();
  const mark = Date.now().toString(36);
  const [house, renamed, second] = ['house', 'renamed', 'second'].map((name) => `test: ${name} ${mark}`);
  made.push(await openCopy(page, house));
  await page.fill('.shoot-name input', renamed);
  await page.keyboard.press('Enter');
  await page.waitForTimeout(900);
  await saved(page);
  await page.goto(`${address}/#/shoots`);
  await row(page, renamed).waitFor();
  await row(page, renamed)
    .getByRole('button', { name: /^Duplicate/ })
    .click();
  await row(page, `${renamed}, a copy`).waitFor();
  await row(page, `${renamed}, a copy`)
    .getByRole('button', { name: /^Rename/ })
    .click();
  await page.fill('.keep-form input', second);
  await page.keyboard.press('Enter');
  await row(page, second).waitFor();
  await row(page, second)
    .getByRole('button', { name: /^Remove/ })
    .click();
  await row(page, second).waitFor({ state: 'detached' });
  await page.getByLabel('Show removed shoots').check();
  await row(page, second)
    .getByRole('button', { name: /^Bring back/ })
    .click();
  await row(page, second)
    .getByRole('button', { name: /^Remove/ })
    .waitFor();
  await row(page, renamed)
    .getByRole('button', { name: /^Earlier versions/ })
    .click();
  await page.locator('.versions li').first().waitFor();
  assert.ok((await page.locator('.versions li').count()) >= 2);
  await shot(page, 'versions');
  await page.locator('.versions button').last().click();
  await row(page, house).waitFor();
  assert.deepEqual(faults, []);
  await context.close();
});

test('shoots go out as files and come in again', async () => {
  const { page, context, faults } = await pageOf();
  made.push(await openCopy(page, 'test: out'));
  await page.goto(`${address}/#/shoots`);
  const [zip] = await Promise.all([
    page.waitForEvent('download'),
    page.getByText('Keep everything as a zip file').click(),
  ]);
  assert.equal((await readFile(await zip.path())).subarray(0, 2).toString(), 'PK');
  const text = (await asked(page, 'GET', `/api/shoots/${made.at(-1)}`)).body.text;
  await page.locator('.file input').setInputFiles({
    name: 'brought.toml',
    mimeType: 'text/plain',
    buffer: Buffer.from(text.replace(/shoot = ".*"/, 'shoot = "test: brought in"')),
  });
  await page.getByText('One file was taken in.').waitFor();
  assert.deepEqual(faults, []);
  await context.close();
});

test('two windows on one shoot never overwrite each other', async () => {
  const one = await pageOf();
  const two = await pageOf();
  const id = await openCopy(one.page, 'test: two windows');
  made.push(id);
  await firstOpened(two.page);
  await openOn(two.page, id, 'test: two windows');
  const rename = async (page, name) => {
    await page.locator('.fill-in').first().click();
    await page.fill('.choices input', name);
    await page.keyboard.press('Enter');
    await page.waitForFunction((n) => document.querySelector('.fill-in')?.textContent === n, name);
  };
  await rename(one.page, 'the first window');
  await one.page.waitForTimeout(900);
  await saved(one.page);
  await rename(two.page, 'the second window');
  const dialog = two.page.getByRole('dialog', { name: /Another window/ });
  await dialog.waitFor();
  assert.match((await asked(one.page, 'GET', `/api/shoots/${id}`)).body.text, /the first window/);
  await dialog.getByRole('button', { name: 'Look at both' }).click();
  assert.ok((await dialog.locator('.differs').count()) >= 2);
  await shot(two.page, 'conflict');
  await dialog.getByRole('button', { name: 'Decide later' }).click();
  await two.page.getByRole('button', { name: 'Decide', exact: true }).click();
  await dialog.getByRole('button', { name: 'Keep mine as a new shoot' }).click();
  await dialog.waitFor({ state: 'detached' });
  await saved(two.page);
  const all = (await asked(one.page, 'GET', '/api/shoots')).body;
  const mine = all.find((s) => /from this window/.test(s.name));
  assert.ok(mine, 'mine is a shoot of its own');
  assert.match((await asked(one.page, 'GET', `/api/shoots/${id}`)).body.text, /the first window/);
  assert.match((await asked(one.page, 'GET', `/api/shoots/${mine.id}`)).body.text, /the second window/);
  await one.context.close();
  await two.context.close();
});

test('a store that fails is told, and the words can be kept as a file', async () => {
  const { page, context } = await pageOf();
  made.push(await openCopy(page, 'test: failing store'));
  await page.route('**/api/shoots/*', (route) =>
    route.request().method() === 'PUT'
      ? route.fulfill({
          status: 507,
          contentType: 'application/json',
          body: JSON.stringify({
            error: { code: 'storage', message: 'The disk is full.', hint: 'Make room and try again.' },
          }),
        })
      : route.continue(),
  );
  await page.locator('.fill-in').first().click();
  await page.fill('.choices input', 'not on the disk');
  await page.keyboard.press('Enter');
  await page.waitForSelector('[data-saving=failed]');
  assert.match(await page.locator('.saved').innerText(), /The disk is full/);
  await shot(page, 'storage');
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Keep it as a file' }).click(),
  ]);
  assert.match(file.suggestedFilename(), /\.toml$/);
  assert.match(await readFile(await file.path(), 'utf8'), /not on the disk/);
  await page.unroute('**/api/shoots/*');
  await page.getByRole('button', { name: 'Try again' }).click();
  await saved(page);
  await context.close();
});
