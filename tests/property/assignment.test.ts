import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkAssignment, readAssignment, writeAssignment } from '../../src/exchange/assignment.ts';
import { assignmentFragment, assignmentInFragment } from '../../src/exchange/assignment-link.ts';
import { anyAssignment } from '../fixtures/assignments/arbitrary.ts';

test('any assignment comes back from its file and from its link as it was', async () => {
  await fc.assert(
    fc.asyncProperty(anyAssignment, fc.boolean(), async (assignment, plain) => {
      const file = readAssignment(writeAssignment(assignment));
      expect(file.findings).toEqual([]);
      expect(file.assignment).toEqual(assignment);
      const linked = await assignmentInFragment(await assignmentFragment(assignment, plain ? {} : undefined));
      expect(linked?.ok && readAssignment(linked.value).assignment).toEqual(assignment);
    }),
    { numRuns: 300 },
  );
});

test('whatever is in a file or a fragment, reading says something and throws nothing', async () => {
  await fc.assert(
    fc.asyncProperty(fc.oneof(fc.string(), fc.json(), fc.stringMatching(/^[A-Za-z0-9_-]{0,60}$/)), async (text) => {
      const { assignment, findings } = readAssignment(text);
      expect(assignment === undefined).toBe(findings.length > 0);
      for (const marker of ['#assignment=', '#assignment-plain=']) {
        const read = await assignmentInFragment(marker + text);
        expect(read).not.toBeNull();
      }
    }),
    { numRuns: 300 },
  );
});

test('a file with any one member changed is read or refused with words, never taken for another', () => {
  fc.assert(
    fc.property(
      anyAssignment,
      fc.constantFrom('id', 'n', 'made', 'decks', 'groups', 'v'),
      fc.jsonValue(),
      (a, key, x) => {
        const value = { ...a, [key]: x };
        const { assignment, findings } = checkAssignment(value);
        if (assignment !== undefined) expect(assignment).toEqual(value);
        else for (const { where, text } of findings) expect(where.length * text.length).toBeGreaterThan(0);
      },
    ),
    { numRuns: 300 },
  );
});
