// `npm run schema`: writes the JSON Schemas in shared/ from the schemas of the code, which are the truth.
import { mkdirSync, writeFileSync } from 'node:fs';
import { schemas } from './lib/schemas.ts';

// The runner bundles this file elsewhere, but starts it in the folder of the package.
mkdirSync('shared', { recursive: true });
for (const [name, text] of Object.entries(schemas())) {
  writeFileSync(`shared/${name}`, text);
  console.log(`shared/${name}: ${text.length} characters`);
}
