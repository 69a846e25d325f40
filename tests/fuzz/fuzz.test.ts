import { expect, test } from 'vitest';
import { oneInput, patience_ms } from './oneInput.ts';

/** A share of `npm run fuzz`, which tries a million. */
const inputs = 1500;

test(`${inputs} damaged inputs of every sort are read or refused with place, fact, cost and mend, never thrown at`, () => {
  const wrong: string[] = [];
  let slowest = { took_ms: 0, target: '', number: -1 };
  for (let number = 0; number < inputs; number++) {
    const tried = oneInput(20261125, number, () => performance.now());
    if (tried.wrong !== undefined) wrong.push(`${tried.target} ${number}: ${tried.wrong}\n${JSON.stringify(tried.text).slice(0, 500)}`);
    if (tried.took_ms > slowest.took_ms) slowest = { took_ms: tried.took_ms, target: tried.target, number };
  }
  expect(wrong).toEqual([]);
  expect(slowest.took_ms, JSON.stringify(slowest)).toBeLessThan(patience_ms);
}, 120_000);
