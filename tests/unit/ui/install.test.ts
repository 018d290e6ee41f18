import { afterEach, expect, test, vi } from 'vitest';
import { contentId } from '../../../src/exchange/content-id.ts';
import { makeKey, signingKey } from '../../../src/exchange/keys.ts';
import { signDeck } from '../../../src/exchange/signature.ts';
import { signing } from '../../../src/exchange/signing.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { Checked, Device } from '../../../src/ui/device.ts';
import {
  accept,
  incoming,
  stopChecking,
  takeDemo,
  takeFile,
  takeReport,
  takeText,
} from '../../../src/ui/models/install.ts';
import { forgetSigner, keepKey, knownSigners, signersOf } from '../../../src/ui/models/trust.ts';
import { AT, benchOf, LIMITS } from './learners.ts';

const NEXT: Deck = { ...LIMITS, version: '1.1.0' };
const good: Checked = { deck: NEXT, findings: [] };

/** A checker whose answers come when the test says so, in whatever order. */
const checker = () => {
  const asked: { answer: (checked: Checked) => void; readonly stop: AbortSignal; readonly text: string }[] = [];
  const check: Device['check'] = (text, _, stop) =>
    new Promise((answer, failed) => {
      stop.addEventListener('abort', () => failed(stop.reason));
      asked.push({ answer, stop, text });
    });
  return { asked, more: { check, contentId: async () => 'd'.repeat(64) } };
};
const step = () => incoming.value.step;
const settled = () => new Promise((done) => setTimeout(done));

afterEach(stopChecking);

test('a check that is given up ends the worker, and changes nothing', async () => {
  const { asked, more } = checker();
  const { learner } = await benchOf(LIMITS, more);
  const before = learner.decks.value;
  const done = takeText(learner, 'hostile', 'big.json');
  expect(incoming.value).toEqual({ step: 'checking', name: 'big.json' });
  stopChecking();
  expect(asked[0]?.stop.aborted).toBe(true);
  await done;
  expect(step()).toBe('none');
  expect(learner.decks.value).toBe(before);
  expect(await accept(learner)).toBeNull();
});

test.each([
  ['eyJhbGciOiJFZERTQSIsImp3ayI6e30.e30.AA', 'mail.txt'],
  ['{"cut": "off"', 'Falcon-2026-11-25.report.txt'],
])('a progress report is no deck, and is taken over once (%s)', async (text, name) => {
  const { asked, more } = checker();
  const { learner } = await benchOf(LIMITS, more);
  await takeText(learner, text, name);
  expect(asked).toEqual([]);
  expect(incoming.value).toEqual({ step: 'report', name, text });
  const file = takeReport();
  expect([file?.name, await file?.text()]).toEqual([name, text]);
  expect(takeReport()).toBeNull();
  expect(step()).toBe('none');
});

const COPY = '{"recency":"copy","v":1,"app":"1","at":0,"decks":0,"entries":1}\n{"v":1,"k":"set"';
test.each([
  ['by its first line', COPY, 'mail.txt'],
  ['after a byte order mark, laid out by hand', `\uFEFF${COPY.replace(':', ' : ')}`, 'mail.json'],
  ['of a newer version', COPY.replace('"v":1', '"v":2'), 'mail.txt'],
  ['by its name, where only its end arrived', '{"file":"end"}', 'recency-copy-2026-11-25 (1).txt'],
  ['by its first line, larger than any deck', `${COPY}${' '.repeat(9_000_000)}`, 'mail.txt'],
])('a saved copy is no deck, and is known %s', async (_, text, name) => {
  const { asked, more } = checker();
  const { learner } = await benchOf(LIMITS, more);
  for (const take of [() => takeFile(learner, new File([text], name)), () => takeText(learner, text, name)]) {
    await take();
    const now = incoming.value;
    if (now.step !== 'copy') throw new Error(now.step);
    expect([now.name, now.file.size]).toEqual([name, new Blob([text]).size]);
    stopChecking();
  }
  expect(asked).toEqual([]);
});

test('a deck that speaks of a saved copy is a deck; what is larger and none is refused unread', async () => {
  const { asked, more } = checker();
  const { learner } = await benchOf(LIMITS, more);
  const deck = JSON.stringify({ ...NEXT, about: COPY });
  void takeText(learner, deck, 'a.json').catch(() => undefined);
  expect(asked.map(({ text }) => text)).toEqual([deck]);
  await takeFile(learner, new File([`{${' '.repeat(9_000_000)}`], 'big.json'));
  expect(incoming.value).toMatchObject({ step: 'failed', why: expect.stringContaining('9 MB') });
  expect(asked).toHaveLength(1);
});

test('an answer that comes after all, from a check on this thread, is passed over', async () => {
  let answer: (checked: Checked) => void = () => undefined;
  const check: Device['check'] = () =>
    new Promise((done) => {
      answer = done;
    });
  const { learner } = await benchOf(LIMITS, { check, contentId: async () => 'd'.repeat(64) });
  const done = takeText(learner, 'slow', 'slow.json');
  stopChecking();
  answer(good);
  await done;
  expect(step()).toBe('none');
});

test('a deck that comes while another is checked takes its place', async () => {
  const { asked, more } = checker();
  const { learner } = await benchOf(LIMITS, more);
  const first = takeText(learner, 'first', 'first.json');
  const second = takeFile(learner, new File([JSON.stringify(NEXT)], 'second.json'));
  await settled();
  expect(asked.map(({ stop }) => stop.aborted)).toEqual([true, false]);
  asked[1]?.answer(good);
  await Promise.all([first, second]);
  expect(incoming.value).toMatchObject({
    step: 'ask',
    name: 'second.json',
    text: JSON.stringify(NEXT),
    older: false,
    same: false,
  });
  await accept(learner);
  expect(learner.decks.value.filter(({ active }) => active).map(({ version }) => version)).toEqual(['1.1.0']);
});

test('one that was stopped while it was still loaded is not checked at all', async () => {
  const { asked, more } = checker();
  let loaded: (text: string) => void = () => undefined;
  const demoText = () =>
    new Promise<string>((done) => {
      loaded = done;
    });
  const { learner } = await benchOf(LIMITS, { ...more, demoText });
  const done = takeDemo(learner, { file: 'x', id: 'x', version: '1', title: 'Demo', contentId: '' });
  stopChecking();
  loaded('text');
  await done;
  expect([step(), asked.length]).toEqual(['none', 0]);
});

test('a deck that came with the app was checked when it was built; any other text under its name is checked', async () => {
  const { asked, more } = checker();
  const text = JSON.stringify(NEXT);
  let loaded = text;
  const { learner } = await benchOf(LIMITS, { ...more, contentId, demoText: async () => loaded });
  const demo = { file: 'x', id: NEXT.id, version: '1.1.0', title: 'Demo', contentId: await contentId(text) };
  await takeDemo(learner, demo);
  expect(incoming.value).toMatchObject({ step: 'ask', deck: NEXT, contentId: demo.contentId, findings: [] });
  expect(asked).toEqual([]);
  for (loaded of ['no JSON', JSON.stringify({ ...NEXT, title: 'Another' })]) {
    void takeDemo(learner, demo);
    await vi.waitFor(() => expect(asked.map((one) => one.text)).toContain(loaded));
  }
});

test('a fault of the checker itself is said', async () => {
  const check = () => Promise.reject(new Error('It broke.'));
  const { learner } = await benchOf(LIMITS, { check });
  await takeText(learner, 'x', 'x.json');
  expect(incoming.value).toEqual({ step: 'failed', name: 'x.json', why: 'It broke.' });
});

const AUTHOR = { role: 'author', name: 'A. Author', date: '2026-11-25' } as const;
const CHECKER = { role: 'checker', name: 'C. Checker', date: '2026-11-25' } as const;
const author = await signingKey(await makeKey());
const stranger = await signingKey(await makeKey());
const at = (version: string, more: Partial<Deck> = {}): Deck => ({ ...LIMITS, id: 'calder/signed', version, ...more });

/** A learner whose checker finds nothing, and what becomes of a deck that comes. */
const trusting = async () => {
  const bench = await benchOf(LIMITS, {
    check: async (text) => ({ deck: JSON.parse(text) as Deck, findings: [] }),
    contentId,
    signing: async () => signing,
  });
  const { learner } = bench;
  const come = async (deck: object) => {
    await takeText(learner, JSON.stringify(deck), 'a.deck.json');
    return incoming.value;
  };
  const asked = async (deck: object) => {
    const now = await come(deck);
    if (now.step !== 'ask') throw new Error(JSON.stringify(now));
    return now;
  };
  const take = async (deck: object) => {
    await asked(deck);
    return accept(learner);
  };
  return { ...bench, come, asked, take };
};

test('the first deck of a signer is told as such; the next one is known', async () => {
  const { asked, learner, store } = await trusting();
  const first = await asked(await signDeck(at('1.0.0'), author, AUTHOR));
  expect(first.trust.signatures).toMatchObject([{ name: 'A. Author', met: 'new', valid: true }]);
  expect(await knownSigners(store)).toEqual([]);
  await accept(learner);
  expect(await knownSigners(store)).toMatchObject([{ name: 'A. Author', since: AT }]);
  const next = await asked(await signDeck(at('1.1.0'), author, AUTHOR));
  expect(next.trust).toMatchObject({ signatures: [{ met: 'known' }], changed: [], missing: [] });
  await forgetSigner(store, next.trust.signatures[0]?.key ?? '');
  expect((await asked(await signDeck(at('1.1.0'), author, AUTHOR))).trust.signatures).toMatchObject([{ met: 'new' }]);
});

test('another key under a known name is told apart; the key of this device is known', async () => {
  const { asked, take, store } = await trusting();
  await take(await signDeck(at('1.0.0'), author, AUTHOR));
  const other = { ...at('1.0.0'), id: 'calder/other' };
  expect((await asked(await signDeck(other, stranger, { ...AUTHOR, name: 'a. author' }))).trust).toMatchObject({
    signatures: [{ met: 'namesake' }],
    changed: [],
  });
  const { key } = await signing.makeKey('twelve characters');
  await keepKey(store, { ...key, name: 'Me' });
  expect((await asked(await signing.sign(other, key, AUTHOR))).trust.signatures).toMatchObject([{ met: 'own' }]);
});

test('an unsigned deck says so; it takes the place of no signed one, whatever its version', async () => {
  const { asked, come, take, learner } = await trusting();
  expect((await asked(at('1.0.0'))).trust.signatures).toEqual([]);
  await accept(learner);
  // A signed one takes the place of an unsigned one.
  await take(await signDeck(at('1.1.0'), author, AUTHOR));
  const before = learner.decks.value;
  for (const deck of [at('1.2.0'), { ...at('2.0.0'), signatures: [] }, at('1.0.0', { title: 'x' })]) {
    const now = await come(deck);
    expect(now).toMatchObject({ step: 'refused', findings: [{ severity: 'error', where: 'the deck' }] });
    expect(JSON.stringify(now)).toMatch(/signed by A\. Author; this one is not signed.*Ask whoever gave it/);
    expect(await accept(learner)).toBeNull();
  }
  expect(learner.decks.value).toEqual(before);
  expect(incoming.value).toMatchObject({ own: false });
  // The same content without its signature is there already.
  expect(await asked(at('1.1.0'))).toMatchObject({ same: true, trust: { signatures: [{ name: 'A. Author' }] } });
});

test('whose own key signed what is here is led to sign the next one too', async () => {
  const { come, take, store } = await trusting();
  const { key } = await signing.makeKey('twelve characters');
  await keepKey(store, { ...key, name: 'Me' });
  await take(await signing.sign(at('1.0.0'), key, AUTHOR));
  const now = await come(at('1.1.0'));
  expect(now).toMatchObject({ step: 'refused', own: true });
  expect(JSON.stringify(now)).toContain('sign it in the Workshop, under “Hand over”');
  expect(JSON.stringify(now)).not.toContain('Ask whoever');
});

test('at rest it is protected all the same', async () => {
  const { come, take, learner } = await trusting();
  const stored = await take(await signDeck(at('1.0.0'), author, AUTHOR));
  if (stored !== null) await learner.setActive(stored, false);
  expect(await come(at('2.0.0'))).toMatchObject({ step: 'refused' });
});

test('another signer of a deck that is here is told with the one who is known', async () => {
  const { asked, take, learner } = await trusting();
  await take(await signDeck(at('1.0.0'), author, AUTHOR));
  const other = await signDeck(at('1.1.0'), stranger, { ...AUTHOR, name: 'S. Stranger' });
  expect((await asked(other)).trust).toMatchObject({
    signatures: [{ name: 'S. Stranger', met: 'new' }],
    changed: [{ name: 'A. Author' }],
  });
  // The known author's key as a checker makes it no deck of theirs.
  expect((await asked(await signDeck(other, author, CHECKER))).trust.changed).toMatchObject([{ name: 'A. Author' }]);
  // Taken in all the same, it is the stranger's from then on.
  await accept(learner);
  expect((await asked(await signDeck(at('1.2.0'), author, AUTHOR))).trust.changed).toMatchObject([
    { name: 'S. Stranger' },
  ]);
});

test("a checker's signature may come later, and its absence is told", async () => {
  const { asked, take, learner } = await trusting();
  const signed = await signDeck(at('1.0.0'), author, AUTHOR);
  await take(signed);
  const both = await signDeck(signed, stranger, CHECKER);
  expect(await asked(both)).toMatchObject({ same: false, trust: { changed: [], missing: [] } });
  const stored = await accept(learner);
  expect(learner.decks.value.filter(({ id }) => id === 'calder/signed')).toHaveLength(1);
  if (stored !== null) expect(await signersOf(learner, stored)).toMatchObject([{ met: 'known' }, { met: 'known' }]);
  expect((await asked(await signDeck(at('1.1.0'), author, AUTHOR))).trust).toMatchObject({
    changed: [],
    missing: [{ name: 'C. Checker' }],
  });
});

test('a deck changed after it was signed is refused, known or not', async () => {
  const { come, take } = await trusting();
  const signed = await signDeck(at('1.0.0'), author, AUTHOR);
  const both = await signDeck(signed, stranger, CHECKER);
  expect(await come({ ...both, title: 'Changed' })).toMatchObject({
    step: 'refused',
    findings: [{ where: '/signatures/0', text: expect.stringContaining('changed after it was signed') }],
  });
  expect(await come({ ...signed, signatures: [(signed.signatures[0] as string).replace(/^./, 'f')] })).toMatchObject({
    step: 'refused',
    findings: [{ where: '/signatures' }],
  });
  await take(signed);
  expect(await come({ ...signed, version: '1.1.0' })).toMatchObject({ step: 'refused' });
});

test('where the browser cannot check signatures, a deck is taken as unsigned and its signer is not known', async () => {
  const { asked, take, store, come, learner } = await trusting();
  const deck = await signDeck(at('1.0.0'), author, AUTHOR);
  const none = vi
    .spyOn(crypto.subtle, 'importKey')
    .mockImplementation(() => Promise.reject(new DOMException('no', 'NotSupportedError')));
  try {
    expect((await asked(deck)).trust.signatures).toMatchObject([{ met: 'unchecked' }]);
    await accept(learner);
    expect(await knownSigners(store)).toEqual([]);
    expect(await asked({ ...deck, version: '1.1.0' })).toMatchObject({ step: 'ask' });
  } finally {
    none.mockRestore();
  }
  await take(await signDeck(at('1.2.0'), author, AUTHOR));
  expect(await come(at('1.3.0'))).toMatchObject({ step: 'refused' });
});

test('where the code for signatures cannot be had, nothing is taken and nothing is called false', async () => {
  const { come, device, learner } = await trusting();
  device.signing = () => Promise.reject(new TypeError('Failed to fetch dynamically imported module'));
  expect(await come(await signDeck(at('1.0.0'), author, AUTHOR))).toMatchObject({
    step: 'failed',
    why: expect.stringContaining('Are you online?'),
  });
  expect(await accept(learner)).toBeNull();
});

test('a lower version is told, signed or not', async () => {
  const { asked, take } = await trusting();
  await take(await signDeck(at('1.1.0'), author, AUTHOR));
  expect(await asked(await signDeck(at('1.0.9'), author, AUTHOR))).toMatchObject({
    older: true,
    trust: { changed: [] },
  });
});

test('a pre-release is lower than its release (semver.org, 11.3)', async () => {
  const { asked, take } = await trusting();
  await take(at('1.1.0'));
  expect(await asked(at('1.1.0-rc.1', { title: 'x' }))).toMatchObject({ older: true });
  expect(await asked(at('1.1.1-rc.1'))).toMatchObject({ older: false });
});

/** As in a browser without Ed25519. */
const withoutEd25519 = async (work: () => Promise<void>) => {
  const none = vi.spyOn(crypto.subtle, 'importKey').mockRejectedValue(new DOMException('no', 'NotSupportedError'));
  try {
    await work();
  } finally {
    none.mockRestore();
  }
};

test('where the browser cannot check signatures, they protect what is here all the same', async () => {
  const { asked, come, take } = await trusting();
  const first = await signDeck(at('1.0.0'), author, AUTHOR);
  const next = await signDeck(at('1.1.0'), author, AUTHOR);
  const other = await signDeck(at('1.1.0'), stranger, { ...AUTHOR, name: 'S. Stranger' });
  await withoutEd25519(async () => {
    await take(first);
    expect(await come(at('1.1.0'))).toMatchObject({ step: 'refused', findings: [{ where: 'the deck' }] });
    expect((await asked(other)).trust).toMatchObject({
      signatures: [{ name: 'S. Stranger', met: 'unchecked' }],
      changed: [{ name: 'A. Author' }],
    });
    expect((await asked(next)).trust).toMatchObject({ signatures: [{ met: 'unchecked' }], changed: [] });
  });
});

test('a deck is signed by what it says, however the member is written', async () => {
  const { take, learner } = await trusting();
  const signed = await signDeck(at('1.0.0'), author, AUTHOR);
  const give = async (deck: object) => {
    await takeText(learner, JSON.stringify(deck).replace('"signatures"', '"\\u0073ignatures"'), 'a.deck.json');
    return incoming.value;
  };
  expect(await give({ ...signed, title: 'Changed' })).toMatchObject({ step: 'refused' });
  expect(await give(signed)).toMatchObject({ step: 'ask', trust: { signatures: [{ name: 'A. Author' }] } });
  const stored = await accept(learner);
  expect(stored === null ? [] : await signersOf(learner, stored)).toMatchObject([{ name: 'A. Author' }]);
  expect(await give(signed)).toMatchObject({ step: 'ask', same: true });
  // The word alone is no signature.
  await take({ ...at('1.0.0'), id: 'calder/other', about: 'On "signatures"' });
  await take({ ...at('1.1.0'), id: 'calder/other' });
});

test('an unsigned revision that is practised does not hide the signed one beside it', async () => {
  const { come, take, learner } = await trusting();
  const plain = await take({ ...at('1.0.0'), signatures: [] });
  await take(await signDeck(at('1.1.0'), author, AUTHOR));
  if (plain !== null) await learner.setActive(plain, true);
  expect(await come(at('2.0.0'))).toMatchObject({ step: 'refused', findings: [{ where: 'the deck' }] });
});

test('a copy of the same content takes no signature from the one that is here', async () => {
  const { asked, take, learner } = await trusting();
  const plain = at('1.0.0');
  await take(await signDeck(plain, author, AUTHOR));
  const copy = await signDeck(plain, stranger, { ...CHECKER, name: 'S. Stranger' });
  expect((await asked(copy)).trust).toMatchObject({
    signatures: [{ name: 'A. Author' }, { name: 'S. Stranger' }],
    changed: [],
    missing: [],
  });
  const stored = await accept(learner);
  expect(stored === null ? [] : await signersOf(learner, stored)).toMatchObject([
    { name: 'A. Author', role: 'author' },
    { name: 'S. Stranger', role: 'checker' },
  ]);
  // At rest, and come without any: they stay.
  if (stored !== null) await learner.setActive(stored, false);
  await take(plain);
  expect(learner.decks.value.find(({ ref }) => ref === stored?.ref)?.text).toBe(stored?.text);
});

test.each([
  ['A.\u00a0Author'],
  ['\u0410. Author'],
  ['A. Auth\u03bfr'],
  ['A. Auth0r'],
  ['\uff21. Author'],
  ['A  AUTHOR'],
  ['A. \u00c1uthor'],
])('%j is told as the name of a known signer', async (name) => {
  const { asked, take, store } = await trusting();
  const other = { ...at('1.0.0'), id: 'calder/other' };
  const made = await signDeck(other, stranger, { ...AUTHOR, name });
  expect((await asked(made)).trust.signatures).toMatchObject([{ met: 'new' }]);
  await take(await signDeck(at('1.0.0'), author, AUTHOR));
  expect((await asked(made)).trust.signatures).toMatchObject([{ met: 'namesake' }]);
  const different = await signDeck(other, stranger, { ...AUTHOR, name: 'B. Author' });
  expect((await asked(different)).trust.signatures).toMatchObject([{ met: 'new' }]);
  // So is the name under which this device signs.
  const { key } = await signing.makeKey('twelve characters');
  await keepKey(store, { ...key, name: 'b author' });
  expect((await asked(different)).trust.signatures).toMatchObject([{ met: 'namesake' }]);
});
