import { compareVersions } from '../deck/version.ts';
import type { StoredDeck } from '../model/ports.ts';
import type { KnownDecks } from './known.ts';
import type { ClassSettings, Packed } from './types.ts';

type Revision = Pick<StoredDeck, 'version' | 'contentId'>;

export interface OldRevision {
  readonly deck: string;
  readonly title: string;
  readonly version: string;
  /** The revision that it is held against; null: its version is not known here. */
  readonly wanted: string | null;
  /** Whose that is: the newest on this device; without the deck what was assigned; or what the class expects by name. */
  readonly by: 'device' | 'assignment' | 'class';
  readonly how: 'older' | 'newer' | 'other';
  /** The version assigned, where that is another than the one it is held against. */
  readonly assigned: string | null;
}

export interface RevisionInput {
  readonly decks: KnownDecks;
  readonly settings: ClassSettings;
  /** Deck id → the revision that was assigned on this device. */
  readonly assigned?: ReadonlyMap<string, Revision>;
}

/**
 * Meant is the revision that is expected by name, else the newest on this device, and where the deck is not here the one
 * assigned: whoever still practises what was assigned before a later release is to be told of it, not passed over.
 */
export const oldRevisions = (
  { decks: reported }: Packed,
  { decks, settings, assigned }: RevisionInput,
): OldRevision[] =>
  reported.flatMap(({ id, title, version, contentId }): OldRevision[] => {
    const [here, told] = [decks.get(id)?.newest, assigned?.get(id)];
    const named = settings.decks.find((one) => one.id === id)?.contentId ?? null;
    const known = [here, told].filter((one) => one !== undefined);
    const wanted = named ?? known[0]?.contentId ?? null;
    if (wanted === null || wanted === contentId) return [];
    const wantedVersion = known.find((one) => one.contentId === wanted)?.version ?? null;
    const order = wantedVersion === null ? 0 : compareVersions(version, wantedVersion);
    return [
      {
        deck: id,
        title,
        version,
        wanted: wantedVersion,
        by: named !== null ? 'class' : here !== undefined ? 'device' : 'assignment',
        how: order < 0 ? 'older' : order > 0 ? 'newer' : 'other',
        assigned: told === undefined || told.contentId === wanted ? null : told.version,
      },
    ];
  });
