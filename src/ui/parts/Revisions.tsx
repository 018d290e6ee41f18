import { useState } from 'preact/hooks';
import { olderFirst } from '../../deck/amend.ts';
import { dateWords } from '../../lib/date-words.ts';
import type { Deck } from '../../model/deck.ts';
import type { StoredDeck } from '../../model/ports.ts';
import { amendmentOf } from '../models/amendment.ts';
import type { Learner } from '../models/learner.ts';

const day = (iso: string): string => dateWords(Date.parse(`${iso}T00:00:00Z`) / 86_400_000);

/** Of a deck's page: its revisions on this device. Each can be taken back, and with it what was known of its answers. */
export function Revisions(props: { readonly learner: Learner; readonly deck: string }) {
  const { learner } = props;
  const [said, setSaid] = useState('');
  const [busy, setBusy] = useState(false);
  const all = learner.decks.value.filter(({ id }) => id === props.deck).sort((a, b) => olderFirst(b, a));
  if (all.length < 2) return null;
  const practised = learner.practised.value.find(({ chosen }) => chosen.id === props.deck);
  const take = async (stored: StoredDeck) => {
    setBusy(true);
    setSaid('');
    try {
      await learner.setActive(stored, true);
      setSaid(`Version ${stored.version} is taken. What you know of its answers is as you left it.`);
    } catch {
      setSaid(learner.problem.value ?? '');
    } finally {
      setBusy(false);
    }
  };
  return (
    <section class="stack">
      <h2>Versions on this device</h2>
      <ul class="lines">
        {all.map((stored) => {
          const { effective, until } = JSON.parse(stored.text) as Deck;
          const state = [
            ...(stored.active ? ['taken'] : []),
            ...(practised?.stored.ref === stored.ref ? ['asked now'] : []),
            ...(effective === undefined ? [] : [`in force from ${day(effective)}`]),
            ...(until === undefined ? [] : [`until ${day(until)}`]),
          ];
          return (
            <li key={stored.ref} class="stack">
              <p>
                Version {stored.version}
                <span class="soft small">
                  {state.length > 0 && ` · ${state.join(', ')}`} · here since{' '}
                  {dateWords(
                    Math.floor((stored.installed + learner.device.off(stored.installed) * 60_000) / 86_400_000),
                  )}
                </span>
              </p>
              {!stored.active && (
                <button type="button" disabled={busy || !learner.writing.value} onClick={() => void take(stored)}>
                  Take this version back
                  <span class="hidden-visually">: {stored.version}</span>
                </button>
              )}
            </li>
          );
        })}
      </ul>
      {amendmentOf(learner, props.deck) !== null && (
        <a class="button" href={`#/amendment/${encodeURIComponent(props.deck)}`}>
          What was amended
        </a>
      )}
      <p role="status" class="small">
        {said}
      </p>
    </section>
  );
}
