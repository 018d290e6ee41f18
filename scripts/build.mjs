// `npm run build`: builds the app into dist, or into the folder given. A build started from a test inherits
// NODE_ENV=test, and then registers no service worker; so it is set here.
import { at } from './lib/paths.mjs';
import { run } from './lib/run.mjs';

const out = process.argv[2] ?? 'dist';
process.exitCode = await run(
  at('node_modules/.bin/vite'),
  ['build', '--outDir', out, '--emptyOutDir', '--logLevel', 'warn'],
  { NODE_ENV: 'production' },
);
