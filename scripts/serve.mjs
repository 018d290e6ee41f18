// A small static server for the built app: `node scripts/serve.mjs [FOLDER]`. PORT and HOST may be set; it listens on
// this machine alone unless HOST says otherwise. A file that is not there is a 404, never index.html in its place.
import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, normalize, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';
import { headersFor } from './headers.mjs';
import { root } from './lib/paths.mjs';

/** @type {Readonly<Record<string, string>>} */
const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.txt': 'text/plain; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.woff2': 'font/woff2',
};

/**
 * @typedef {{ body: string | Buffer, headers?: Record<string, string> }} Extra A file that is not in the folder.
 * @typedef {{ dir: string, extra: Map<string, Extra> }} Served May be changed while the server runs.
 * @typedef {{ url: string, port: number, served: Served, close: () => Promise<void> }} Running
 */

/**
 * @param {Served} served
 * @param {string} pathname Decoded, starting with `/`.
 * @returns {Promise<Extra | null>} Null when there is no such file.
 */
const find = async (served, pathname) => {
  const extra = served.extra.get(pathname);
  if (extra !== undefined) return extra;
  const base = resolve(served.dir);
  const path = join(base, normalize(pathname.endsWith('/') ? `${pathname}index.html` : pathname));
  // Neither above the folder nor the host's own files, such as _headers.
  if (!path.startsWith(base + sep) || /[\\/][._][^\\/]*$/.test(path)) return null;
  try {
    return {
      body: await readFile(path),
      headers: { 'Content-Type': types[extname(path)] ?? 'application/octet-stream' },
    };
  } catch {
    return null;
  }
};

/**
 * @param {Served} served
 * @returns {import('node:http').RequestListener}
 */
const listener = (served) => (request, response) => {
  const answer = async () => {
    let pathname = '';
    try {
      pathname = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    } catch {
      response.writeHead(400).end();
      return;
    }
    const headers = headersFor(pathname);
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      response.writeHead(405, { ...headers, Allow: 'GET, HEAD' }).end();
      return;
    }
    const file = await find(served, pathname);
    if (file === null) {
      response
        .writeHead(404, { ...headers, 'Cache-Control': 'no-store', 'Content-Type': types['.txt'] })
        .end('Not found\n');
      return;
    }
    const tag = `"${createHash('sha256').update(file.body).digest('base64url').slice(0, 22)}"`;
    if (request.headers['if-none-match'] === tag) {
      response.writeHead(304, { ...headers, ETag: tag }).end();
      return;
    }
    response.writeHead(200, { ...headers, ETag: tag, 'Content-Length': Buffer.byteLength(file.body), ...file.headers });
    response.end(request.method === 'HEAD' ? undefined : file.body);
  };
  answer().catch((error) => {
    console.error(error);
    if (!response.headersSent) response.writeHead(500);
    response.end();
  });
};

/**
 * @param {{ dir: string, port?: number, host?: string, tries?: number }} options `port` 0 takes any free one; a port
 *   in use is passed over for the next, up to `tries` times (1: no other).
 * @returns {Promise<Running>}
 * @throws When no port is free or the host cannot be listened on.
 */
export const serve = async ({ dir, port = 0, host = 'localhost', tries = 1 }) => {
  /** @type {Served} */
  const served = { dir, extra: new Map() };
  const server = createServer(listener(served));
  for (let tried = 0; ; tried += 1) {
    const error = await new Promise((done) => {
      server.once('error', done);
      server.listen(port === 0 ? 0 : port + tried, host, () => {
        server.off('error', done);
        done(null);
      });
    });
    if (error === null) break;
    if (error.code !== 'EADDRINUSE' || tried + 1 >= tries) throw error;
    console.log(`Port ${port + tried} is in use, trying ${port + tried + 1}.`);
  }
  const address = server.address();
  const taken = typeof address === 'object' && address !== null ? address.port : port;
  const name = host === '0.0.0.0' || host === '::' ? 'localhost' : host.includes(':') ? `[${host}]` : host;
  return {
    url: `http://${name}:${taken}/`,
    port: taken,
    served,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
};

/** Serves a folder until the process ends, at PORT or 4173 or the next free port. @param {string} dir */
export const serveForPeople = async (dir) => {
  const port = Number(process.env.PORT ?? 4173);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    console.error(`PORT is "${process.env.PORT}"; it must be a number from 0 to 65535.`);
    process.exit(2);
  }
  const running = await serve({ dir, port, host: process.env.HOST ?? 'localhost', tries: 20 });
  console.log(`Recency is at ${running.url}  (Ctrl+C ends it)`);
  return running;
};

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  await serveForPeople(resolve(root, process.argv[2] ?? 'dist'));
}
