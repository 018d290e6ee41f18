/** A report as statements of the Experience API, version 1.0.3 (part two, "Data", section 2.4: from memory). */
import type { IsoDate } from '../model/deck.ts';
import type { ReceivedReport, Report, ReportDeck, ReportItem } from '../model/report.ts';
import { itemOf, type KnownDecks, type KnownItem } from './known.ts';
import { NAMESPACE_URL, uuidOf } from './uuid.ts';

/** Section 2.4.4.1: `sequencing`, `numeric` and `choice` are those that questions about items have. */
export type Interaction = 'sequencing' | 'numeric' | 'choice';

export interface Statement {
  readonly id: string;
  readonly version: '1.0.3';
  readonly actor: {
    readonly objectType: 'Agent';
    readonly account: { readonly homePage: string; readonly name: string };
  };
  readonly verb: { readonly id: string; readonly display: Readonly<Record<string, string>> };
  readonly object: {
    readonly objectType: 'Activity';
    readonly id: string;
    readonly definition: {
      readonly type: string;
      readonly name: Readonly<Record<string, string>>;
      readonly interactionType: Interaction;
    };
  };
  readonly result: {
    readonly success: boolean;
    readonly score?: { readonly scaled: number };
    readonly extensions: Readonly<Record<string, unknown>>;
  };
  readonly context: { readonly platform: string; readonly extensions: Readonly<Record<string, unknown>> };
  readonly timestamp: string;
}

const VERB = 'http://adlnet.gov/expapi/verbs/answered';
const ACTIVITY = 'http://adlnet.gov/expapi/activities/cmi.interaction';

const AGGREGATED =
  'All answers to this item up to the day of the report, summed up. The report holds no single answers, no order and no ' +
  'times of day. success: more answers were right than missed. score.scaled, where there is a check ahead: recall chance on the ' +
  'check day as the memory model of the app predicts it if nothing more is practised, not a mark. timestamp: the day of the report, without a time.';

const interactionOf = ({ facet, choice }: KnownItem): Interaction =>
  facet === 'place' ? 'sequencing' : choice ? 'choice' : 'numeric';

/** A day as a moment: a report knows no times. */
const timestamp = (day: IsoDate): string => `${day}T00:00:00Z`;

/**
 * One statement for each item that was answered. The same report gives the same statements, ids included, on every
 * device that has the same decks and names the trainee alike; of another name they are others: one id, one actor.
 * @param home address of the app, ending with a slash
 * @param name of the trainee: the pseudonym, told apart from others who chose the same
 */
export const statementsOf = async (
  { report, key, hash }: ReceivedReport,
  decks: KnownDecks,
  home: string,
  name = report.trainee,
): Promise<Statement[]> => {
  const extension = (name: string): string => `${home}xapi/extensions/${name}`;
  const statement = async (deck: ReportDeck, item: ReportItem): Promise<Statement> => {
    const known = itemOf(decks.get(deck.id), item.key);
    const [missed, unsure, sound, fluent] = item.verdicts;
    return {
      id: await uuidOf(NAMESPACE_URL, `urn:sha256:${hash}#${item.key}${name === report.trainee ? '' : `@${name}`}`),
      version: '1.0.3',
      actor: { objectType: 'Agent', account: { homePage: home, name } },
      verb: { id: VERB, display: { en: 'answered' } },
      object: {
        objectType: 'Activity',
        id: `${home}xapi/items/${encodeURIComponent(item.key)}`,
        definition: {
          type: ACTIVITY,
          name: { [decks.get(deck.id)?.language ?? 'en']: known.label },
          interactionType: interactionOf(known),
        },
      },
      result: {
        success: unsure + sound + fluent > missed,
        // Never that of today: just after practice it is 1, of whoever missed everything too.
        ...(item.day !== null && { score: { scaled: item.day } }),
        extensions: {
          [extension('aggregated')]: AGGREGATED,
          [extension('verdicts')]: { missed, unsure, sound, fluent },
          [extension('taken-back')]: item.voids,
          ...(item.sureWrong !== undefined && { [extension('sure-but-wrong')]: item.sureWrong }),
          ...(item.last != null && { [extension('last-answer')]: item.last }),
          ...(item.now !== null && { [extension('recall-on-day-of-report')]: item.now }),
          ...(item.day !== null && { [extension('recall-on-check-day')]: item.day }),
          ...(item.check !== undefined && { [extension('check-date')]: item.check }),
        },
      },
      context: { platform: `Recency ${report.app}`, extensions: contextOf(report, deck) },
      timestamp: timestamp(report.made),
    };
  };
  const contextOf = (of: Report, deck: ReportDeck) => ({
    [extension('report')]: {
      sha256: hash,
      key,
      number: of.n,
      made: of.made,
      checkDate: of.checkDate,
      leftOut: of.leftOut,
      selfRecorded: true,
    },
    [extension('deck')]: { id: deck.id, version: deck.version, sha256: deck.contentId, views: deck.variants },
  });
  const answered = report.decks.flatMap((deck) =>
    deck.items.filter(({ verdicts }) => verdicts.some((times) => times > 0)).map((item) => ({ deck, item })),
  );
  return Promise.all(answered.map(({ deck, item }) => statement(deck, item)));
};
