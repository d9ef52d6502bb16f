// Makes src/api.d.ts from the server's own schema; with --check only says whether it is as it should be.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import openapi, { astToString } from 'openapi-typescript';

const schema = new URL('../../schema/api.json', import.meta.url);
const types = new URL('../src/api.d.ts', import.meta.url);
const made =
  '// Made from schema/api.json by `npm run types`; not to be edited.\n\n' +
  astToString(await openapi(JSON.parse(readFileSync(schema, 'utf8'))));

if (process.argv.includes('--check')) {
  const now = existsSync(types) ? readFileSync(types, 'utf8') : '';
  if (now !== made) {
    console.error(`${fileURLToPath(types)} is not what schema/api.json says. Run: npm run types`);
    process.exit(1);
  }
} else writeFileSync(types, made);
