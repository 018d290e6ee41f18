import type { Scenario } from '../../model/deck.ts';
import { isNumberAsk } from '../../model/deck.ts';
import { at } from '../../subjects/finding.ts';
import { conditionWords, type Saying, whenWords } from './field-words.ts';
import { namedFields, plainFields } from './fields.ts';
import type { Put } from './parts.ts';

export function scenarioParts(s: Saying, scenario: Scenario, path: string, put: Put): void {
  const key = `scenario ${scenario.id}`;
  const variants = whenWords(s.deck.variants ?? [], scenario.when);
  const base = { of: 'things', variants } as const;
  const title = scenario.title ?? scenario.id;
  const every = scenario.asks.flatMap((a) =>
    (isNumberAsk(a) ? ['number'] : a.choose.rules.map((r) => r.id)).map((id) => `${scenario.id}.${a.id}.${id}`),
  );
  const fields = plainFields(s, scenario, path, { items: (name) => (name === 'when' ? every : []) });
  for (const [name, f] of namedFields(scenario.draw as never, 'drawn value', at(path, 'draw'), () => []))
    fields.set(name, f);
  for (const [name, f] of namedFields(scenario.let ?? {}, 'computed value', at(path, 'let'), () => every))
    fields.set(name, f);
  put({ ...base, key, parent: null, path, label: `Scenario: ${title}`, says: scenario.situation, fields });
  scenario.asks.forEach((ask, i) => {
    const here = at(path, 'asks', i);
    const own = `${scenario.id}.${ask.id}`;
    const unit = isNumberAsk(ask) ? ask.unit : undefined;
    const askFields = plainFields(s, ask, here, {
      items: (name) => (name === 'number' || name === 'unit' ? [`${own}.number`] : []),
      ...(unit !== undefined && { unit }),
    });
    const label = `Scenario: ${title}: ${ask.ask}`;
    put({ ...base, key: `ask ${own}`, parent: key, path: here, label, says: ask.ask, keeps: here, fields: askFields });
    if (isNumberAsk(ask)) return;
    const { options, rules } = ask.choose;
    for (const [name, f] of namedFields(options, 'option', at(here, 'choose', 'options'), (o) =>
      rules.flatMap((r) => (r.then.includes(o) ? `${own}.${r.id}` : [])),
    ))
      askFields.set(name, f);
    // The first rule that holds counts.
    askFields.set('rules', {
      name: 'order of the rules',
      raw: rules.map((r) => r.id),
      words: rules.map((r) => `“${r.id}”`).join(', '),
      path: at(here, 'choose', 'rules'),
      items: [],
      sequence: true,
      weighty: true,
    });
    rules.forEach((rule, k) => {
      const place = at(here, 'choose', 'rules', k);
      const ruleFields = plainFields(s, rule, place, {
        items: (n) => (n === 'if' || n === 'then' ? [`${own}.${rule.id}`] : []),
      });
      const outcome = rule.then.map((o) => options[o] ?? o).join(' or ');
      put({
        ...base,
        key: `rule ${own}.${rule.id}`,
        parent: `ask ${own}`,
        path: place,
        label: `${label}: rule “${rule.id}”`,
        says: `${rule.if === undefined ? 'otherwise' : `if ${conditionWords(s, rule.if)}`}: ${outcome}`,
        displaces: true,
        keeps: here,
        fields: ruleFields,
      });
    });
  });
}
