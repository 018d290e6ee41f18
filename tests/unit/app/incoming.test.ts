import { expect, test } from 'vitest';
import { putIncoming, takeIncoming } from '../../../src/app/incoming.ts';

const storage = (): Storage => {
  const kept = new Map<string, string>();
  return {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, value: string) => void kept.set(key, value),
    removeItem: (key: string) => void kept.delete(key),
  } as unknown as Storage;
};

test('what is put is taken once', () => {
  const session = storage();
  const incoming = { from: 'https://decks.example/a', text: '{"<b>": "\\u0000"}' };
  putIncoming(session, incoming);
  expect(takeIncoming(session)).toEqual(incoming);
  expect(takeIncoming(session)).toBeNull();
});

test.each(['', '{', 'null', '[]', '{"from": 1, "text": "x"}', '{"text": "x"}'])('%s is nothing, and gone', (stored) => {
  const session = storage();
  session.setItem('recency.incoming', stored);
  expect(takeIncoming(session)).toBeNull();
  expect(session.getItem('recency.incoming')).toBeNull();
});
