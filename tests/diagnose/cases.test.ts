import { expect, test, vi } from 'vitest';
import { belief } from '../../src/diagnose/diagnose.ts';
import { Predictor } from '../../src/diagnose/predict.ts';
import type { Suspect } from '../../src/diagnose/suspects.ts';
import { libraryCircuit, saw } from './library.ts';

vi.setConfig({ testTimeout: 240_000 });

/**
 * Published fault histories, told of the library circuit of the same kind, findings as far as they were told. They are
 * a sample: nothing is tuned to them.
 */
type Row = {
  readonly id: string;
  readonly address: string;
  readonly circuit: string;
  readonly said: readonly string[];
  /** `cause`: it is among the leaders; `falls`: this suspect is less likely than before it was cleared. */
  readonly cause?: RegExp;
  readonly excluded?: RegExp;
  readonly falls?: { readonly who: RegExp; readonly by: string };
};

const rows: readonly Row[] = [
  {
    id: 'A08 ON dead, alive a little towards START, dies on release: contact exists but not at the detent; ballast excluded, since the lamps die too',
    address: 'http://www.motorsforum.com/tech/car-starts-but-dies-when-key-returns-to-on-63346-.htm',
    circuit: 'light-van',
    said: [
      'ON: H1 dead, H2 dead, A1 works',
      'between ON and START: H1 works',
      'START: engine fires',
      'ON after START: engine dies',
      'between ON and START: engine runs',
    ],
    cause: /^S1/,
    excluded: /^R1/,
  },
  {
    id: 'A21 everything of the key dead, lamps and dome fine: the common input, contact or plug',
    address: 'http://www.moparaction.com/Tech/quest1/DODGE_GREMLIN.html',
    circuit: 'light-van',
    said: ['ACC: A1 dead', 'ON: H1 dead, P1 dead', 'START: engine still', 'LOCK, S2 at 1: E9 works', 'LOCK, S14 open: E8 works'],
    cause: /^(W7[ab]|X2\.1)/,
  },
  {
    id: 'A18 driving, wipers stop, lamps dim, engine stalls; battery and alternator fine: bad connection at the switch',
    address: 'http://onegoodhandyman.blogspot.com/2012/01/car-wont-start.html',
    circuit: 'light-van',
    said: ['ON, S6 on: M3 comes and goes', 'ON: T1 comes and goes', 'LOCK, S2 at 1: E9 works'],
    cause: /^(W7[ab]|X2\.1|S1)/,
  },
  {
    id: 'A19 coil falls dead on release, wiggling the wires at the switch makes the meter flicker: switch against terminal undecided',
    address: 'https://speedyauto.cc/AutoFAQ/autorepair/triumphrepair/201603/177647.html',
    circuit: 'light-van',
    said: ['START: engine fires', 'ON after START: engine dies', 'ON after START: T1 dead', 'wiggled S1: changes'],
    cause: /^(X2|W11|S1)/,
  },
  {
    id: 'C03 ignition lamp often absent; switch replaced, same later: a shared feed upstream, not the switch',
    address: 'http://mg-cars.net/mgtd-mgtf1500-bbs/ignition-electrical-mystery-2000072012290315771.htm',
    circuit: 'light-van',
    said: ['ON: H1 comes and goes', 'START: engine cranks', 'ON: engine dies'],
    falls: { who: /^S1/, by: 'replaced S1: no change' },
  },
  {
    id: 'D03 cranks, will not stay running; coil feed 0.76 V in ON; jumper from the battery to the coil: runs',
    address: 'https://www.concoursmustang.com/forum/index.php?action=printpage;topic=22064.0',
    circuit: 'light-van',
    said: ['START: engine fires', 'ON after START: engine dies', 'ON: 0.76 V at T1.15', 'ON: H1 works'],
    cause: /^(R1|W14|W15|X1\.3)/,
  },
  {
    id: 'D06 coil from the battery runs, switch replaced already: the switch is cleared, the ballast path asked for',
    address: 'https://www.ford-trucks.com/forums/1695342-starting-trouble.html',
    circuit: 'light-van',
    said: ['START: engine fires', 'ON after START: engine dies', 'ON, bridged G1.+ T1.15: T1 works'],
    falls: { who: /^S1/, by: 'replaced S1: no change' },
  },
  {
    id: 'D05 fires only when the key is released: the path past the ballast in START',
    address: 'https://www.forebodiesonly.com/forum/threads/why-does-my-engine-only-start-after-i-release-the-key.40827/post-235768',
    circuit: 'light-van',
    said: ['START: engine cranks', 'ON after START: engine runs', 'START: T1 dead'],
    cause: /^(M1 bypass|W16|S1\.30-15)/,
  },
  {
    id: 'E06 ON fine, START nothing; neutral switch bridged, still nothing: the neutral switch is cleared',
    address: 'https://marineengine.com/boat-forum/threads/mercruiser-5-7efi-wont-start.410277/',
    circuit: 'tractor',
    said: ['ON: H1 works', 'START, S3 pressed: engine still'],
    falls: { who: /^S2/, by: 'START, S3 pressed, bridged S2.1 S2.2: engine still' },
  },
  {
    id: 'E07 no crank, clutch switch bridged: still nothing: the clutch switch is cleared',
    address: 'https://www.corvetteforum.com/forums/c3-tech-performance/4201596-1975-manual-trans-no-start-problem.html',
    circuit: 'tractor',
    said: ['ON: H1 works', 'START, S3 pressed: engine still'],
    falls: { who: /^S3/, by: 'START, S3 pressed, bridged S3.1 S3.2: engine still' },
  },
];

/** What the circuits of the library cannot say, and why. */
const left: readonly (readonly [id: string, why: string])[] = [
  ['A09', 'the repair of the tractor of that kind is a coil and distributor; the library tractor is a diesel'],
  ['A10', 'battery readings at rest are of a worn battery, and no coil feed is on a diesel'],
  [
    'A11',
    'missed: a short to ground in the chain is asked for first, by a look at the heater and volts at a fuse; the walk-back comes after these',
  ],
  ['A15', 'a campaign, not a search: the cure is told by the rating watch'],
  ['A16', 'fire with the key out: told by cautions, no reading to take'],
  ['A20', 'the key pushed inward is no scene that can be said'],
  ['A22', 'a forced switch with several contacts off at once: no single pair of findings of a library circuit'],
  ['A23', 'torn down, no findings in a scene'],
  ['B04', 'the key comes out in a running position: mechanical, no scene'],
  ['B06', 'a harness that presses on a rod lies outside the circuit'],
  ['B08', 'force at the key is no finding'],
  ['B11', 'park interlock: not in the library'],
  ['B12', 'two causes told apart by smell and time'],
  ['B13', 'a broken cam is lost motion too large for its range'],
  ['C04', 'the helm feed reads by a plug that the library boat lacks'],
  ['C05', 'twin engines, the good side as reference'],
  ['C06', 'a breaker of 50 A at the engine: not in the library boat'],
  ['C07', 'a lamp staged for weeks: time is told by the play, not by one scene'],
  ['C09', 'gauges that rise are no verdict of a load'],
  ['C10', 'a terminal that is hot though it works: no load is named'],
  ['D01', 'an ohm value of a resistor that is warm'],
  ['D02', 'advice only'],
  ['E03', 'twisted joints of a remote start: not in the library'],
  ['E05', 'starter contacts worn to dust: the same findings as an open solenoid contact, no reading told'],
  ['E09', 'cranks when the battery is connected: told by the play'],
  ['E10', 'an interlock not met is a scene and no fault'],
  ['F03', 'delay of minutes: told by the play'],
  ['G02', 'runs on by a lead that the owner added'],
  ['G04', 'general advice'],
  ['H04', 'drain: answered by the drain plan'],
  ['H05', 'drain: answered by the drain plan'],
  ['H06', 'drain: general advice'],
  ['H07', 'drain: a criterion, answered by the drain plan'],
];

const named = (s: Suspect): string => s.faults.map((f) => f.phrase).join(' + ');
const share = (suspects: readonly Suspect[], who: RegExp): number =>
  suspects.reduce((sum, s) => sum + (s.faults.some((f) => who.test(f.phrase)) ? s.probability : 0), 0);

const predictors = new Map<string, Predictor>();
function predictorOf(name: string): Predictor {
  const known = predictors.get(name) ?? new Predictor(libraryCircuit(name));
  predictors.set(name, known);
  return known;
}

test.each(rows)('$id ($address)', ({ circuit: name, said, cause, excluded, falls }) => {
  const circuit = libraryCircuit(name);
  const predictor = predictorOf(name);
  const { suspects } = belief(circuit, saw(circuit, ...said), {}, predictor);
  if (cause) {
    // The first group: everyone whom nothing said tells from the leader.
    const fits = (s: Suspect) => s.grades[0]!.weighed.fits.map((x) => x.toFixed(1)).join();
    const first = suspects.filter((s, k) => k < 3 || fits(s) === fits(suspects[0]!));
    expect(
      first.some((s) => s.faults.some((f) => cause.test(f.phrase))),
      first.slice(0, 5).map(named).join('; '),
    ).toBe(true);
  }
  if (excluded) expect(share(suspects, excluded)).toBeLessThan(0.05);
  if (falls) {
    const after = belief(circuit, saw(circuit, ...said, falls.by), {}, predictor).suspects;
    expect(share(after, falls.who)).toBeLessThan(0.5 * share(suspects, falls.who));
  }
});

test('every usable case is a row, or is listed with the reason why it is none', () => {
  const told = [...rows.map((r) => r.id.slice(0, 3)), ...left.map(([id]) => id)];
  expect(new Set(told).size).toBe(told.length);
  expect(left.every(([, why]) => why.length > 10)).toBe(true);
});
