import { expect, test } from 'vitest';
import type { AskedOf } from '../../web/askWorker.ts';
import { CauseDesk } from '../../web/CauseDesk.ts';
import type { CauseCalls, PhraseRead } from '../../web/causeCalls.ts';

type Waiting = { readonly text: string; done: (gives: PhraseRead) => void; fail: (e: Error) => void; part?: (gives: PhraseRead) => void };

/** A desk whose worker answers when the test says so. */
function deskWith() {
  const waiting: Waiting[] = [];
  let started = 0;
  const worker = (): AskedOf<CauseCalls> => {
    started++;
    const own: Waiting[] = [];
    return {
      ask: (_name, takes, part) =>
        new Promise((done, fail) => {
          const w = { text: (takes as { text: string }).text, done, fail, part } as unknown as Waiting;
          own.push(w);
          waiting.push(w);
        }),
      end: () => {
        for (const w of own) w.fail(new Error('stopped'));
      },
    };
  };
  const desk = new CauseDesk(worker);
  const ask = (text: string) => desk.want('phrase', text, { circuit: { name: 'x', text: '' }, text });
  const read = (text: string): PhraseRead => ({ text, findings: [text], problems: [] });
  return { desk, ask, read, waiting, started: () => started };
}
const turn = () => new Promise((r) => setTimeout(r));

test('no worker is started before the first question, and the same question is asked once', () => {
  const { ask, waiting, started } = deskWith();
  expect(started()).toBe(0);
  ask('a');
  ask('a');
  expect([started(), waiting.length]).toEqual([1, 1]);
});

test('while one is under way only the newest of the others is asked, and the old answer is shown as old', async () => {
  const { ask, read, waiting } = deskWith();
  ask('a');
  ask('b');
  ask('c');
  expect(waiting.map((w) => w.text)).toEqual(['a']);
  waiting[0]!.done(read('a'));
  await turn();
  expect(waiting.map((w) => w.text)).toEqual(['a', 'c']);
  expect(ask('c')).toMatchObject({ gives: { text: 'a' }, isNew: false });
  waiting[1]!.done(read('c'));
  await turn();
  expect(ask('c')).toMatchObject({ gives: { text: 'c' }, isNew: true, whole: true });
});

test('a part is there before the whole', async () => {
  const { ask, read, waiting } = deskWith();
  ask('a');
  waiting[0]!.part?.(read('first'));
  expect(ask('a')).toMatchObject({ gives: { text: 'first' }, isNew: true, whole: false });
  waiting[0]!.done(read('all'));
  await turn();
  expect(ask('a')).toMatchObject({ gives: { text: 'all' }, whole: true });
});

test('stopping ends the worker; the question can be taken up again in a fresh one', async () => {
  const { desk, ask, read, waiting, started } = deskWith();
  ask('a');
  desk.stop();
  await turn();
  expect(ask('a')).toMatchObject({ stopped: true, failure: undefined, isWaiting: false });
  desk.again('phrase');
  expect([started(), waiting.length]).toEqual([2, 2]);
  waiting[1]!.done(read('a'));
  await turn();
  expect(ask('a')).toMatchObject({ gives: { text: 'a' }, stopped: false, isNew: true });
});

test('a failure is told, and the next question works', async () => {
  const { ask, read, waiting } = deskWith();
  ask('a');
  waiting[0]!.fail(new Error('no such circuit'));
  await turn();
  expect(ask('a').failure).toBe('no such circuit');
  ask('b');
  waiting[1]!.done(read('b'));
  await turn();
  expect(ask('b')).toMatchObject({ failure: undefined, gives: { text: 'b' } });
});
