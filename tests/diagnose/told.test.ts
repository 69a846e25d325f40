import { expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.ts';
import { sceneText } from '../../src/circuit/scenePhrase.ts';
import { type Candidate, handsOn, probesOf, stagesOf, type Tool, tools, usualTools } from '../../src/diagnose/candidates.ts';
import type { Tree } from '../../src/diagnose/decisionTree.ts';
import { type Diagnosis, diagnose } from '../../src/diagnose/diagnose.ts';
import { seenText } from '../../src/diagnose/findingText.ts';
import { singleHypotheses } from '../../src/diagnose/hypotheses.ts';
import { plan } from '../../src/diagnose/plan.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import { strategies } from '../../src/diagnose/strategies.ts';
import type { NextReading } from '../../src/diagnose/survey.ts';
import { played } from '../../src/diagnose/technician.ts';
import { testability } from '../../src/diagnose/testable.ts';
import { bench } from '../circuit/phraseCircuit.ts';
import { libraryCircuit, saw, seededRandom } from './library.ts';

/**
 * Whole searches on small circuits, written out: what is suspected and why, what to read next, for what, and what it would
 * mean. A person read them and found them right. A change of figures renews them by `npm run unit -- -u`; read the
 * difference before it is kept.
 */
const predictors = new Map<Circuit, Predictor>();
function predictorOf(circuit: Circuit): Predictor {
  const known = predictors.get(circuit) ?? new Predictor(circuit);
  predictors.set(circuit, known);
  return known;
}

const figure = (x: number): string => String(Number(x.toPrecision(3)));
const share = (x: number): string => `${(100 * x).toFixed(1)} %`;
const names = (d: Pick<Diagnosis, 'suspects'>, k: number): string =>
  d.suspects[k]!.faults.map((f) => f.phrase).join(' + ') || 'nothing wrong';

function candidateText({ scene, observable, minutes, access, price, effort, cautions, renews }: Candidate, circuit: Circuit): string {
  const what = seenText(observable, { word: 'works' }, circuit)
    .replace(/ works$/, '')
    .trim();
  const cost = [
    `${figure(minutes)} min`,
    access === undefined ? '' : `access ${figure(access)}`,
    price > 0 ? `price ${price}` : '',
    `effort ${effort}`,
  ];
  const more = [...(renews ? [`renews ${renews.join(', ')}`] : []), ...cautions.map((c) => `! ${c}`)];
  return [
    `${sceneText(scene, circuit)}: ${what || `${observable.of} ${'part' in observable ? observable.part : ''}`} (${cost.filter((c) => c !== '').join(', ')})`,
    ...more,
  ].join('\n      ');
}

function readingLines(r: NextReading, d: Pick<Diagnosis, 'suspects'>, circuit: Circuit): string {
  const outcomes = r.outcomes.map((o) => {
    const for_ = [...o.shares.entries()].filter(([, p]) => p > 0.001).sort((a, b) => b[1] - a[1]);
    return `      ${o.seen} ${share(o.probability)}: ${for_
      .slice(0, 4)
      .map(([k, p]) => `${names(d, k)} ${share(p)}`)
      .join(', ')}${for_.length > 4 ? ` and ${for_.length - 4} more` : ''}`;
  });
  return [
    `  - ${candidateText(r.candidate, circuit)}`,
    `      ${figure(r.bits)} bits in ${figure(r.minutes)} min, worth ${figure(r.worth)}${r.again ? ', again' : ''}`,
    ...outcomes,
  ].join('\n');
}

function searchText(
  circuit: Circuit,
  phrases: readonly string[],
  with_: { tools?: readonly Tool[]; history?: readonly string[] } = {},
): string {
  const d = diagnose(circuit, saw(circuit, ...phrases), with_);
  const shown = d.suspects.filter((s) => s.probability >= 0.01).slice(0, 12);
  return [
    ...d.findings.map((f, k) => `${k}: ${f.phrase}`),
    `${d.verdict.state}: ${d.verdict.text}`,
    `proof ${d.verdict.proof.join()}; unexplained ${d.verdict.unexplained.join()}; probabilities sum to ${figure(d.suspects.reduce((sum, s) => sum + s.probability, 0))}`,
    'suspects',
    ...shown.map(
      (s, k) =>
        `  ${share(s.probability)} ${names(d, k)}: fits ${s.fits.join()}; against ${s.against.join()}; ${s.grades.length} grades; ${s.text}`,
    ),
    'alike so far',
    ...d.groups.map(
      (g) =>
        `  ${g.members
          .slice(0, 6)
          .map((k) => names(d, k))
          .join(', ')}${g.by ? ` (told apart by ${candidateText(g.by.candidate, circuit)})` : ''}`,
    ),
    'next',
    ...d.next.map((r) => readingLines(r, d, circuit)),
    'ways of working',
    ...strategies(circuit, d).map(
      (s) => `  ${s.id}: ${s.name}; ${figure(s.money)} in ${figure(s.minutes)} min, in vain ${share(s.wasted)}; ${s.because}`,
    ),
    '',
  ].join('\n');
}

const board = libraryCircuit('bench-board');
const searches: Readonly<Record<string, readonly [Circuit, readonly string[], { tools?: readonly Tool[]; history?: readonly string[] }?]>> =
  {
    'one-load-dead': [bench, ['ON: M3 dead']],
    'one-load-dead-without-tools': [bench, ['ON: M3 dead'], { tools: [] }],
    'one-load-dead-all-tools': [bench, ['ON: M3 dead', 'ON: T1 works'], { tools }],
    'narrowed-by-looks': [bench, ['ON: M3 dead', 'ON: T1 works', 'ON: H4 works', 'ON, S3 at 2: M3 works']],
    'narrowed-by-readings': [bench, ['ON: M3 dead', 'ON, S3 at 1: 12.4 V at S3.a', 'ON, S3 at 1: 12.4 V at R3.1']],
    'near-proof': [bench, ['ON: M3 dead', 'ON, S3 at 1: 12.4 V at R3.1', 'ON, S3 at 1: 0 V at R3.2', 'ON, S3 at 2: M3 works']],
    'near-proof-and-one-left-over': [
      bench,
      ['ON: M3 dead', 'ON, S3 at 1: 12.4 V at R3.1', 'ON, S3 at 1: 0 V at R3.2', 'ON, S3 at 2: M3 works', 'ON: E1 dead'],
    ],
    contradiction: [bench, ['ON: M3 dead', 'ON, S3 at 1: 12.4 V at M3.1', 'ON: M3 works']],
    'nothing-fits': [bench, ['LOCK: 9 V at T1.15', 'LOCK: 9 V at T1.15', 'LOCK, S14 shut: E8 works']],
    'nothing-wrong': [bench, ['ON: M3 works', 'ON: T1 works', 'ON: H4 works', 'ON: E1 works']],
    'pinned-by-looks': [
      bench,
      [
        'ON: M3 dead',
        'ON: H4 dead',
        'ON: E1 dead',
        'ON: E2 dead',
        'ON: T1 works',
        'LOCK, S14 open: E8 works',
        'ACC: M3 dead',
        'START: T1 works',
      ],
    ],
    'three-at-once': [
      bench,
      ['ON: M3 dead', 'ON: T1 dead', 'LOCK, S14 open: E8 dead', 'ON: H4 works', 'ON: E1 works', 'ON: E2 works', 'ON, S3 at 2: M3 works'],
    ],
    'unplugged-and-bridged': [
      bench,
      ['ON: M3 dead', 'ON, bridged S3.30 S3.a, S3 at 1: M3 works', 'ON, unplugged S4: H4 dead', 'ON: 0.1 A at M3.2 with clamp'],
    ],
    'swapped-and-wiggled': [bench, ['ON: T1 comes and goes', 'wiggled S1: changes', 'swapped S1: no change', 'ON: M3 works'], { tools }],
    'contrary-reading': [bench, ['ON: T1 works', 'ON: 0 V at T1.15', 'ON: H4 works', 'ON: E1 works']],
    'contrary-look': [board, ['START: engine fires', 'ON after START: engine dies', 'START: T1 dead', 'ON: T1 works']],
    'nothing-said': [bench, []],
    'proved-on-the-bench': [bench, ['ON: T1 dead', 'ON: 12.6 V at R1.1', 'ON: 0 V at R1.2', 'off the vehicle: R1.1 to R1.2 open']],
    'proved-and-one-left-over': [
      bench,
      ['ON: T1 dead', 'ON: 12.6 V at R1.1', 'ON: 0 V at R1.2', 'off the vehicle: R1.1 to R1.2 open', 'LOCK, S14 open: E8 dead'],
    ],
    'comes-and-goes': [bench, ['ON: M3 comes and goes', 'ON: T1 works', 'ON, S3 at 1: 0.02 V at R3.1 while M3 dead']],
    'two-at-once': [bench, ['ON: M3 dead', 'ON: H4 dead', 'ON: T1 works', 'ON: E1 works', 'ON: E8 works']],
    'key-off-current': [bench, ['key out: 400 mA at G1.-', 'key out: E8 dead']],
    'lives-by-itself': [bench, ['key out: M3 works'], { tools: ['meter', 'clamp'] }],
    'weak-ground': [bench, ['ON: H4 weak', 'ON: M3 weak', 'ON: T1 works']],
    'long-parked': [bench, ['ON: T1 dead', 'ON: M3 works'], { history: ['stood for years', 'damp garage'] }],
    'starts-and-dies': [board, ['START: engine fires', 'ON after START: engine dies']],
    'does-not-crank': [board, ['START: engine still', 'ON: T1 works'], { tools }],
  };

test.each(Object.entries(searches))('%s', async (name, [circuit, phrases, with_]) => {
  await expect(searchText(circuit, phrases, with_)).toMatchFileSnapshot(`told/${name}.txt`);
});

test.each([
  ['bench', bench],
  ['bench-board', board],
] as const)('what can be looked at, metered and tried on %s', async (name, circuit) => {
  const predictor = predictorOf(circuit);
  const { points, drops } = probesOf(predictor);
  const parts = [...circuit.parts.keys()];
  const lines = [
    'stages',
    ...stagesOf(predictor).map((s) => {
      const seen = (list: readonly Candidate[]) =>
        list
          .map((c) =>
            seenText(c.observable, { word: 'works' }, circuit)
              .replace(/ works$/, '')
              .trim(),
          )
          .join(', ');
      return `  ${sceneText(s.scene, circuit)} | ${seen(s.looks)} | ${seen(s.unasked)} | ${figure(s.minutes)} min${s.meter ? ', meter' : ''}${s.cautions.map((c) => ` ! ${c}`).join('')} | a look ${figure(s.looks[0]?.minutes ?? 0)}`;
    }),
    'points',
    ...points.map((p) => `  ${p.terminal} ${figure(p.minutes)} min${p.cautions.map((c) => ` ! ${c}`).join('')}`),
    'drops',
    ...drops.map(([a, b]) => `  ${a.terminal} ${b.terminal}`),
    'hands on',
    ...handsOn(predictor, parts, tools, ['M3', 'T1', 'H4']).map((c) => `  ${candidateText(c, circuit)}`),
    '',
  ];
  await expect(lines.join('\n')).toMatchFileSnapshot(`told/possible-${name}.txt`);
});

test('a plan, written out', async () => {
  const { tree, suspects, minutes, readings } = plan(
    bench,
    saw(bench, 'ON: M3 dead', 'ON: T1 works', 'ON: H4 works'),
    {},
    predictorOf(bench),
  );
  const walk = (t: Tree<NextReading>, lead: string): readonly string[] => {
    const likely = [...t.mass.entries()].filter(([, p]) => p > 0.001).sort((a, b) => b[1] - a[1]);
    const left = likely
      .slice(0, 3)
      .map(([k, p]) => `${names({ suspects }, k)} ${share(p)}`)
      .join(', ');
    if (t.leaf) return [`${lead}left: ${left}`];
    return [
      `${lead}${candidateText(t.test.what.candidate, bench).split('\n')[0]}`,
      ...t.branches.flatMap((b) => [
        `${lead}  ${t.test.what.outcomes[b.outcome]!.seen} (${share(b.probability)})`,
        ...walk(b.next, `${lead}    `),
      ]),
    ];
  };
  await expect([`${figure(minutes)} min, ${figure(readings)} readings`, ...walk(tree, ''), ''].join('\n')).toMatchFileSnapshot(
    'told/plan.txt',
  );
});

test.each([
  ['bench', bench, 15],
  ['bench-near', bench, 3],
  ['bench-board', board, 15],
] as const)(
  'what can be told apart on %s, written out',
  async (name, circuit, within_min) => {
    const t = testability(circuit, within_min);
    const lines = [
      `${t.faults} faults; by eye ${t.byEye.classes} classes, ${t.byEye.alone} alone; by meter ${t.byMeter.classes} classes, ${t.byMeter.alone} alone`,
      ...t.added.map((a) => `would help: ${a.terminal}, ${figure(a.minutes)} min, ${a.classes} classes`),
      ...t.together.map((x) => `${x.reason}: ${x.faults.join(', ')}`),
      `groups of ${t.groups.map((g) => g.length).join(', ')}`,
      '',
    ];
    await expect(lines.join('\n')).toMatchFileSnapshot(`told/apart-${name}.txt`);
  },
  60_000,
);

test('a simulated technician at hidden faults, written out', async () => {
  const predictor = predictorOf(bench);
  const random = seededRandom(11);
  const truths = singleHypotheses(bench).filter((h) => /W9|S3|F3|XE2|K1|S1\./.test(h.suspect) && h.faults.length === 1);
  const chosen = Array.from({ length: 6 }, () => truths[Math.floor(random() * truths.length)]!);
  const lines = chosen.flatMap((truth) => {
    const search = played(predictor, truth, random, { slips: 0.1, tools: usualTools, most: 8 });
    if (!search) return [`${truth.suspect}: nobody notices`];
    const { isolated, amongThree, state, readings, minutes, findings } = search;
    return [
      `${truth.suspect}: ${state}, ${isolated ? 'isolated' : 'not isolated'}, ${amongThree ? 'among three' : 'not among three'}, ${readings} readings, ${figure(minutes)} min`,
      ...findings.map((f) => `    ${f.phrase}`),
    ];
  });
  await expect([...lines, ''].join('\n')).toMatchFileSnapshot('told/technician.txt');
}, 60_000);
