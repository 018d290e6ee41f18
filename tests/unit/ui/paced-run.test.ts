import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createPacedRun, type PacedRun } from '../../../src/ui/paced/run-model.ts';
import { localVoice, type Voice } from '../../../src/ui/paced/voice.ts';
import { runDeck, startOf } from '../paced/runs.ts';

const LABELS = { crew: (by: string) => by.toUpperCase(), failure: 'An engine has failed' };
const SILENT = () => null;

/** Frames of 16 ms until something holds. @returns visible ms that it took, 4 minutes at most */
const until = (run: PacedRun, holds: () => boolean, from = 0): number => {
  let ms = from;
  while (!holds() && ms < from + 240_000) {
    ms += 16;
    run.frame(ms);
  }
  return ms - from;
};
const begun = (stretch: number, voice: () => Voice | null = SILENT): PacedRun => {
  const run = createPacedRun(startOf(runDeck(), { stretch }), LABELS, voice);
  run.begin();
  return run;
};
const heard = (run: PacedRun): string[] => run.lines.value.map(({ who, text }) => `${who}: ${text}`);

test.each([1, 1.5, 2, 3, 5, 10])(
  'stretched %d times, 50 kt take as many times as long (WCAG 2.2, 2.2.1)',
  (stretch) => {
    const usual = begun(1);
    const slow = begun(stretch);
    const [short, long] = [usual, slow].map((run) => until(run, () => run.knots.value >= 50)) as [number, number];
    expect(short).toBeGreaterThan(5000);
    expect(Math.abs(long / short - stretch)).toBeLessThan(0.01 * stretch);
    // The aeroplane knows nothing of it.
    expect(slow.metres.value).toBe(usual.metres.value);
    expect(slow.seconds.value).toBe(usual.seconds.value);
  },
);

test('untimed it stands still for as long as it waits', () => {
  const run = begun(0);
  until(run, () => run.waits.value);
  expect(run.waits.value).toBe(true);
  const [knots, seconds] = [run.knots.value, run.seconds.value];
  run.frame(1e6);
  run.frame(2e6);
  expect([run.knots.value, run.seconds.value]).toEqual([knots, seconds]);
  run.giveUp();
  until(run, () => run.waits.value);
  expect(run.seconds.value).toBeGreaterThan(seconds);
});

test('paused it stands still, takes no answer, and goes on where it was', () => {
  const run = begun(1);
  until(run, () => run.knots.value >= 20);
  const spent = run.spent();
  run.pause();
  const stood = [run.knots.value, run.seconds.value, run.lines.value.length];
  // An hour of another app.
  run.frame(3_600_000);
  run.press(0);
  expect([run.knots.value, run.seconds.value, run.lines.value.length]).toEqual(stood);
  expect(run.spent()).toBe(spent);
  run.goOn();
  run.frame(3_600_100);
  expect(run.knots.value).toBe(stood[0]);
  until(run, () => run.knots.value > 21, 3_600_100);
  expect(run.knots.value).toBeGreaterThan(21);
});

test('a second tap on the same spot takes nothing that came there with the first one', () => {
  // Some step whose place is dealt anew by the tap itself.
  for (let seed = 1; seed < 40; seed++) {
    const run = createPacedRun(startOf(runDeck(), { seat: 'PF', seed }), LABELS, SILENT);
    run.begin();
    until(run, () => run.seconds.value >= 1);
    const at = run.buttons.value.findIndex(({ id }) => id === 'set');
    if (at < 0) continue;
    run.press(at);
    if (run.buttons.value[at]?.id === 'set') continue;
    const told = heard(run);
    run.press(at);
    expect(heard(run)).toEqual(told);
    // Another spot takes it, and so does this one a moment later.
    const from = 5000;
    run.frame(from);
    run.frame(from + 200);
    run.frame(from + 400);
    run.press(at);
    expect(heard(run).length).toBeGreaterThan(told.length);
    return;
  }
  throw new Error('no such hand');
});

test('the read-out shows no speed below 30 kt, nor that of the wind on the nose before anything moves', () => {
  const run = begun(1);
  const shown = new Set<number>();
  until(run, () => {
    shown.add(run.knots.value);
    return run.knots.value >= 60;
  });
  expect([...shown].sort((a, b) => a - b).slice(0, 3)).toEqual([0, 30, 31]);
});

test('a frame that was held up counts no more than a quarter of a second', () => {
  const run = begun(1);
  run.frame(0);
  run.frame(60_000);
  expect(run.spent()).toBe(250);
  expect(run.seconds.value).toBe(0);
});

test('before it is begun nothing moves and nothing is answered', () => {
  const run = createPacedRun(startOf(runDeck()), LABELS, SILENT);
  run.frame(0);
  run.frame(5000);
  run.press(0);
  expect([run.seconds.value, run.lines.value.length, run.spent()]).toEqual([0, 0, 0]);
});

test("the other pilot's callouts are shown and spoken, what is done or seen is shown alone", () => {
  const said: string[] = [];
  const run = begun(1, () => ({ say: (text) => void said.push(text), stop: () => undefined }));
  const shown: string[] = [];
  until(run, () => {
    for (const line of heard(run)) if (!shown.includes(line)) shown.push(line);
    return run.ended.value !== null;
  });
  // The learner is PM and does nothing: of the PF's the take-off thrust comes, and no call of the PM is made for them.
  expect(shown).toContain('PF: Set take-off thrust');
  expect(said.join()).not.toContain('Set take-off thrust');
  for (const text of said) expect(shown.some((line) => line.includes(text))).toBe(true);
  const asPf = createPacedRun(startOf(runDeck(), { seat: 'PF' }), LABELS, () => ({
    say: (text) => void said.push(text),
    stop: () => undefined,
  }));
  asPf.begin();
  until(asPf, () => said.includes('V one'));
  expect(said).toContain('V one');
});

test('without a voice the same is shown', () => {
  const run = createPacedRun(startOf(runDeck(), { seat: 'PF' }), LABELS, SILENT);
  run.begin();
  until(run, () => heard(run).some((line) => /V one/.test(line)));
  expect(heard(run).some((line) => /^PM: .*V one/.test(line))).toBe(true);
});

class Spoken {
  voice: unknown = null;
  lang = '';
  rate = 1;
  readonly text: string;
  constructor(text: string) {
    this.text = text;
  }
}
const LOCAL = { localService: true, lang: 'en-GB' };

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});
/** A browser with these voices. */
const speaks = (voices: readonly object[], speak: (one: Spoken) => void = () => undefined) => {
  const speech = Object.assign(new EventTarget(), { getVoices: () => voices, speak, cancel: () => undefined });
  vi.stubGlobal('window', { speechSynthesis: speech });
  vi.stubGlobal('SpeechSynthesisUtterance', Spoken);
  return speech;
};
const found = async (language: string): Promise<Voice | null> => {
  const voice = localVoice(language);
  await vi.runAllTimersAsync();
  return voice;
};

test('a voice is one of the device itself, of the language of the deck', async () => {
  const said: Spoken[] = [];
  speaks([{ localService: false, lang: 'en-US' }, { localService: true, lang: 'de-DE' }, LOCAL], (one) => {
    said.push(one);
  });
  (await found('en'))?.say('V one');
  expect(said).toMatchObject([{ text: 'V one', voice: LOCAL, lang: 'en-GB' }]);
  speaks([{ localService: false, lang: 'en-US' }]);
  expect(await found('en-GB')).toBeNull();
  speaks([{ localService: true, lang: 'de-DE' }]);
  expect(await found('en-GB')).toBeNull();
});

test('voices that the browser lists later are found', async () => {
  const voices: object[] = [];
  const speech = speaks(voices);
  const voice = localVoice('en');
  voices.push(LOCAL);
  speech.dispatchEvent(new Event('voiceschanged'));
  expect(await voice).not.toBeNull();
});

test('sound blocked, or no speech at all: nothing breaks, and the run is shown', async () => {
  vi.stubGlobal('window', {});
  expect(await found('en')).toBeNull();
  vi.stubGlobal('window', {
    get speechSynthesis() {
      throw new DOMException('Not allowed.', 'SecurityError');
    },
  });
  expect(await found('en')).toBeNull();
  const speech = speaks([LOCAL], () => {
    throw new DOMException('A tap is needed first.', 'NotAllowedError');
  });
  speech.cancel = () => {
    throw new DOMException('Busy.', 'InvalidStateError');
  };
  const voice = await found('en');
  expect(voice).not.toBeNull();
  const run = createPacedRun(startOf(runDeck(), { seat: 'PF' }), LABELS, () => voice);
  run.begin();
  until(run, () => heard(run).some((line) => /V one/.test(line)));
  run.pause();
  expect(heard(run).some((line) => /V one/.test(line))).toBe(true);
});
