import { describe, expect, test } from 'vitest';
import { atLine, isJobFile, readJob } from '../../src/diagnose/jobFile.ts';
import { jobFindings } from '../../src/diagnose/jobFindings.ts';
import { jobText } from '../../src/diagnose/jobText.ts';
import { bench, inWords, sound } from '../circuit/phraseCircuit.ts';

const job = (text: string) => sound(readJob(text, 'a.job.yaml'));
const codes = (text: string) => readJob(text, 'a.job.yaml').problems.map((p) => p.code);

test.each([
  ['circuit: a.yaml\n', true],
  ['vehicle: x\n"circuit": a.yaml\n', true],
  ["{ 'circuit': a.yaml }\n", false],
  ['{\n  "circuit": "a.yaml"\n}\n', true],
  // A job that carries its circuit inside, however it is indented, is a job; a circuit with an entry of that name is none.
  ['circuit:\n title: T\n parts: {}\n', true],
  ['circuit: x\nparts: {}\n', false],
  ['circuit: x\n"parts" : {}\n', false],
  ['title: T\nparts: {}\n', false],
  ['', false],
])('%j is a job: %s', (text, is) => {
  expect(isJobFile(text)).toBe(is);
});

test('what is no job is not taken as one', () => {
  for (const text of ['', '- a\n', 'circuit: [\n']) expect(readJob(text, 'a.job.yaml').ok).toBe(false);
  expect(readJob('circuit: a.yaml\nhistory: [{ stood: long }, { a: b, c: d }, [x]]\n', 'a.job.yaml').ok).toBe(false);
  expect(job('circuit: a.yaml\nhistory: [{ stood: long }]\n').history).toEqual(['stood: long']);
});

describe('a job file', () => {
  test('with everything in it, each phrase with its line', () => {
    expect(
      job(`circuit: ../bench.yaml
vehicle: board 3
complaint: wiper dead
history: [ stood long, new battery ]
findings:
  - "ON: M3 dead"
  - ON: T1 works
repair: [ "replaced S3: cured", cleaned the plug ]
`),
    ).toEqual({
      circuit: { path: '../bench.yaml' },
      vehicle: 'board 3',
      complaint: 'wiper dead',
      history: ['stood long', 'new battery'],
      findings: [
        { text: 'ON: M3 dead', line: 6 },
        // Without quotes it is a map to YAML, and the phrase to everybody else.
        { text: 'ON: T1 works', line: 7 },
      ],
      repair: [
        { text: 'replaced S3: cured', line: 8 },
        { text: 'cleaned the plug', line: 8 },
      ],
    });
  });
  test('with nothing but its circuit: the rest is empty, and one phrase need not be a list', () => {
    expect(job('circuit: a.yaml\n')).toEqual({
      circuit: { path: 'a.yaml' },
      vehicle: '',
      complaint: '',
      history: [],
      findings: [],
      repair: [],
    });
    expect(job('circuit: a.yaml\nfindings: "ON: M3 dead"\n').findings).toEqual([{ text: 'ON: M3 dead', line: 2 }]);
  });
  test('may carry its circuit inside: told by its line', () => {
    const { circuit } = job('vehicle: x\ncircuit:\n  title: T\n  parts: { H1: { kind: lamp } }\n');
    expect(circuit).toMatchObject({ line: 3 });
    expect('text' in circuit && JSON.parse(circuit.text)).toEqual({ title: 'T', parts: { H1: { kind: 'lamp' } } });
  });
  test.each([
    ['', ['not-a-job']],
    ['- a\n', ['not-a-job']],
    ['just words\n', ['not-a-job']],
    ['findings: []\n', ['missing-key']],
    ['circuit: a.yaml\nfindings: [[a]]\n', ['wrong-shape']],
    ['circuit: a.yaml\ncolour: red\n', ['unknown-key']],
  ])('%j: %j', (text, told) => {
    expect(codes(text)).toEqual(told);
  });
  test('what is no YAML is told by the reader of YAML alone', () => {
    const told = codes('circuit: "a\n');
    expect(told.length).toBeGreaterThan(0);
    expect(told).not.toContain('not-a-job');
  });
  test('what an empty file lacks is said with how to begin', () => {
    const [problem] = readJob('', 'a.job.yaml').problems;
    expect(problem!.mend).toEqual(['begin with `circuit: light-van.yaml`, then `findings: [ … ]`']);
    expect(problem!.file).toBe('a.job.yaml');
  });
  test.each([
    ['circuit: a.yaml\nfindings: []\n', true],
    ['"circuit": a.yaml\n', true],
    ["vehicle: x\n'circuit' : a.yaml\n", true],
    ['title: T\nparts: {}\n', false],
    ['parts: {}\nnote: |\n  circuit: a\n', false],
    ['title: short circuit: none\n', false],
  ])('%j is one: %s', (text, is) => {
    expect(isJobFile(text)).toBe(is);
  });
  test('problems of a circuit inside are told where it begins', () => {
    const [problem] = codes('') && readJob('', 'x').problems;
    expect(atLine([{ ...problem!, line: 40, column: 7, length: 3, file: 'inside' }], 'a.job.yaml', 5)).toEqual([
      { ...problem!, line: 5, column: 1, length: 1, file: 'a.job.yaml' },
    ]);
  });
});

describe('its phrases', () => {
  const read = (findings: readonly string[], repair: readonly string[] = []) =>
    jobFindings(job(jobText({ circuit: 'bench.yaml', findings, repair })), bench, 'a.job.yaml');
  test('are findings, exchanges, what was seen after them with the new parts in, and notes', () => {
    const all = read(
      ['ON: M3 dead, T1 works'],
      ['ON: M3 dead', 'replaced S3: cured', 'ON: M3 works', 'cleaned the plug', 'replaced F3: no change'],
    );
    expect(all.problems.filter((p) => p.severity !== 'warning')).toEqual([]);
    expect(all.findings.map((f) => f.observable)).toEqual([
      { of: 'load', load: 'M3' },
      { of: 'load', load: 'T1' },
    ]);
    expect(all.repaired).toEqual(['S3', 'F3']);
    expect(all.exchanges.map((f) => f.observable)).toMatchObject([
      { of: 'exchange', part: 'S3' },
      { of: 'exchange', part: 'F3' },
    ]);
    expect(all.after.map((f) => f.scene.swapped)).toEqual([[], ['S3']]);
    expect(all.notes).toEqual(['cleaned the plug']);
  });
  test('that cannot be read are told at their line, and the others stand', () => {
    const all = read(['ON: M9 dead', 'ON: M3 dead'], ['ON: nonsense here']);
    expect(all.findings).toHaveLength(1);
    const refused = all.problems.filter((p) => p.severity !== 'warning');
    expect(refused.map((p) => [p.file, p.line])).toEqual([
      ['a.job.yaml', 3],
      ['a.job.yaml', 6],
    ]);
    expect(refused.map(inWords)[0]).toMatch(/M9/);
  });
});

test('a job that was written is read back as it was, whatever stands in its words; what is empty is left out', () => {
  const written = {
    circuit: 'a: b.yaml',
    vehicle: '"quoted" # no comment',
    complaint: "it's dead: always",
    history: ['- a', '{ b }'],
    findings: ['ON: M3 dead', 'key out: 20 mA at G1.-'],
    repair: ['replaced S3: cured'],
  };
  const back = job(jobText(written));
  expect({
    ...back,
    circuit: 'path' in back.circuit && back.circuit.path,
    findings: back.findings.map((f) => f.text),
    repair: back.repair.map((f) => f.text),
  }).toEqual(written);
  expect(jobText({ circuit: 'a.yaml', findings: [], history: [], vehicle: '' })).toBe('circuit: "a.yaml"\n');
});

test('a job with an error in its text is not taken, though everything in it has its shape; one with only a warning is', () => {
  const twice = readJob('circuit: a.yaml\nvehicle: one\nvehicle: two\n', 'a.job.yaml');
  expect([twice.ok, twice.problems.map((p) => p.severity)]).toEqual([false, ['error']]);
  expect(twice.problems[0]).toMatchObject({ line: 3 });
});
