import type { Finding } from '../subjects/finding.ts';
import { hasError, inOrder, told } from './check.ts';
import { checkAllDraws, type DrawJob, type Jobs, knownDraws } from './check-draw-parts.ts';
import { type Noted, type Part, settingOf, textParts, viewParts } from './check-parts.ts';
import { mend } from './mend.ts';
import { readDeck } from './read.ts';
import { TextNumbers } from './text-numbers.ts';

/** What is known of a draft so far. */
export interface LiveRun {
  /** At once: everything but what scenarios draw; of draws what an earlier check found and still holds. */
  readonly findings: readonly Finding[];
  /**
   * Tries the draws out, pausing every few ms, and gives what the command line says of the same text. Null where
   * `findings` is all there is to say.
   */
  readonly rest: Generator<undefined, readonly Finding[]> | null;
}

const MOST_JOBS = 100;

/**
 * The checker while somebody types. It keeps what it found of each part of a draft and all that the part read, so that
 * a change costs no more than what depends on it.
 */
export class LiveChecker {
  readonly #texts: TextNumbers;
  /** Parts of the check before and of the one before that. */
  #known: readonly Map<string, readonly Noted[]>[] = [];
  readonly #draws = new Map<string, DrawJob>();

  /** @param texts what it knows earlier texts by; bounds what it keeps */
  constructor(texts = new TextNumbers()) {
    this.#texts = texts;
  }

  /**
   * @param text a draft as JSON, perhaps not in the shape of a deck. Where its shape is wrong at some places, the
   *   command line says no more than that; here what else is wrong, whatever comes to those places, is said too.
   * @param today ISO calendar date against which review dates are held
   */
  check(text: string, today: string): LiveRun {
    const { deck, findings } = readDeck(text);
    if (!deck) return { findings: inOrder([...findings, ...this.#besides(text, findings, today)]), rest: null };
    const setting = settingOf(deck);
    const noted = this.#run(textParts(setting, today));
    if (hasError(noted)) return this.#all(told(noted));
    noted.push(...this.#run(viewParts(setting)));
    const { found, all } = knownDraws(setting, this.#jobs);
    if (all) return this.#all(told([...noted, ...found]));
    const rest = function* (jobs: Jobs): Generator<undefined, readonly Finding[]> {
      return told([...noted, ...(yield* checkAllDraws(setting, jobs))]);
    };
    return { findings: told([...noted, ...found]), rest: rest(this.#jobs) };
  }

  #all = (findings: readonly Finding[]): LiveRun => ({ findings, rest: null });

  /** What is wrong with a draft besides its shape. */
  #besides(text: string, shape: readonly Finding[], today: string): readonly Finding[] {
    const mended = mend(text, shape);
    if (!mended) return [];
    return told(this.#run(textParts(settingOf(mended.deck), today))).filter((f) => mended.holds(f));
  }

  #run(parts: readonly Part[]): Noted[] {
    const now = new Map<string, readonly Noted[]>();
    const out: Noted[] = [];
    for (const part of parts) {
      const key = this.#key([part.kind, ...part.reads()]);
      const found = now.get(key) ?? this.#before(key) ?? foundBy(part);
      now.set(key, found);
      out.push(...found);
    }
    this.#known = [now, ...this.#known.slice(0, KEPT)];
    return out;
  }

  #before = (key: string): readonly Noted[] | undefined => {
    for (const known of this.#known) {
      const found = known.get(key);
      if (found) return found;
    }
    return undefined;
  };

  #key = (texts: readonly string[]): string => texts.map((text) => this.#texts.of(text)).join();

  readonly #jobs: Jobs = {
    peek: (reads) => this.#draws.get(this.#key(reads)),
    get: (reads, left, make) => {
      const key = this.#key(reads);
      const known = this.#draws.get(key);
      const job = known?.fits(left) ? known : make();
      // The one used last stands last.
      this.#draws.delete(key);
      this.#draws.set(key, job);
      for (const [old] of this.#draws) if (this.#draws.size > MOST_JOBS) this.#draws.delete(old);
      return job;
    },
  };
}

/** Runs kept: each check makes two, text and views, and an undo leads one check back. */
const KEPT = 5;

function foundBy(part: Part): readonly Noted[] {
  const found: Noted[] = [];
  part.work((...noted) => void found.push(noted));
  return found;
}
