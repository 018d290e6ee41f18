// The one place that says with which headers the app is served: scripts/serve.mjs (npm start and the browser tests),
// the development server and the `_headers` file for static hosts all take them from here.
//
// The policy is a header and no meta tag because a meta tag does not bind workers.

/** @param {Record<string, string>} directives */
const policy = (directives) =>
  Object.entries(directives)
    .map(([name, value]) => `${name} ${value}`)
    .join('; ');

const strict = {
  'default-src': "'none'",
  'script-src': "'self'",
  'style-src': "'self'",
  'img-src': "'self'",
  'connect-src': "'self'",
  'worker-src': "'self'",
  'manifest-src': "'self'",
  'base-uri': "'none'",
  'form-action': "'none'",
  'frame-ancestors': "'none'",
};

/** The app, its workers and its service worker: nothing from elsewhere, no inline script or style, no eval. */
export const appPolicy = policy(strict);

/** open.html alone may fetch from elsewhere: the deck that a link names. It starts no worker. */
export const openPolicy = policy({ ...strict, 'connect-src': 'https:', 'worker-src': "'none'" });

/** Vite's development server puts styles into the page and speaks over a web socket; the rest stays strict. */
export const devPolicy = (/** @type {string} */ served) =>
  served
    .replace("style-src 'self'", "style-src 'self' 'unsafe-inline'")
    .replace('connect-src ', "connect-src 'self' ws: ");

/** @type {Readonly<Record<string, string>>} */
export const everywhere = {
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy':
    'camera=(), microphone=(), geolocation=(), payment=(), usb=(), serial=(), midi=(), display-capture=()',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
};

// Names under assets/ carry a hash of what is in them; all else must be asked for again, the service worker above all.
const forEver = 'public, max-age=31536000, immutable';
const askAgain = 'no-cache';

/**
 * @param {string} pathname Path below the app's own folder, starting with `/`.
 * @returns {Record<string, string>} Header names and values.
 */
export const headersFor = (pathname) => ({
  ...everywhere,
  'Content-Security-Policy': /^\/open(\.html)?$/.test(pathname) ? openPolicy : appPolicy,
  'Cache-Control': pathname.startsWith('/assets/') ? forEver : askAgain,
});

/**
 * The same as a `_headers` file, as several static hosts read it. There all rules that match a path add up, and of
 * two policies both hold; so the policies stand at paths that do not overlap.
 */
export const headersFile = () => {
  const rule = (/** @type {string} */ path, /** @type {Record<string, string>} */ headers) =>
    [path, ...Object.entries(headers).map(([name, value]) => `  ${name}: ${value}`)].join('\n');
  const app = { 'Content-Security-Policy': appPolicy };
  const open = { 'Content-Security-Policy': openPolicy, 'Cache-Control': askAgain };
  return `${[
    rule('/*', everywhere),
    rule('/', { ...app, 'Cache-Control': askAgain }),
    rule('/index.html', { ...app, 'Cache-Control': askAgain }),
    rule('/sw.js', { ...app, 'Cache-Control': askAgain }),
    rule('/assets/*', { ...app, 'Cache-Control': forEver }),
    rule('/open', open),
    rule('/open.html', open),
  ].join('\n\n')}\n`;
};
