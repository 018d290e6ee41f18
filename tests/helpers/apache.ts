/** A real WebDAV server: Debian's apache2 with mod_dav, in a folder of its own, on a free port, ended by its process id. */
import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { apache } from '../../scripts/lib/paths.mjs';

const MODULES = '/usr/lib/apache2/modules';

export const USER = 'pilot';
export const PASSWORD = 'correct horse';

export interface Apache {
  /** Ends in `/`. `open/` asks for no password, `closed/` does. */
  readonly url: string;
  /** Folder whose files are served. */
  readonly files: string;
  stop(): Promise<void>;
}

const freePort = (): Promise<number> =>
  new Promise((done, failed) => {
    const server = createServer();
    server.on('error', failed);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => done(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });

const configOf = (at: string, port: number): string => {
  const load = (name: string) => `LoadModule ${name}_module ${MODULES}/mod_${name}.so`;
  const modules = [
    'mpm_event',
    'authn_core',
    'authn_file',
    'authz_core',
    'authz_user',
    'auth_basic',
    'mime',
    'dav',
    'dav_fs',
  ];
  // As root it must name whom it becomes; nobody else could write what the test made.
  const user = process.getuid?.() === 0 ? ['User www-data', 'Group www-data'] : [];
  const unixd = existsSync(`${MODULES}/mod_unixd.so`) ? [load('unixd')] : [];
  return `${[
    `ServerRoot "${at}"`,
    'ServerName localhost',
    `Listen 127.0.0.1:${port}`,
    `PidFile "${at}/httpd.pid"`,
    `ErrorLog "${at}/error.log"`,
    `Mutex file:${at} default`,
    ...modules.map(load),
    ...unixd,
    ...user,
    'StartServers 1',
    'ThreadsPerChild 8',
    'MinSpareThreads 1',
    'MaxSpareThreads 8',
    'MaxRequestWorkers 8',
    `TypesConfig "${at}/mime.types"`,
    `DocumentRoot "${at}/files"`,
    `DavLockDB "${at}/lock/db"`,
    `<Directory "${at}/files">`,
    '  Dav On',
    '  Require all granted',
    '</Directory>',
    `<Directory "${at}/files/closed">`,
    '  AuthType Basic',
    '  AuthName "closed"',
    `  AuthUserFile "${at}/passwords"`,
    '  Require valid-user',
    '</Directory>',
  ].join('\n')}\n`;
};

const ended = (child: ChildProcess): Promise<void> =>
  child.exitCode !== null || child.signalCode !== null
    ? Promise.resolve()
    : new Promise((done) => child.once('exit', () => done()));

/** @throws Error that says what is missing, or what the server said */
export const startApache = async (): Promise<Apache> => {
  if (!existsSync(apache))
    throw new Error(
      `The exchange is tested against Apache's mod_dav, and there is no ${apache}: install apache2 (apt-get install apache2), or set APACHE to its path.`,
    );
  const at = mkdtempSync(join(tmpdir(), 'recency-apache-'));
  const port = await freePort();
  for (const folder of ['files/open', 'files/closed', 'lock']) mkdirSync(join(at, folder), { recursive: true });
  writeFileSync(join(at, 'mime.types'), 'text/html html\n');
  const hash = createHash('sha1').update(PASSWORD).digest('base64');
  writeFileSync(join(at, 'passwords'), `${USER}:{SHA}${hash}\n`);
  writeFileSync(join(at, 'httpd.conf'), configOf(at, port));
  if (process.getuid?.() === 0) {
    const { status } = await import('node:child_process').then(({ spawnSync }) =>
      spawnSync('chown', ['-R', 'www-data:www-data', at]),
    );
    if (status !== 0) throw new Error(`www-data cannot be given ${at}.`);
  }
  const child = spawn(apache, ['-f', join(at, 'httpd.conf'), '-D', 'FOREGROUND'], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream?.on('data', (chunk) => (said += String(chunk)));
  const stop = async () => {
    // Ends its children as well.
    child.kill('SIGTERM');
    await ended(child);
    rmSync(at, { recursive: true, force: true });
  };
  const url = `http://127.0.0.1:${port}/`;
  for (;;) {
    if (child.exitCode !== null || child.signalCode !== null) {
      const log = join(at, 'error.log');
      const told = `${said}${existsSync(log) ? readFileSync(log, 'utf8') : ''}`;
      rmSync(at, { recursive: true, force: true });
      throw new Error(`apache2 did not start:\n${told}`);
    }
    const answered = await fetch(`${url}open/`, { method: 'OPTIONS' }).then(
      (response) => response.ok,
      () => false,
    );
    if (answered) return { url, files: join(at, 'files'), stop };
    await new Promise((done) => setTimeout(done, 30));
  }
};
