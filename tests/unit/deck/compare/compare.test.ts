import { describe, expect, test } from 'vitest';
import { compareDecks } from '../../../../src/deck/compare/compare.ts';
import { riseOf } from '../../../../src/deck/compare/rise.ts';
import type { Difference } from '../../../../src/deck/compare/types.ts';
import { weightiestFirst } from '../../../../src/deck/compare/weight.ts';
import { resolve } from '../../../../src/deck/resolve.ts';
import type { Deck } from '../../../../src/model/deck.ts';
import { parseItemKey } from '../../../../src/model/item.ts';
import { BASE, type Change, changed, type Loose } from '../../../fixtures/decks/base.ts';
import { PAIRS } from '../../../fixtures/decks/findings.ts';
import { rule as ruleOf } from '../../forms/small-decks.ts';

const NB = /\u00a0/g;
const plain = (d: Difference): Difference => ({ ...d, old: d.old.replace(NB, ' '), now: d.now.replace(NB, ' ') });
const between = (before: Change, after: Change): Difference[] =>
  compareDecks(changed(before), changed(after)).differences.map(plain);
const same: Change = () => {};
const since = (after: Change): Difference[] => between(same, after);
const rise = (after: Change) => riseOf(compareDecks(BASE, changed(after)));
const limit = (d: Loose, id: string): Loose => d.limits.find((l: Loose) => l.id === id);
const roll = (d: Loose): Loose[] => d.procedures[0].steps;
const brief = (list: readonly Difference[]) => list.map((d) => [d.kind, d.thing, d.what, d.old, d.now]);

/** The stamp that an item of the base deck has. */
const stampOf = (thing: string, facet: string): string => {
  const all = resolve(BASE as Deck, '0'.repeat(64), { engine: ['a', 'b'] });
  const found = [...all.items.keys()].map((k) => parseItemKey(k)).find((p) => p?.thing === thing && p.facet === facet);
  return `${facet}~${found?.stamp}`;
};

describe('answers', () => {
  test('a value, old and new as the trade writes them', () => {
    const found = since((d) => {
      limit(d, 'pause').value = 5;
    });
    // The rule that computes with the limit recalls it, too.
    expect(brief(found)).toEqual([
      ['answer', 'Limit: Pause at half thrust', 'value', 'at least 3 s', 'at least 5 s'],
      [
        'answer',
        'Scenario: wind: Stick: rule “strong”',
        'rule',
        'If there is a tailwind or crosswind is above 3 s × 5: Full forward',
        'If there is a tailwind or crosswind is above 5 s × 5: Full forward',
      ],
    ]);
    expect(found[0]).toMatchObject({ path: '/limits/1/value', gone: false, variants: '', rise: 'major' });
    expect(found[1]?.path).toBe('/scenarios/0/asks/1/choose/rules/0');
  });

  test('unit, sense and strict are parts of a value; so are both ends of a range', () => {
    const one = (change: Change) => brief(since(change)).map((x) => x.slice(2));
    expect(one((d) => Object.assign(limit(d, 'colour'), { is: 'blue', slips: [] }))).toEqual([
      ['usual slips', 'blue: Another type.', ''],
      ['value', 'Red', 'Blue'],
    ]);
    expect(
      one((d) => {
        limit(d, 'band').to = 16;
      }),
    ).toEqual([['value', '12° to 15°', '12° to 16°']]);
    expect(
      one((d) => {
        limit(d, 'crosscheck').sense = 'at least';
      }),
    ).toEqual([
      // As the drill says it to whom it is a cue: “at least 80 kt” is no moment.
      ['cue', '80 kt', '80 kt or more'],
      ['value', '80 kt', 'at least 80 kt'],
    ]);
  });

  test('a case names its circumstances, a variant is named, and the pointer goes to the case', () => {
    const found = since((d) => {
      limit(d, 'start-limit').cases[1].value = 80;
      limit(d, 'retract').cases[0].value = 155;
    });
    expect(found).toMatchObject([
      {
        kind: 'answer',
        thing: 'Limit: Speed to retract (Flaps 1)',
        old: 'Flaps 1: at least 150 kt',
        now: 'Flaps 1: at least 155 kt',
        variants: '',
        path: '/limits/3/cases/0/value',
      },
      {
        kind: 'answer',
        old: 'at most 90 s',
        now: 'at most 80 s',
        variants: 'Engine B',
        path: '/limits/4/cases/1/value',
      },
    ]);
  });

  test('one variant taking over what another already had is a changed answer there', () => {
    const found = since((d) => {
      limit(d, 'start-limit').cases = [
        { id: 'a', when: { engine: 'a' }, value: 60 },
        { id: 'b', when: { engine: 'b' }, value: 60 },
      ];
    });
    expect(found.map((d) => [d.kind, d.variants, d.old, d.now])).toContainEqual([
      'answer',
      'Engine B',
      'at most 90 s',
      'at most 60 s',
    ]);
  });

  test('callout, cue and who', () => {
    const found = since((d) => {
      Object.assign(roll(d)[0], { say: 'Set thrust', by: 'PM', cue: { text: 'Lined up' } });
    });
    expect(brief(found)).toEqual([
      ['answer', 'Step: “Set thrust” (Take-off roll)', 'cue', 'Clearance read back', 'Lined up'],
      ['answer', 'Step: “Set thrust” (Take-off roll)', 'who', 'PF', 'PM'],
      ['answer', 'Step: “Set thrust” (Take-off roll)', 'callout', '“Take-off”', '“Set thrust”'],
    ]);
    expect(found.map((d) => d.path)).toEqual([
      '/procedures/0/steps/0/cue',
      '/procedures/0/steps/0/by',
      '/procedures/0/steps/0/say',
    ]);
  });

  test('rules say condition and outcome; values of let are said in full', () => {
    const found = since((d) => {
      d.scenarios[0].let.tail = 'max(0, -headwind(windDir, windSpeed + 5, runway))';
    });
    expect(found.map((d) => [d.kind, d.what])).toEqual([['answer', 'rule']]);
    expect(found[0]?.old).not.toBe(found[0]?.now);
    expect(found[0]?.rise).toBe('major');
  });

  test('where the words are the same, it says that something behind them is not', () => {
    const found = since((d) => {
      const { id: _, ...rest } = roll(d)[2];
      roll(d)[2] = { id: 'hundred-2', ...rest };
      roll(d)[3].answers = 'hundred-2';
    });
    const places = found.filter((d) => d.what === 'place' && d.kind === 'answer');
    expect(places.length).toBeGreaterThan(0);
    for (const d of places) expect(d.now).toBe(`${d.old} (another step with the same words)`);
  });
});

describe('what came and went', () => {
  test('a step put in is one addition; its neighbours start afresh because of it', () => {
    const found = since((d) => {
      roll(d).splice(2, 0, { id: 'rotate', do: 'Rotate', by: 'PF', cue: { text: 'Speed' } });
    });
    expect(found.filter((d) => d.kind === 'added')).toMatchObject([
      { thing: 'Step: “Rotate” (Take-off roll)', what: '', path: '/procedures/0/steps/2', rise: 'minor' },
    ]);
    const places = found.filter((d) => d.kind === 'answer');
    expect(places.map((d) => d.thing)).toEqual([
      'Step: “Thrust levers to take-off” (Take-off roll)',
      'Step: “Start the timer” (Take-off roll)',
      'Step: “One hundred” (Take-off roll)',
    ]);
    for (const d of places) expect(d).toMatchObject({ what: 'place', because: '“Rotate”', rise: 'major' });
    expect(places[1]).toMatchObject({
      old: 'after “Take-off”, before “One hundred”',
      now: 'after “Take-off”, before “Rotate”',
    });
    expect(found.length).toBe(4);
  });

  test('a step moved: its own place, and the neighbours on both sides because of it', () => {
    const found = since((d) => {
      roll(d).push(roll(d).splice(0, 1)[0]);
      roll(d)[0].lanes[1][0].needs = undefined;
      delete roll(d)[0].lanes[1][0].needs;
    });
    const own = found.find((d) => d.thing.startsWith('Step: “Take-off”') && d.what === 'place');
    expect(own?.because).toBeUndefined();
    const others = found.filter((d) => d.what === 'place' && d !== own);
    expect(others.length).toBeGreaterThan(2);
    for (const d of others) expect(d.because).toBe('“Take-off”');
  });

  test('in a lane of its own a new step changes no neighbour: that is minor', () => {
    const found = since((d) => {
      roll(d)[1].lanes.push([{ id: 'brakes', do: 'Feet off the brakes' }]);
      roll(d)[0] = roll(d)[0];
    });
    // The steps before and after the lanes have a neighbour more.
    expect(found.filter((d) => d.kind === 'answer').map((d) => d.thing)).toEqual([
      'Step: “Take-off” (Take-off roll)',
      'Step: “One hundred” (Take-off roll)',
    ]);
    const alone = since((d) => {
      d.limits.push({ id: 'new', ask: 'New', unit: 'ft', sense: 'exactly', value: 5, source: 'som' });
    });
    expect(brief(alone).map((x) => [...x.slice(0, 3), x[4]])).toEqual([['added', 'Limit: New', '', '5 ft']]);
    expect(alone[0]?.rise).toBe('minor');
  });

  test('what is gone is pointed to in the deck before', () => {
    const found = since((d) => {
      d.limits.splice(2, 1);
    });
    expect(found).toMatchObject([
      {
        kind: 'removed',
        gone: true,
        path: '/limits/2',
        thing: 'Limit: Pitch after lift-off',
        old: '12° to 15°',
        now: '',
        rise: 'major',
      },
    ]);
  });

  test('a whole procedure is said once, not step by step', () => {
    const found = since((d) => {
      d.procedures.push({
        id: 'park',
        title: 'Parking',
        done: 'flow',
        source: 'som',
        steps: [
          { id: 'p1', do: 'Brake' },
          { id: 'p2', do: 'Lamps off' },
        ],
      });
    });
    expect(brief(found)).toEqual([['added', 'Procedure: Parking', '', '', '“Brake”, “Lamps off”']]);
  });

  test('a facet that came or went on a step that both have', () => {
    const found = since((d) => {
      roll(d)[4].by = undefined;
      delete roll(d)[4].by;
      roll(d)[3].cue = { text: 'Nose up' };
    });
    expect(brief(found)).toEqual([
      ['added', 'Step: “Checked” (Take-off roll)', 'cue', '', 'Nose up'],
      ['removed', 'Step: “Bleeds off” (Take-off roll)', 'who', 'PM', ''],
    ]);
    expect(found.map((d) => d.rise)).toEqual(['minor', 'major']);
  });

  test('an option of a variant that came holds nothing new where all is common; one that went is major', () => {
    const added = since((d) => {
      d.variants[0].options.c = 'Engine C';
    });
    expect(added[0]).toMatchObject({ kind: 'head', thing: 'Variant, Engine: Engine C', rise: 'minor' });
    expect(
      rise((d) => {
        delete d.variants[0].options.b;
        limit(d, 'start-limit').cases.pop();
      }),
    ).toBe('major');
  });

  test('what a new option alone holds was added for it', () => {
    const found = since((d) => {
      d.variants[0].options.c = 'Engine C';
      limit(d, 'start-limit').cases[1].when = { engine: 'b' };
      limit(d, 'start-limit').cases.push({ id: 'c', when: { engine: 'c' }, value: 45 });
    });
    expect(found.find((d) => d.kind === 'added')).toMatchObject({ now: 'at most 45 s', variants: 'Engine C' });
    expect(found.some((d) => d.kind === 'answer' || d.kind === 'removed')).toBe(false);
  });

  test('a step confined to one variant went for the others', () => {
    const found = since((d) => {
      roll(d)[3].when = { engine: 'a' };
    });
    expect(found.filter((d) => d.kind === 'removed').map((d) => [d.what, d.variants, d.path])).toEqual([
      ['place', 'Engine B', '/procedures/0/steps/3'],
      ['who', 'Engine B', '/procedures/0/steps/3/by'],
      ['callout', 'Engine B', '/procedures/0/steps/3/say'],
    ]);
  });
});

describe('words', () => {
  test('titles, reasons, slips, wordings, notes, sources, strangers, bands', () => {
    const found = since((d) => {
      d.procedures[0].title = 'Roll';
      d.procedures[0].strangers.pop();
      Object.assign(roll(d)[0], {
        why: 'So that PM looks',
        alsoSay: ['Taking off'],
        source: 'som#3.3',
        critical: true,
      });
      limit(d, 'crosscheck').accept = 3;
      limit(d, 'crosscheck').slips[0].note = 'Another type has it.';
      d.scenarios[0].draw.windSpeed.to = 25;
    });
    expect(brief(found).map((x) => x.slice(0, 1).concat(x.slice(2)))).toEqual([
      ['words', 'title', 'Take-off roll', 'Roll'],
      ['words', 'steps that do not belong', 'Autopilot on; Flaps up: Not before the climb.', 'Autopilot on'],
      ['words', 'reason', '', 'So that PM looks'],
      ['words', 'accepted wordings of the callout', '', 'Taking off'],
      ['words', 'source', '', 'som#3.3'],
      ['words', 'critical', '', 'yes'],
      ['words', 'accepted distance', '±2 kt', '±3 kt'],
      ['words', 'usual slips', '100: Another type.', '100: Another type has it.'],
      ['words', 'drawn value “windSpeed”', '{"from":4,"to":20}', '{"from":4,"to":25}'],
    ]);
    expect(new Set(found.map((d) => d.rise))).toEqual(new Set(['patch']));
  });

  test('a callout in other letters is the same answer, and its words changed', () => {
    const found = since((d) => {
      roll(d)[2].say = 'ONE HUNDRED!';
    });
    expect(brief(found)).toEqual([
      ['words', 'Step: “ONE HUNDRED!” (Take-off roll)', 'callout', 'One hundred', 'ONE HUNDRED!'],
    ]);
  });

  test('the head of a deck, its sources and their editions', () => {
    const found = since((d) => {
      Object.assign(d, { title: 'Basis', effective: '2026-03-01', nature: 'operator' });
      d.sources[0].edition = 'Rev 4';
      d.sources.push({ id: 'sup', title: 'Supplement', basis: 'invented' });
    });
    expect(brief(found)).toEqual([
      ['head', '', 'title', 'Base', 'Basis'],
      ['head', '', 'nature', 'fictional', 'operator'],
      ['head', '', 'takes effect', '1 January 2026', '1 March 2026'],
      ['head', 'Source: Invented manual', 'edition', '', 'Rev 4'],
      ['head', 'Source: Supplement', '', '', 'Supplement'],
    ]);
  });

  test('moving things in the file says nothing; a version alone says nothing', () => {
    expect(
      since((d) => {
        d.limits.reverse();
        d.procedures.reverse();
        d.version = '2.0.0';
      }),
    ).toEqual([]);
  });

  test('lanes split without another order say nothing; cases of one instead of a plain value neither', () => {
    expect(
      since((d) => {
        const [half, set] = roll(d)[1].lanes[0];
        roll(d)[1].lanes[0] = [{ steps: [half] }, { steps: [set] }];
        const one = limit(d, 'pause');
        one.cases = [{ id: 'standard', value: one.value }];
        delete one.value;
      }),
    ).toEqual([]);
  });

  test('the order of a read list', () => {
    const list: Change = (d) => {
      d.procedures[3].steps.push({ id: 'list-flaps', do: 'Flaps up' });
    };
    const found = between(list, (d) => {
      list(d);
      d.procedures[3].steps.reverse();
    });
    expect(brief(found)).toEqual([
      ['words', 'Procedure: After take-off checklist', 'order', '“Gear up”, “Flaps up”', '“Flaps up”, “Gear up”'],
    ]);
  });
});

describe('what is done, but has no memory of its own, rises the version as an answer does', () => {
  test.each<[string, Change, string]>([
    ['when a step holds', (d) => Object.assign(roll(d)[4], { if: '!engineOut' }), 'holds only if'],
    ['a wait', (d) => Object.assign(roll(d)[1].lanes[0][1].after, { atLeast: { value: 9, unit: 's' } }), 'wait'],
    ['the datum of a limit', (d) => Object.assign(limit(d, 'pause'), { reference: 'AAL' }), 'datum'],
    ['until when it lasts', (d) => Object.assign(roll(d)[0], { until: { text: 'Airborne' } }), 'lasts until'],
    ['the order of rules', (d) => d.scenarios[0].asks[1].choose.rules.reverse(), 'order of the rules'],
  ])('%s', (_, change, what) => {
    const found = since(change);
    expect(found.filter((d) => d.what === what)).toMatchObject([{ kind: 'words', rise: 'major' }]);
    expect(rise(change)).toBe('major');
  });

  test('a condition written otherwise is the same', () => {
    expect(since((d) => Object.assign(roll(d)[4], { if: '( engineOut )' }))).toEqual([]);
  });

  test('a rule that comes before others, a case out of what the default held for', () => {
    expect(
      rise((d) => {
        d.scenarios[0].asks[1].choose.rules.unshift(ruleOf('calm', 'windSpeed < 6', ['neutral']));
      }),
    ).toBe('major');
    expect(
      rise((d) => {
        const one = limit(d, 'pause');
        one.cases = [
          { id: 'standard', value: 3 },
          { id: 'hot', given: { flaps: 'two' }, value: 3 },
        ];
        delete one.value;
      }),
    ).toBe('major');
    expect(
      rise((d) => {
        limit(d, 'retract').cases.push({ id: 'out', given: { engineOut: true }, value: 160 });
      }),
    ).toBe('minor');
  });
});

describe('same answer, other words', () => {
  const reworded: Change = (d) => {
    roll(d)[2].say = 'Hundred knots';
    roll(d)[2].keeps = [stampOf('hundred', 'words')];
  };

  test('an old stamp that the author keeps is no changed answer, in either direction', () => {
    const found = since(reworded);
    expect(brief(found)).toEqual([
      ['same-answer', 'Step: “Hundred knots” (Take-off roll)', 'callout', '“One hundred”', '“Hundred knots”'],
    ]);
    expect(found[0]?.rise).toBe('patch');
    expect(between(reworded, same)).toMatchObject([
      { kind: 'same-answer', old: '“Hundred knots”', now: '“One hundred”' },
    ]);
  });

  test('it says what must be kept, where that is plain', () => {
    const [found] = since((d) => {
      roll(d)[2].say = 'Hundred knots';
    });
    expect(found?.keeps).toEqual({ path: '/procedures/0/steps/2', stamps: [stampOf('hundred', 'words')] });
    const kept = since((d) => {
      Object.assign(limit(d, 'pause'), { unit: 'min' });
    }).find((d) => d.what === 'value');
    expect(kept?.keeps).toEqual({ path: '/limits/1', stamps: [stampOf('pause', 'value.standard')] });
    const rules = since((d) => {
      d.scenarios[0].asks[0].number = 'cross + 1';
    });
    expect(rules[0]?.keeps).toEqual({ path: '/scenarios/0/asks/0', stamps: [stampOf('wind', 'cross.number')] });
  });

  test('a limit as a bound is said as the drill says bounds', () => {
    const found = since((d) => {
      roll(d)[0].until = { limit: 'pause' };
    }).find((d) => d.what === 'lasts until');
    expect(found?.now).toBe('at least 3 s');
  });

  test('not where variants of today differ: the old memory would go to one of them', () => {
    const two: Change = (d) => {
      roll(d)[0].cue = { limit: 'start-limit' };
    };
    const found = between(two, (d) => {
      two(d);
      limit(d, 'start-limit').cases[1].value = 80;
    });
    expect(found.find((d) => d.what === 'cue')).toMatchObject({ kind: 'answer', variants: 'Engine B' });
    expect(found.find((d) => d.what === 'cue')?.keeps).toBeUndefined();
  });
});

describe('many variants', () => {
  const axes =
    (n: number): Change =>
    (d) => {
      d.variants = [{ id: 'engine', label: 'Engine', options: { a: 'Engine A', b: 'Engine B' } }];
      for (let i = 0; i < n; i++)
        d.variants.push({ id: `x${i}`, label: `X${i}`, options: { on: `X${i} fitted`, off: `no X${i}` } });
    };

  test('more than one learner can fly side by side are all looked at', () => {
    const before: Change = (d) => {
      axes(5)(d);
      limit(d, 'pause').cases = [
        { id: 'standard', value: 3 },
        { id: 'last', when: { x4: 'off' }, value: 4 },
      ];
      delete limit(d, 'pause').value;
    };
    const comparison = compareDecks(
      changed(before),
      changed((d) => {
        before(d);
        limit(d, 'pause').cases[1].value = 5;
      }),
    );
    expect(comparison.whole).toBe(true);
    expect(comparison.differences.map((d) => [d.kind, d.what, d.variants])).toContainEqual([
      'answer',
      'value',
      'no X4',
    ]);
  });

  test('where some had to be left out it says so', () => {
    expect(compareDecks(changed(axes(9)), changed(axes(9))).whole).toBe(false);
  });
});

describe('what is critical', () => {
  const critical = (list: readonly Difference[]) => list.filter((d) => d.critical).map((d) => `${d.thing} ${d.what}`);

  test('in either deck, by itself or by what it is in; what says otherwise within is not', () => {
    const value: Change = (d) => Object.assign(limit(d, 'pause'), { value: 5 });
    const set = (on: boolean) => (d: Loose) => Object.assign(limit(d, 'pause'), { critical: on });
    expect(critical(between(set(false), value))).toEqual([]);
    const both = (d: Loose) => {
      set(true)(d);
      value(d);
    };
    expect(critical(between(set(false), both))).toContain('Limit: Pause at half thrust value');
    expect(
      critical(
        between(set(true), (d) => {
          value(d);
          delete limit(d, 'pause').critical;
        }),
      ),
    ).toContain('Limit: Pause at half thrust value');
    const cases = (own?: boolean): Change => {
      return (d) => {
        limit(d, 'retract').critical = true;
        limit(d, 'retract').cases[0].value = 151;
        if (own !== undefined) limit(d, 'retract').cases[0].critical = own;
      };
    };
    const before: Change = (d) => Object.assign(limit(d, 'retract'), { critical: true });
    expect(critical(between(before, cases()))).toContain('Limit: Speed to retract (Flaps 1) value');
    const [first] = between((d) => {
      before(d);
      limit(d, 'retract').cases[0].critical = false;
    }, cases(false)).filter((d) => d.what === 'value');
    expect(first?.critical).toBeUndefined();
    // A step that went was critical.
    expect(
      critical(
        between(
          (d) => Object.assign(roll(d)[2], { critical: true }),
          (d) => roll(d).splice(2, 1),
        ),
      ).length,
    ).toBeGreaterThan(0);
  });

  test('is told first, what changed because of something beside it last', () => {
    const found = between(
      (d) => Object.assign(limit(d, 'pause'), { critical: true }),
      (d) => {
        roll(d).splice(2, 0, { id: 'lights', by: 'PM', do: 'Lights on' });
        limit(d, 'crosscheck').value = 90;
        Object.assign(limit(d, 'pause'), { critical: true, value: 5 });
      },
    ).filter(({ kind }) => kind === 'answer');
    expect(found[0]?.because).toBeDefined();
    const told = weightiestFirst(found);
    expect(told).toHaveLength(found.length);
    const [pause, crosscheck] = ['pause', 'crosscheck'].map((id) =>
      told.findIndex(({ path }) => path.startsWith(`/limits/${BASE.limits?.findIndex((one) => one.id === id)}`)),
    );
    expect(found.findIndex((one) => one === told[pause ?? -1])).toBeGreaterThan(
      found.findIndex((one) => one === told[crosscheck ?? -1]),
    );
    expect(pause).toBeLessThan(crosscheck ?? -1);
    expect(told[0]?.critical).toBe(true);
    const firstBeside = told.findIndex((d) => d.because !== undefined);
    expect(firstBeside).toBeGreaterThan(1);
    expect(told.slice(firstBeside).every((d) => d.because !== undefined)).toBe(true);
  });
});

describe('paced runs, the plan of the flight deck, pictures', () => {
  const played = PAIRS['paced-share'].pass as Change;
  const planned = PAIRS['area-empty'].pass as Change;
  const run = (change: (run: Loose) => void): Difference[] =>
    between(played, (d) => {
      played(d);
      change(d.paced[0]);
    });

  test('a run that came is something new, one that went is gone; no answer changes with it', () => {
    expect(brief(since(played))).toEqual([
      ['added', 'Paced run: The run in time', '', '', 'Take-off roll, then Climb'],
    ]);
    expect(rise(played)).toBe('minor');
    expect(brief(between(played, same))).toEqual([
      ['removed', 'Paced run: The run in time', '', 'Take-off roll, then Climb', ''],
    ]);
  });

  test('each of its numbers, cues and tolerances is told in words', () => {
    const found = run((r) => {
      r.title = 'In time';
      r.procedures = ['roll'];
      r.aeroplane.liftRolling = 0.5;
      r.cues = [
        { step: 'half', speed: 30 },
        { step: 'set', moment: 'start' },
        { step: 'timer', height: 35 },
      ];
      r.tolerance.late = 3;
      r.tolerances[0].early = 0;
      r.wind = 'wind#cross';
      Object.assign(r.failure, { share: 0.25, from: -2 });
    });
    expect(found.map((d) => [d.what, d.old, d.now])).toEqual([
      ['title', 'The run in time', 'In time'],
      ['procedures', 'Take-off roll, then Climb', 'Take-off roll'],
      ['aeroplane: lift rolling', '0.4', '0.5'],
      ['when “Thrust levers half way” comes', '3 s after “Take-off”', 'at 30 kt'],
      ['when “Thrust levers to take-off” comes', '', 'at the start'],
      ['when “Start the timer” comes', '', 'at 35 ft'],
      ['tolerance', '1 s early, 2 s late', '1 s early, 3 s late'],
      ['tolerance of “One hundred”', '0.5 s early, 1 s late', '0 s early, 1 s late'],
      ['wind', 'Stick', 'Crosswind'],
      [
        'engine failure',
        'Engines in 100 % of the runs, from V1 − 3 to V1 + 5 kt',
        'Engines in 25 % of the runs, from V1 − 2 to V1 + 5 kt',
      ],
    ]);
    expect(new Set(found.map((d) => [d.kind, d.rise].join()))).toEqual(new Set(['words,patch']));
    expect(found.map((d) => d.path).slice(2, 4)).toEqual(['/paced/0/aeroplane/liftRolling', '/paced/0/cues/0']);
  });

  test('areas by their names, and a picture: wording', () => {
    expect(brief(since(planned))).toEqual([
      ['words', 'Step: “Take-off” (Take-off roll)', 'panel area', '', 'Overhead, lights'],
      ['head', 'Area of the flight deck: Overhead', '', '', 'Overhead'],
      ['head', 'Area of the flight deck: Overhead, lights', '', '', 'Overhead, lights'],
    ]);
    const moved = between(planned, (d) => {
      planned(d);
      d.areas[1].x = 21;
    });
    expect(brief(moved)).toEqual([
      [
        'head',
        'Area of the flight deck: Overhead, lights',
        'place on the plan',
        '60 × 10 at 20, 30',
        '60 × 10 at 21, 30',
      ],
    ]);
    const drawn = (d: Loose): void => {
      limit(d, 'band').picture = 'pitch';
    };
    expect(brief(since(drawn))).toEqual([['words', 'Limit: Pitch after lift-off', 'picture', '', 'pitch']]);
    expect([rise(planned), rise(drawn)]).toEqual(['patch', 'patch']);
  });
});
