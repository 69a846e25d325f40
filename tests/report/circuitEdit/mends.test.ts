import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { edited } from '../../../src/circuit/edit/textEdit.ts';
import { readCircuit } from '../../../src/circuit/readCircuit.ts';
import { partKinds } from '../../../src/parts/index.ts';
import { mendsOf } from '../../../src/report/circuitEdit/mends.ts';

const folder = 'tests/circuit/faulty';
const files = readdirSync(folder).filter((f) => f.endsWith('.yaml'));
const problemsOf = (text: string) => readCircuit(text, 'x', partKinds).problems;

/** Faulty files whose first problem no button can mend: what is right stands nowhere in them. */
const byHand = new Set<string>();

test.each(files)('%s: every mend that is offered takes its problem away', (file) => {
  const text = readFileSync(`${folder}/${file}`, 'utf8');
  let offered = 0;
  for (const problem of problemsOf(text))
    for (const mend of mendsOf(problem, text, partKinds)) {
      offered++;
      const after = problemsOf(edited(text, mend.edits));
      const again = after.filter((p) => p.code === problem.code && p.what === problem.what);
      expect(again, `${problem.what} | ${mend.label}`).toEqual([]);
    }
  if (offered === 0) byHand.add(file);
  expect(offered).toBeGreaterThanOrEqual(0);
});

test('most of the faulty files that name what is right have a mend', () => {
  const mended = files.filter((f) => !byHand.has(f));
  expect(mended.length).toBeGreaterThan(45);
});
