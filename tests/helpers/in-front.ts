import { createServer, request } from 'node:http';

export interface InFront {
  /** Ends in `/`. */
  readonly url: string;
  /** Cuts lists of files off. */
  tearing: boolean;
  close(): Promise<void>;
}

/** One origin for the app and a WebDAV server: paths of `folders` go to the latter. */
export const inFront = async (app: string, dav: string, folders: readonly string[]): Promise<InFront> => {
  const front = { url: '', tearing: false, close: async () => undefined as undefined };
  const server = createServer((asked, answer) => {
    const isDav = folders.some((folder) => asked.url?.startsWith(`/${folder}/`));
    const target = new URL(asked.url ?? '/', isDav ? dav : app);
    const tears = front.tearing && asked.method === 'PROPFIND';
    const passed = request(
      target,
      { method: asked.method, headers: { ...asked.headers, host: target.host } },
      (got) => {
        const headers = { ...got.headers };
        if (tears) delete headers['content-length'];
        answer.writeHead(got.statusCode ?? 502, headers);
        if (!tears) {
          got.pipe(answer);
          return;
        }
        const parts: Buffer[] = [];
        got.on('data', (part: Buffer) => parts.push(part));
        got.on('end', () => answer.end(Buffer.concat(parts).subarray(0, -30)));
      },
    );
    passed.on('error', () => answer.writeHead(502).end());
    asked.pipe(passed);
  });
  await new Promise<void>((done) => server.listen(0, 'localhost', done));
  const address = server.address();
  front.url = `http://localhost:${typeof address === 'object' && address !== null ? address.port : 0}/`;
  return Object.assign(front, {
    close: () =>
      new Promise<void>((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  });
};
