/**
 * What the pure tests use of the test tool, so that a bundle of them can be run in a bare worker: a mutant then costs milliseconds
 * instead of a start of the tool. The matchers are the tool's own.
 */
import { readFileSync } from 'node:fs';
import { ASYMMETRIC_MATCHERS_OBJECT, chai, GLOBAL_EXPECT, JestAsymmetricMatchers, JestChaiExpect, setState } from '@vitest/expect';

export type Noted = { readonly name: string; readonly body: () => unknown };
/** Tests of the file that is being imported. */
export const noted: Noted[] = [];
let about = '';

function note(name: string, body: () => unknown, timeout?: unknown): void {
  const run = typeof body === 'function' ? body : (timeout as () => unknown);
  // Tables may hold the same title twice.
  noted.push({ name: `${about}${name} #${noted.length}`, body: run });
}
/** Titles are told apart by their number in the table: what they print is of no matter here. */
const each =
  (define: (name: string, body: () => unknown) => void) =>
  (table: readonly unknown[]) =>
  (name: string, body: (...row: unknown[]) => unknown): void =>
    table.forEach((row) => {
      define(name, () => (Array.isArray(row) ? body(...row) : body(row)));
    });
function group(name: string, body: () => void): void {
  const before = about;
  about = `${before}${name} > `;
  body();
  about = before;
}

export const test = Object.assign(note, { each: each(note) });
export const describe = Object.assign(group, { each: each(group as (name: string, body: () => unknown) => void) });
export const vi = { setConfig: () => undefined };

(globalThis as unknown as Record<symbol, unknown>)[GLOBAL_EXPECT] = chai.expect;
chai.use(JestChaiExpect);
chai.use(JestAsymmetricMatchers);
// The place is made whole where the test is bundled.
chai.util.addMethod(chai.Assertion.prototype, 'toMatchFileSnapshot', function (this: { _obj: unknown }, path: string) {
  chai.expect(this._obj).to.equal(readFileSync(path, 'utf8'));
});
const matchers = (globalThis as unknown as Record<symbol, object>)[ASYMMETRIC_MATCHERS_OBJECT];
const unreachable = (message?: string) => chai.assert.fail(`unreachable${message ? `: ${message}` : ''}`);
export const expect = Object.assign((value: unknown, message?: string) => chai.expect(value, message), chai.expect, matchers, {
  unreachable,
});
setState({ assertionCalls: 0 } as never, expect as never);
setState({ assertionCalls: 0 } as never, chai.expect as never);
