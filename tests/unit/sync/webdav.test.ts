import { afterEach, describe, expect, test, vi } from 'vitest';
import { filesIn } from '../../../src/sync/multistatus.ts';
import { folderAddress, webdav } from '../../../src/sync/webdav.ts';
import { parseXml } from '../../../src/sync/xml.ts';

afterEach(() => void vi.unstubAllGlobals());

const FOLDER = new URL('https://example.org/dav/recency/');
const bytes = (text: string) => new TextEncoder().encode(text);

/** A server that answers so, and what it was asked. */
const answering = (answer: () => Response | Promise<Response>) => {
  const asked: { url: string; init: RequestInit }[] = [];
  vi.stubGlobal('fetch', async (url: URL, init: RequestInit) => {
    asked.push({ url: url.href, init });
    return answer();
  });
  return asked;
};
const xml = (body: string, status = 207) =>
  new Response(body, { status, headers: { 'Content-Type': 'application/xml' } });

const file = (
  href: string,
  props = '<D:getcontentlength>5</D:getcontentlength><D:getetag>"e"</D:getetag><D:resourcetype/>',
) =>
  `<D:response><D:href>${href}</D:href><D:propstat><D:prop>${props}</D:prop><D:status>HTTP/1.1 200 OK</D:status></D:propstat></D:response>`;
const multistatus = (...responses: string[]) =>
  `<?xml version="1.0" encoding="utf-8"?>\n<D:multistatus xmlns:D="DAV:">${responses.join('')}</D:multistatus>`;

describe('the list', () => {
  test('hrefs as a path or whole, percent-encoded or not; other folders and the folder itself left out', async () => {
    const asked = answering(() =>
      xml(
        multistatus(
          file('/dav/recency/', '<D:resourcetype><D:collection/></D:resourcetype>'),
          file('/dav/recency/a.log'),
          file('https://example.org/dav/recency/b%20%26%C3%BC.log'),
          file('/%64av/recency/c.log', '<D:getcontentlength/><D:resourcetype/>'),
          file('/dav/recency/sub/', '<D:resourcetype><D:collection/></D:resourcetype>'),
          file('/dav/recency/sub/d.log'),
          file('/dav/other/e.log'),
          file('https://elsewhere.example/dav/recency/f.log'),
          file('/dav/recency/%zz.log'),
        ),
      ),
    );
    expect(await webdav(FOLDER, null, parseXml).list()).toEqual([
      { name: 'a.log', size: 5, etag: '"e"' },
      { name: 'b &ü.log', size: 5, etag: '"e"' },
      { name: 'c.log', size: null },
    ]);
    expect(asked[0]?.init).toMatchObject({ method: 'PROPFIND', credentials: 'same-origin', cache: 'no-store' });
    expect(new Headers(asked[0]?.init.headers).get('Depth')).toBe('1');
  });
  test('other prefixes and a default namespace; a property of another status or namespace does not count', () => {
    const text = `<multistatus xmlns="DAV:" xmlns:x="urn:x"><response><href>/dav/recency/a.log</href>
      <propstat><prop><getcontentlength>7</getcontentlength><x:getetag>no</x:getetag></prop><status>HTTP/2 200</status></propstat>
      <propstat><prop><getetag/></prop><status>HTTP/1.1 404 Not Found</status></propstat></response>
      <response xmlns:y="urn:not-dav"><y:href>/dav/recency/b.log</y:href></response>
      <!-- a > comment --><response><href><![CDATA[/dav/recency/c&d.log]]></href></response></multistatus>`;
    expect(filesIn(parseXml(text), FOLDER)).toEqual([
      { name: 'a.log', size: 7 },
      { name: 'c&d.log', size: null },
    ]);
  });
  test.each([
    ['cut off', multistatus(file('/dav/recency/a.log')).slice(0, -40)],
    ['cut off within a tag', multistatus(file('/dav/recency/a.log')).slice(0, -5)],
    ['empty', ''],
    ['text', 'nothing here'],
    ['crossed', '<a xmlns="DAV:"><b></a></b>'],
    ['of a prefix that nobody declared', '<D:multistatus></D:multistatus>'],
    ['of an entity that is none', `<multistatus xmlns="DAV:">&nbsp;</multistatus>`],
    ['with a document type', `<!DOCTYPE x [<!ENTITY a "b">]>${multistatus()}`],
    ['another element', '<error xmlns="DAV:"/>'],
    ['two roots', `${multistatus()}<x/>`],
  ])('XML that is %s: told, nothing listed', async (_, body) => {
    answering(() => xml(body));
    await expect(webdav(FOLDER, null, parseXml).list()).rejects.toMatchObject({ fault: 'list', message: /cut off/ });
  });
  test('a page instead of a list', async () => {
    answering(() => new Response('<html></html>', { status: 200, headers: { 'Content-Type': 'text/html' } }));
    await expect(webdav(FOLDER, null, parseXml).list()).rejects.toMatchObject({ fault: 'no-dav' });
    answering(() => new Response('<html></html>', { status: 207, headers: { 'Content-Type': 'text/html' } }));
    await expect(webdav(FOLDER, null, parseXml).list()).rejects.toMatchObject({ fault: 'no-dav' });
  });
});

describe('bad answers', () => {
  test.each([
    [401, 'login'],
    [403, 'forbidden'],
    [405, 'no-dav'],
    [409, 'missing'],
    [413, 'full'],
    [423, 'locked'],
    [500, 'server'],
    [503, 'server'],
    [507, 'full'],
    [302, 'no-dav'],
    [418, 'no-dav'],
  ])('%d to whatever verb: %s', async (status, fault) => {
    answering(() => new Response(null, { status }));
    const folder = webdav(FOLDER, null, parseXml);
    await expect(folder.list()).rejects.toMatchObject({ name: 'FolderProblem', fault });
    await expect(folder.get('a.log')).rejects.toMatchObject({ fault });
    await expect(folder.put('a.log', bytes('x'))).rejects.toMatchObject({ fault });
  });
  test('404: no folder, or no file', async () => {
    answering(() => new Response(null, { status: 404 }));
    const folder = webdav(FOLDER, null, parseXml);
    await expect(folder.list()).rejects.toMatchObject({ fault: 'missing' });
    await expect(folder.get('a.log')).rejects.toMatchObject({ fault: 'gone' });
  });
  test('no answer, and an answer that breaks off', async () => {
    answering(() => Promise.reject(new TypeError('Failed to fetch')));
    const folder = webdav(FOLDER, null, parseXml);
    await expect(folder.list()).rejects.toMatchObject({ fault: 'network', message: /nothing is lost/ });
    await expect(folder.put('a.log', bytes('x'))).rejects.toMatchObject({ fault: 'network' });
    answering(() => {
      const body = new ReadableStream({
        start: (controller) => {
          controller.enqueue(bytes('ab'));
          controller.error(new TypeError('terminated'));
        },
      });
      return new Response(body, { status: 200 });
    });
    await expect(folder.get('a.log')).rejects.toMatchObject({ fault: 'network' });
  });
  test('a page instead of a file', async () => {
    answering(() => new Response('<html>', { status: 200, headers: { 'Content-Type': 'text/html; charset=utf-8' } }));
    await expect(webdav(FOLDER, null, parseXml).get('a.log')).rejects.toMatchObject({ fault: 'no-dav' });
  });
  test('a file of 50 MB is not read, whether the server says so or not', async () => {
    const folder = webdav(FOLDER, null, parseXml);
    let read = 0;
    const endless = () =>
      new ReadableStream({
        pull: (controller) => {
          read += 1_000_000;
          controller.enqueue(new Uint8Array(1_000_000));
        },
      });
    answering(() => new Response(endless(), { status: 200, headers: { 'Content-Length': '50000000' } }));
    await expect(folder.get('a.log')).rejects.toMatchObject({ fault: 'too-large' });
    expect(read).toBeLessThan(3_000_000);
    answering(() => new Response(endless(), { status: 200 }));
    await expect(folder.get('a.log')).rejects.toMatchObject({ fault: 'too-large' });
    expect(read).toBeLessThan(14_000_000);
  });
});

describe('what is asked', () => {
  test('a file is put only where none is; 412 means that it is there', async () => {
    const asked = answering(() => new Response(null, { status: 412 }));
    expect(await webdav(FOLDER, null, parseXml).put('a b.log', bytes('x'))).toBe('there');
    expect(asked[0]?.url).toBe('https://example.org/dav/recency/a%20b.log');
    expect(asked[0]?.init.method).toBe('PUT');
    expect(new Headers(asked[0]?.init.headers).get('If-None-Match')).toBe('*');
  });
  test('user and password as in RFC 7617, section 2 and 2.1, without what the browser knows', async () => {
    const asked = answering(() => xml(multistatus()));
    await webdav(FOLDER, { user: 'Aladdin', password: 'open sesame' }, parseXml).list();
    await webdav(FOLDER, { user: 'test', password: '123£' }, parseXml).list();
    expect(asked.map(({ init }) => new Headers(init.headers).get('Authorization'))).toEqual([
      'Basic QWxhZGRpbjpvcGVuIHNlc2FtZQ==',
      'Basic dGVzdDoxMjPCow==',
    ]);
    expect(asked[0]?.init.credentials).toBe('omit');
  });
  test.each([
    ['/dav/x', 'https://example.org/dav/x/'],
    [' https://example.org/dav/x/?a#b ', 'https://example.org/dav/x/'],
    ['../dav/x', 'https://example.org/dav/x/'],
  ])('the address %s', (typed, href) => {
    expect(folderAddress(typed, 'https://example.org/app/').href).toBe(href);
  });
  test.each([
    ['https://elsewhere.example/dav/', /on the server that this app comes from, example\.org/],
    ['http://example.org/dav/', /on the server/],
    ['//elsewhere.example/dav/', /on the server/],
    ['https://a:b@example.org/dav/', /Leave user and password out/],
    ['https://', /no address/],
  ])('not the address %s', (typed, message) => {
    expect(() => folderAddress(typed, 'https://example.org/app/')).toThrow(message);
  });
});
