// `npm start`: installs if needed, builds, serves. Works on a fresh clone, so only Node's own modules are used here.
import { install } from './lib/install.mjs';
import { at } from './lib/paths.mjs';
import { run } from './lib/run.mjs';
import { serveForPeople } from './serve.mjs';

if (!(await install())) process.exit(1);
console.log('Building …');
if ((await run(process.execPath, [at('scripts/build.mjs')])) !== 0) process.exit(1);
await serveForPeople(at('dist'));
