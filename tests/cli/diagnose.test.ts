import { readFileSync } from 'node:fs';
import { expect, test, vi } from 'vitest';
import { runLine } from '../../src/cli/runLine.ts';
import { fakeIo } from './fakeIo.ts';

vi.setConfig({ testTimeout: 240_000 });

const files = {
  'van.yaml': readFileSync('circuits/light-van.yaml', 'utf8'),
  'board.yaml': readFileSync('circuits/bench-board.yaml', 'utf8'),
  'job.yaml': `circuit: van.yaml
vehicle: white van, workshop no. 12
complaint: starts, dies when the key is released
history: [ radio fitted last month, heavy key ring ]
findings:
  - "START: M1 works, T1 works"
  - ON after START: T1 dead
  - "between ON and START: T1 works"
repair: [ "replaced S1: cured" ]
`,
  'second.yaml': `circuit: van.yaml
findings: [ "ON: T1 dead", "ON: 12.4 V from S1.30 to S1.15" ]
repair: [ "replaced S1: cured", "ON: E3 works", "ON, S9 reverse: E3 dead", whole table run again ]
`,
  'clutch.yaml': `circuit: circuits/tractor.yaml
findings: [ "START: M1 dead" ]
`,
  'bad.yaml': `circuit: van.yaml
findings: [ "ON: T9 dead", "start works" ]
`,
};
async function ran(...words: string[]) {
  const said = fakeIo(files);
  const exit = await runLine(words, said.io);
  return { exit, out: said.out(), err: said.err() };
}
type Data = {
  stage: string;
  verdict: { state: string; text: string };
  suspects: { faults: string[]; probability: number; fits: string[]; against: string[] }[];
  groups: number[][];
  next: {
    reading: string;
    scene: string;
    minutes: number;
    bits: number;
    outcomes: { seen: string; probability: number; leaves: number[]; finding: string }[];
  }[];
  unexplained: string[];
  reopened?: boolean;
};
const data = (text: string) => JSON.parse(text) as Data;
const complaint = ['START: engine fires', 'between ON and START: engine runs', 'ON after START: engine dies', 'ON: H1 dead'];
const saw = (...phrases: string[]) => phrases.flatMap((p) => ['--saw', p]);

test('the worked case: from the complaint by the proposed readings to a proof', async () => {
  const start = data((await ran('diagnose', 'van.yaml', ...saw(...complaint), '--json')).out);
  expect(start.verdict.state).toBe('open');
  expect(start.suspects[0]!.faults).toEqual(['S1.30-15 open at ON']);
  expect(start.suspects.reduce((sum, s) => sum + s.probability, 0)).toBeGreaterThan(0.8);
  const proved = data(
    (
      await ran(
        'diagnose',
        'van.yaml',
        ...saw(
          ...complaint,
          'ON: 12.4 V from S1.30 to S1.15',
          'between ON and START: 0.05 V from S1.30 to S1.15',
          'off the vehicle: S1.30 to S1.15 at ON open',
        ),
        '--json',
      )
    ).out,
  );
  expect(proved.verdict.state).toBe('proved');
  expect(proved.stage).toBe('Proved');
  expect(proved.suspects[0]!.faults).toEqual(['S1.30-15 open at ON']);
  expect(proved.suspects[0]!.probability).toBeGreaterThan(0.98);
});

test('every outcome of the next reading can be noted down as it stands, and leaves suspects that are there', async () => {
  const said = ['ON: H1 dead', 'ON: T1 dead'];
  const { next, suspects } = data((await ran('diagnose', 'board.yaml', ...saw(...said), '--json')).out);
  expect(next.length).toBeGreaterThan(2);
  for (const r of next) {
    expect(r.bits).toBeGreaterThan(0);
    expect(Math.abs(r.outcomes.reduce((sum, o) => sum + o.probability, 0) - 1)).toBeLessThan(1e-6);
    for (const o of r.outcomes) for (const k of o.leaves) expect(suspects[k]).toBeDefined();
  }
  const first = next[0]!.outcomes[0]!;
  const after = await ran('diagnose', 'board.yaml', ...saw(...said, first.finding), '--json');
  expect(after.exit).toBe(0);
  expect(after.err).toBe('');
});

test('text fits into 80 columns and names the next reading with its outcomes', async () => {
  const { out, exit } = await ran('diagnose', 'board.yaml', ...saw('ON: H1 dead', 'ON: T1 dead'));
  expect(exit).toBe(0);
  for (const line of out.split('\n')) expect([...line].length, line).toBeLessThanOrEqual(80);
  expect(out).toMatch(/\d %/);
  expect(out).toContain('Next: ');
  expect(out.replace(/\s+/g, ' ')).toContain('told apart');
});

test('a job file gives the same as its findings, with or without the circuit beside it; a swap that cured is no proof', async () => {
  const [one, two] = [
    data((await ran('diagnose', 'job.yaml', '--json')).out),
    data((await ran('diagnose', 'van.yaml', 'job.yaml', '--json')).out),
  ];
  expect(one.suspects).toEqual(two.suspects);
  expect(one.verdict.state).not.toBe('proved');
  expect(one.suspects[0]!.faults[0]).toMatch(/^S1/);
});

test('a second fault found in the table after the repair opens the search again', async () => {
  const found = data((await ran('diagnose', 'second.yaml', '--json')).out);
  expect(found.reopened).toBe(true);
  expect(found.suspects.slice(0, 6).some((s) => s.faults.some((f) => /^(E3|S9|W3[89])/.test(f)))).toBe(true);
});

test('findings that cannot stand together are both named; what nothing explains is said', async () => {
  const clash = data((await ran('diagnose', 'board.yaml', ...saw('ON: T1 works', 'ON: T1 dead'), '--json')).out);
  expect(clash.verdict.state).toBe('contradiction');
  expect(clash.unexplained).toEqual(['ON: T1 works', 'ON: T1 dead']);
  const odd = data((await ran('diagnose', 'board.yaml', ...saw('ON: 45 V at S1.15'), '--json')).out);
  expect(odd.verdict.state).toBe('nothing-fits');
});

test('phrases that cannot be read are told at their place in the job file', async () => {
  const { exit, err } = await ran('check', 'bad.yaml');
  expect(exit).toBe(1);
  const told = (await ran('check', 'bad.yaml')).out + err;
  expect(told).toContain('bad.yaml:2:');
  expect(told).toContain('T9');
  expect((await ran('check', 'job.yaml')).exit).toBe(0);
});

test('a tool that nobody knows is told with its near names', async () => {
  const { exit, err } = await ran('diagnose', 'board.yaml', '--can', 'metre');
  expect(exit).toBe(1);
  expect(err).toContain('meter');
});

test('plan: a tree in text, Markdown and SVG', async () => {
  const text = await ran('plan', 'board.yaml', ...saw('ON: H1 dead'));
  expect(text.exit).toBe(0);
  expect(text.out).toContain('→ ');
  expect(text.out).toMatch(/On average \d/);
  const markdown = await ran('plan', 'board.yaml', ...saw('ON: H1 dead'), '--markdown');
  expect(markdown.out).toMatch(/^# Plan: /);
  const svg = await ran('plan', 'board.yaml', ...saw('ON: H1 dead'), '--svg');
  expect(svg.out).toMatch(/^<svg /);
  expect(svg.out).not.toContain('NaN');
});

test('testable: faults with the same readings everywhere stay in one group', async () => {
  const found = JSON.parse((await ran('testable', 'board.yaml', '--json')).out) as {
    faults: number;
    byEye: { classes: number };
    byMeter: { classes: number };
    groups: string[][];
  };
  expect(found.byMeter.classes).toBeGreaterThan(found.byEye.classes);
  expect(found.byMeter.classes).toBeLessThanOrEqual(found.faults);
  expect(found.groups.some((g) => g.includes('K2 contact open') && g.includes('K2.coil open'))).toBe(true);
});

test('the dialogue asks, takes numbers, values and findings, goes back, and ends with the input', async () => {
  const lines = ['ON: H1 dead', 'ON: T1 works', 'back', 'nonsense', 'skip', '1', 'quit'];
  const typed = async function* () {
    yield* lines;
  };
  const said = fakeIo(files, { lines: typed });
  const exit = await runLine(['diagnose', 'board.yaml', '--ask'], said.io);
  expect(exit).toBe(0);
  expect(said.out()).toContain('Noted: ON: H1 dead');
  expect(said.out()).toContain('Taken back: ON: T1 works');
  expect(said.out()).toContain('no-scene');
  expect(said.out()).toContain('Next: ');
  expect(said.out().match(/Noted: /g)).toHaveLength(3);
});

test('a finding that left its switch out is taken with it, and every way of telling it says so', async () => {
  const said = await ran('diagnose', 'circuits/tractor.yaml', ...saw('START: M1 dead', 'START: engine still'));
  expect(said.err).toMatch(
    /--saw:1:8 {2}hand-assumed {2}\(warning\)\n {2}M1 works only with S3 pressed; taken as `START, S3 pressed: M1 dead`/,
  );
  expect(said.out).toContain('START, S3 pressed: engine still');
  expect(said.out).not.toContain('needs a fault');

  const asData = data((await ran('diagnose', 'clutch.yaml', '--json')).out) as Data & { warnings: { code: string; line: number }[] };
  expect(asData.warnings).toMatchObject([{ code: 'hand-assumed', line: 2 }]);
  const checked = await ran('check', 'clutch.yaml');
  expect([checked.exit, checked.out + checked.err]).toEqual([0, expect.stringContaining('taken as `START, S3 pressed: M1 dead`')]);

  const typed = async function* () {
    yield* ['START: M1 dead', 'quit'];
  };
  const asked = fakeIo(files, { lines: typed });
  await runLine(['diagnose', 'circuits/tractor.yaml', '--ask'], asked.io);
  expect(asked.out()).toContain('hand-assumed');
  expect(asked.out()).toContain('Noted: START, S3 pressed: M1 dead');
});
