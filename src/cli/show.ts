import { resolve } from '../deck/resolve.ts';
import type { Deck, Node } from '../model/deck.ts';
import { isBlock, isFact, isNumberAsk, isTable, isUse } from '../model/deck.ts';
import { caseWords, limitSense } from '../subjects/limit/words.ts';
import { stepText } from '../subjects/procedure/words.ts';
import type { Resolved } from '../subjects/resolved.ts';

/** A deck as text: what is in it, and how many things there are to recall. */
export function showDeck(deck: Deck): string {
  const every = Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)]));
  const resolved = resolve(deck, '0'.repeat(64), every);
  const lines = [
    `${deck.title}, ${deck.id} ${deck.version} (${deck.nature})`,
    `${resolved.items.size} things to recall in ${resolved.views.length} ${resolved.views.length === 1 ? 'view' : 'variant combinations'}`,
  ];
  for (const p of deck.procedures ?? []) {
    lines.push('', `Procedure ${p.id}: ${p.title} [${p.done}]`);
    if (p.starts !== undefined) lines.push(`  starts: ${p.starts}`);
    steps(p.steps, '  ', lines);
  }
  for (const l of deck.limits ?? []) lines.push(...limit(resolved, l.id));
  for (const s of deck.scenarios ?? []) {
    lines.push('', `Scenario ${s.id}: ${s.title ?? ''}`, `  ${s.situation}`);
    for (const ask of s.asks) {
      lines.push(`  ? ${ask.ask}`);
      if (isNumberAsk(ask)) lines.push(`      = ${ask.number} [${ask.unit}]`);
      else
        for (const r of ask.choose.rules)
          lines.push(`      ${r.if ?? 'otherwise'}: ${r.then.map((o) => ask.choose.options[o] ?? o).join(' or ')}`);
    }
  }
  return lines.join('\n');
}

const confined = (node: Node): string =>
  [
    node.if === undefined ? '' : ` if ${node.if}`,
    node.when === undefined ? '' : ` when ${JSON.stringify(node.when)}`,
  ].join('');

function steps(nodes: readonly Node[], indent: string, lines: string[]): void {
  for (const node of nodes) {
    if (isUse(node)) lines.push(`${indent}block ${node.use}${confined(node)}`);
    else if (isBlock(node)) {
      lines.push(`${indent}${node.together ? 'together' : node.lanes ? 'side by side' : 'in order'}${confined(node)}:`);
      for (const list of node.lanes ?? [node.steps ?? []]) {
        steps(list, `${indent}  `, lines);
        if (node.lanes) lines.push(`${indent}  --`);
      }
    } else
      lines.push(
        `${indent}${node.critical ? '!' : '-'} ${node.by === undefined ? '' : `${node.by}: `}${stepText(node)}${confined(node)}`,
      );
  }
}

function limit(resolved: Resolved, id: string): string[] {
  const first = resolved.deck.limits?.find((l) => l.id === id);
  const lines = ['', `Limit ${id}: ${first?.ask ?? ''}`];
  if (first && isTable(first)) {
    const { input, rows } = first.table;
    const sense = limitSense(first);
    const said = sense === '' ? '' : `${sense} `;
    lines.push(...rows.map(([x, value]) => `  ${input.label} ${x} ${input.unit}: ${said}${value} ${first.unit}`));
    return lines;
  }
  const seen = new Set<string>();
  for (const view of resolved.views) {
    const found = view.limits.find((l) => l.limit.id === id);
    for (const c of found?.cases ?? []) {
      if (seen.has(c.key) || !found) continue;
      seen.add(c.key);
      const where = resolved.namesView(c.key) ? `${view.label}: ` : '';
      lines.push(`  ${where}${c.given === '' ? '' : `${c.given}: `}${caseWords(found, c)}`);
    }
  }
  if (first && isFact(first)) lines.push(`  (of: ${Object.values(first.options).join('; ')})`);
  return lines;
}
