import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import subsetFont from 'subset-font';
import { defineConfig, type ProxyOptions } from 'vite';

const here = dirname(fileURLToPath(import.meta.url));
const inter = join(here, 'node_modules/@expo-google-fonts/inter');
const cut = join(here, 'node_modules/.rushlight-font');

// Only the letters and signs that the page can show: Latin with its accents, fractions, arrows, and the signs of the notation.
const signs = (() => {
  const ranges: [number, number][] = [
    [0x20, 0x7e],
    [0xa0, 0x17f],
    [0x2010, 0x2026],
    [0x2150, 0x215e],
    [0x2190, 0x2199],
  ];
  let text = '′″‹›€−×÷±≈≤≥·•→←⟲✓✕▲▼●○◐◆◇';
  for (const [from, to] of ranges) for (let c = from; c <= to; c++) text += String.fromCodePoint(c);
  return text;
})();

/** Cuts the two weights of Inter down to `signs`, once, beside the packages, and puts its licence into the built folder. */
function font() {
  return {
    name: 'rushlight-font',
    async config() {
      mkdirSync(cut, { recursive: true });
      for (const weight of ['400Regular', '600SemiBold']) {
        const to = join(cut, `inter-${weight.slice(0, 3)}.woff2`);
        if (existsSync(to)) continue;
        const whole = readFileSync(join(inter, weight, `Inter_${weight}.ttf`));
        writeFileSync(to, await subsetFont(whole, signs, { targetFormat: 'woff2' }));
      }
    },
    generateBundle(this: { emitFile(file: { type: 'asset'; fileName: string; source: Buffer }): void }) {
      this.emitFile({
        type: 'asset',
        fileName: 'assets/inter-OFL.txt',
        source: readFileSync(join(inter, 'LICENSE_FONT')),
      });
    },
  };
}

// While the page is worked on, a server that runs already answers; it lets in only what comes from itself.
const api = process.env.RUSHLIGHT_API ?? 'http://127.0.0.1:4777';
const passOn: ProxyOptions = {
  target: api,
  changeOrigin: true,
  configure: (proxy) => {
    proxy.on('proxyReq', (request) => {
      if (request.getHeader('origin')) request.setHeader('origin', api);
    });
  },
};

export default defineConfig({
  base: './',
  plugins: [font()],
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  resolve: { alias: { '@font': cut } },
  build: {
    outDir: process.env.RUSHLIGHT_WEB_OUT ?? 'dist',
    emptyOutDir: true,
    target: 'es2022',
    // Nothing is put into the page as text, so that its content security policy can stay strict.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  server: { port: 4779, proxy: { '/api': passOn } },
  preview: {
    port: 4778,
    proxy: { '/api': passOn },
    headers: { 'content-security-policy': "default-src 'self'; img-src 'self' data: blob:; frame-src 'self' blob:" },
  },
});
