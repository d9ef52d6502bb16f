// The proof: both ways of drawing it, its controls, and aiming by hand.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { address, answered, faultsByAxe, oneBrowser, openCopy, proved, shot } from './browser.mjs';

const { made, pageOf } = oneBrowser();

/** Mean code and a few pixels of the canvas that is shown. */
const look = (page) =>
  page.evaluate(() => {
    const shown = document.querySelector('.frame canvas');
    const copy = document.createElement('canvas');
    copy.width = shown.width;
    copy.height = shown.height;
    const c = copy.getContext('2d');
    c.drawImage(shown, 0, 0);
    const { data } = c.getImageData(0, 0, copy.width, copy.height);
    let sum = 0;
    for (let i = 0; i < data.length; i += 4) sum += data[i] + data[i + 1] + data[i + 2];
    return { mean: sum / (data.length * 0.75), width: copy.width, height: copy.height, pixels: [...data] };
  });
const settled = (page) =>
  page.evaluate(
    () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 60)))),
  );
/** Waits until the proof is finished, so that no better picture comes while it is measured. */
const finished = (page) => page.waitForSelector('.frame[data-finished=true]', { timeout: 180_000 });
const slide = (page, name, by) =>
  page.evaluate(
    ([name, by]) => {
      const input = document.querySelector(`.dial input[aria-label="${name}"]`);
      input.value = String(Number(input.value) + by);
      input.dispatchEvent(new Event('input', { bubbles: true }));
    },
    [name, by],
  );

test('the proof answers its controls at once, says what they mean, and goes back', async () => {
  const { page, context, faults } = await pageOf();
  made.push(await openCopy(page, 'test: proof'));
  await answered(page);
  await proved(page);
  await finished(page);
  assert.equal(await page.locator('.frame canvas').getAttribute('data-way'), 'WebGL2');
  await settled(page);
  const first = await look(page);
  assert.ok(first.mean > 5 && first.mean < 250, `mean ${first.mean}`);

  await page.getByLabel('Flash', { exact: true }).uncheck();
  await settled(page);
  const ambient = await look(page);
  await page.getByLabel('Flash', { exact: true }).check();
  await page.getByLabel('Ambient', { exact: true }).uncheck();
  await settled(page);
  const flash = await look(page);
  assert.ok(ambient.mean < first.mean && flash.mean < first.mean, 'each light alone is darker than both');
  await page.getByLabel('Ambient', { exact: true }).check();

  // The shutter moves the ambient only, and the line below says so.
  const part = (name) =>
    page
      .locator('[data-mix] small')
      .innerText()
      .then((t) => new RegExp(`${name} ([^·]+)`).exec(t)?.[1].trim());
  const [flashWas, ambientWas] = [await part('flash'), await part('ambient')];
  await page.getByRole('button', { name: 'Shutter, a step up' }).click();
  await settled(page);
  assert.equal(await part('flash'), flashWas);
  assert.notEqual(await part('ambient'), ambientWas);
  await page.getByRole('button', { name: 'Power, a step down' }).click();
  await settled(page);
  assert.notEqual(await part('flash'), flashWas);
  await page.getByRole('button', { name: 'As answered' }).click();
  await settled(page);
  assert.deepEqual((await look(page)).pixels, first.pixels);

  // Clipped parts are marked by stripes of pure white and black.
  for (let i = 0; i < 9; i++) await slide(page, 'ISO', 1);
  await page.getByLabel(/Mark what is clipped/).check();
  await settled(page);
  await shot(page, 'clipped');
  const marked = await look(page);
  await page.getByLabel(/Mark what is clipped/).uncheck();
  await settled(page);
  const bright = await look(page);
  assert.ok(bright.mean > first.mean, 'a higher ISO is brighter');
  let stripes = 0;
  for (let i = 0; i < marked.pixels.length; i += 4)
    if (marked.pixels[i] === 0 && marked.pixels[i + 1] === 0 && bright.pixels[i] > 200) stripes++;
  assert.ok(stripes > 20, `${stripes} dark stripe pixels on bright ground`);

  // How long it takes is told and decides nothing: this machine may be busy.
  const drawn = Number(await page.locator('.frame canvas').getAttribute('data-drawn'));
  assert.ok(drawn >= 0);
  console.log(`# ${drawn} ms to hand a picture to the display`);

  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save the picture' }).click(),
  ]);
  assert.match(file.suggestedFilename(), /\.png$/);
  assert.deepEqual(faults, []);
  await context.close();
});

test('WebGL2, the plain way and the server develop the same picture within two codes', async () => {
  const pictures = [];
  let server = null;
  for (const way of ['', '?plain']) {
    const { page, context } = await pageOf();
    const asks = [];
    page.on('request', (r) => {
      const id = /\/api\/proofs\/([^/]+)\/layers/.exec(r.url())?.[1];
      if (id) asks.push(id);
    });
    await page.goto(`${address}/${way}`);
    await answered(page);
    await proved(page);
    await finished(page);
    assert.equal(await page.locator('.frame canvas').getAttribute('data-way'), way ? 'plain' : 'WebGL2');
    await page.getByRole('button', { name: 'Shutter, a step up' }).click();
    await page.getByRole('button', { name: 'Balance, a step up' }).click();
    await settled(page);
    pictures.push(await look(page));
    if (!server) {
      server = await page.evaluate(async (id) => {
        const at = (name) => document.querySelector(`.dial input[aria-label="${name}"]`)?.value;
        const query = new URLSearchParams({ shutter: at('Shutter'), balance: at('Balance') });
        const answer = await fetch(`/api/proofs/${id}/picture.png?${query}`);
        if (!answer.ok) return null;
        const bitmap = await createImageBitmap(await answer.blob(), { colorSpaceConversion: 'none' });
        const copy = document.createElement('canvas');
        copy.width = bitmap.width;
        copy.height = bitmap.height;
        const c = copy.getContext('2d');
        c.drawImage(bitmap, 0, 0);
        return {
          width: copy.width,
          height: copy.height,
          pixels: [...c.getImageData(0, 0, copy.width, copy.height).data],
        };
      }, asks.at(-1));
    }
    await context.close();
  }
  const [gl, plain] = pictures;
  assert.deepEqual([gl.width, gl.height], [plain.width, plain.height]);
  const furthest = (a, b) => a.pixels.reduce((most, v, i) => Math.max(most, Math.abs(v - b.pixels[i])), 0);
  assert.ok(furthest(gl, plain) <= 2, `${furthest(gl, plain)} codes between WebGL2 and plain`);
  if (process.env.RUSHLIGHT_MOCK) return;
  assert.ok(server, 'the server develops the picture too');
  assert.deepEqual([gl.width, gl.height], [server.width, server.height]);
  assert.ok(furthest(gl, server) <= 2, `${furthest(gl, server)} codes between WebGL2 and the server`);
});

test('aiming by hand follows the arrow keys and tells what it would do', async () => {
  const { page, context, faults } = await pageOf();
  await page.goto(address);
  await answered(page);
  await proved(page);
  await finished(page);
  await page.getByRole('button', { name: 'Aim by hand' }).click();
  await page.locator('.aim-told').waitFor({ timeout: 180_000 });
  await settled(page);
  const first = await look(page);
  const words = await page.locator('.aim-words').innerText();
  const turn = page.getByRole('slider', { name: 'Turn, seen from above' });
  await turn.focus();
  const was = Number(await turn.getAttribute('aria-valuenow'));
  for (let i = 0; i < 6; i++) await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowRight');
  assert.equal(Number(await turn.getAttribute('aria-valuenow')), was + 31);
  await page.waitForFunction((w) => document.querySelector('.aim-words')?.textContent !== w, words);
  await page.waitForTimeout(800);
  const moved = await look(page);
  assert.ok(
    moved.pixels.some((v, i) => Math.abs(v - first.pixels[i]) > 8),
    'the picture follows',
  );

  // Pressed on a wall, the beam goes there, and the words say which wall it is.
  const point = async (slider, x, y) => {
    const box = await slider.boundingBox();
    return [box.x + box.width * x, box.y + box.height * y];
  };
  const middle = (await turn.locator('.beam-point').boundingBox()).x;
  const seen = await turn.locator('.plan-room').boundingBox();
  await page.mouse.move(seen.x + 2, seen.y + seen.height * 0.8);
  await page.mouse.down();
  await page.mouse.move(seen.x + 2, seen.y + seen.height * 0.75, { steps: 3 });
  await page.mouse.up();
  const azimuth = Number(await turn.getAttribute('aria-valuenow'));
  assert.ok(azimuth < -90 && azimuth > -175, `turn ${azimuth}`);
  assert.ok((await turn.locator('.beam-point').boundingBox()).x < middle, 'the handle follows');
  const tilt = page.getByRole('slider', { name: 'Tilt, seen from the side' });
  await tilt.focus();
  const level = Number(await tilt.getAttribute('aria-valuenow'));
  for (let i = 0; i < level; i++) await page.keyboard.press('Shift+ArrowDown');
  await page.waitForFunction(() => /left wall, 1\.\d m up/.test(document.querySelector('[data-meets]')?.textContent));
  assert.match(await tilt.getAttribute('aria-valuetext'), /^level, left wall$/);

  // The flash is near the left edge of the section: up and to the right of it is steep.
  await tilt.scrollIntoViewIfNeeded();
  await page.mouse.move(...(await point(tilt, 0.6, 0.5)));
  await page.mouse.down();
  await page.mouse.move(...(await point(tilt, 0.2, 0.1)), { steps: 4 });
  await page.mouse.up();
  const steep = Number(await tilt.getAttribute('aria-valuenow'));
  assert.ok(steep > 30 && steep < 80, `tilt ${steep}`);
  await page.waitForFunction(() => /ceiling/.test(document.querySelector('[data-meets]')?.textContent));
  assert.deepEqual(await faultsByAxe(page), []);
  await shot(page, 'aim');
  await page.getByRole('button', { name: 'Back to the answer' }).click();
  await page.locator('.dial input').first().waitFor();
  assert.deepEqual(faults, []);
  await context.close();
});
