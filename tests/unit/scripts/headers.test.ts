import { describe, expect, test } from 'vitest';
import { appPolicy, devPolicy, headersFile, headersFor, openPolicy } from '../../../scripts/headers.mjs';

const policyOf = (path: string): string | undefined => headersFor(path)['Content-Security-Policy'];

describe('headersFor', () => {
  test('gives the open policy to open.html and to nothing else', () => {
    expect(policyOf('/open.html')).toBe(openPolicy);
    expect(policyOf('/open')).toBe(openPolicy);
    for (const path of ['/', '/index.html', '/sw.js', '/assets/open-x.js', '/openings.html', '/x/open.html/y']) {
      expect(policyOf(path), path).toBe(appPolicy);
    }
  });

  test('lets only files with a hash in their name be kept for ever', () => {
    expect(headersFor('/assets/index-abc.js')['Cache-Control']).toContain('immutable');
    for (const path of ['/', '/sw.js', '/decks/index.json']) expect(headersFor(path)['Cache-Control']).toBe('no-cache');
  });
});

/** A `_headers` file as hosts read it: every rule that matches adds its headers; two of one name both hold. */
const hostAnswers = (file: string, path: string): Map<string, string[]> => {
  const answer = new Map<string, string[]>();
  for (const rule of file.split('\n\n')) {
    const [pattern = '', ...lines] = rule.trim().split('\n');
    const like = new RegExp(`^${pattern.replace(/[.]/g, '\\.').replace('*', '.*')}$`);
    if (!like.test(path)) continue;
    for (const line of lines) {
      const [, name = '', value = ''] = /^ {2}([^:]+): (.*)$/.exec(line) ?? [];
      answer.set(name, [...(answer.get(name) ?? []), value]);
    }
  }
  return answer;
};

test.each(['/', '/index.html', '/sw.js', '/assets/index-x.js', '/assets/run.worker-x.js', '/open.html', '/open'])(
  'the file for static hosts says the same about %s as our own server',
  (path) => {
    const answer = hostAnswers(headersFile(), path);
    for (const [name, value] of Object.entries(headersFor(path))) expect(answer.get(name), name).toEqual([value]);
  },
);

test('the development server loosens styles and the socket, not scripts', () => {
  expect(devPolicy(appPolicy)).toContain("script-src 'self';");
  expect(devPolicy(appPolicy)).toContain("connect-src 'self' ws: 'self'");
  expect(devPolicy(openPolicy)).toContain("connect-src 'self' ws: https:");
});
