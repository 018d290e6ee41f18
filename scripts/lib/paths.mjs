import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The top folder of the repository. */
export const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

/** @param {...string} parts Path below the top folder. */
export const at = (...parts) => join(root, ...parts);

/** Chromium for the browser tests, icons and screenshots: CHROMIUM, else where Debian puts it. */
export const chromium = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** Apache for the tests of the exchange between two devices: APACHE, else where Debian puts it. */
export const apache = process.env.APACHE ?? '/usr/sbin/apache2';
