import { keySwitchOf, keyTakenOut } from '../circuit/keySwitchOf.ts';
import type { KeyPlace, Scene } from '../circuit/scene.ts';
import { keyText, sceneText } from '../circuit/scenePhrase.ts';
import { jumperFuse_A, renew_min } from '../diagnose/candidates.ts';
import type { EngineWord, Finding } from '../diagnose/finding.ts';
import { engineNext, engineSeen } from '../solve/engine.ts';
import { amperesThrough, operatingPoint } from '../solve/operatingPoint.ts';
import { turnedSwitch } from '../solve/turnedSwitch.ts';
import type { Action } from './action.ts';
import { answered, lookedAt, walked } from './asking.ts';
import { type Around, type Bench, netNow, type Step } from './bench.ts';
import { chocks_min, costOf, fuse, opens, priceOf } from './cost.ts';
import { exchanged, wiggled } from './exchanging.ts';
import { measured } from './measuring.ts';
import { findingOf } from './noticed.ts';
import { traps } from './trap.ts';

/** What came of an action, before its cost is booked. */
export type Came = {
  readonly said: string;
  readonly figure?: string;
  readonly findings?: readonly Finding[];
  readonly scene?: Scene;
  readonly trap?: Step['trap'];
  readonly idle?: true;
  readonly floating?: true;
  readonly jack?: Bench['jack'];
  /** Refused or impossible: it costs nothing and changes nothing. */
  readonly refused?: true;
  readonly more?: { readonly minutes: number; readonly money: number };
  readonly chocked?: true;
};

/** The bench after an action. Pure: the same hidden vehicle, bench and action always give the same. */
export function update(around: Around, bench: Bench, action: Action): Bench {
  const { circuit } = around.hidden;
  const came = cameOf(around, bench, action);
  const cost = came.refused ? { minutes: 0, money: 0 } : costOf(circuit, action, bench.open);
  const scene = came.scene ?? bench.scene;
  const renewed = renewedFor(around, bench, scene);
  const minutes = cost.minutes + (came.more?.minutes ?? 0) + renewed.minutes;
  const money = cost.money + (came.more?.money ?? 0) + renewed.money;
  const step: Step = {
    action,
    said: `${renewed.said}${came.said}`,
    ...(came.figure !== undefined && { figure: came.figure }),
    minutes,
    money,
    at: bench.minutes,
    scene,
    findings: came.findings ?? [],
    ...(came.refused && { refused: came.refused }),
    ...(came.trap && { trap: came.trap }),
    ...(came.idle && { idle: came.idle }),
    ...(came.floating && { floating: came.floating }),
  };
  return {
    ...bench,
    scene,
    minutes: bench.minutes + minutes,
    money: bench.money + money,
    open: came.refused ? bench.open : [...new Set([...bench.open, ...opens(circuit, action)])],
    jack: came.jack ?? bench.jack,
    chocked: bench.chocked || came.chocked === true,
    handled: moves(action) && !came.refused ? bench.handled + 1 : bench.handled,
    steps: [...bench.steps, step],
    ...(action.do === 'name' && { named: action.faults }),
  };
}

/**
 * Every scene begins with whole fuses, so what blew in the last one has been exchanged for the next: that is said, and
 * costs what it costs. Nothing is, while the fault blows it here too.
 */
function renewedFor(
  { hidden }: Around,
  bench: Bench,
  scene: Scene,
): { readonly said: string; readonly minutes: number; readonly money: number } {
  const nothing = { said: '', minutes: 0, money: 0 };
  if (scene === bench.scene) return nothing;
  const blown = (when: Scene) => {
    const { states } = operatingPoint(netNow(hidden, { ...bench, scene: when }), when);
    return [...hidden.circuit.parts.values()].filter((p) => p.kind.opensIn !== undefined && states.get(p.id)?.['blown'] === true);
  };
  const before = blown(bench.scene);
  if (before.length === 0) return nothing;
  const now = blown(scene);
  const parts = before.filter((p) => !now.includes(p) && !scene.apart.includes(p.id));
  if (parts.length === 0) return nothing;
  const said = parts.map(({ id }) => `${id} had blown; a new one of the same rating is in.`).join(' ');
  return { said: `${said} `, minutes: renew_min * parts.length, money: parts.reduce((sum, p) => sum + priceOf(p), 0) };
}

/** What moves something, so that a loose joint may change its mind. Whatever the engine answers to is among it. */
const moving: readonly Action['do'][] = [
  'turn',
  'release',
  'key',
  'set',
  'wiggle',
  'unplug',
  'refit',
  'bridge',
  'unbridge',
  'swap',
  'repair',
];
const moves = (a: Action): boolean => moving.includes(a.do);

function cameOf(around: Around, bench: Bench, action: Action): Came {
  const { hidden } = around;
  const { scene } = bench;
  switch (action.do) {
    case 'turn':
      return turned(around, bench, action.angle);
    case 'release':
      return released(around, bench);
    case 'key': {
      const lock = keySwitchOf(hidden.circuit);
      if (!lock || !scene.key) return { said: 'There is no key here.', refused: true };
      if (action.is === 'in') return { said: 'Key in.', scene: { ...scene, key: { ...scene.key, in: true } } };
      const out = keyTakenOut(lock.model);
      return engineAfter(around, bench, { ...scene, key: out }, 'Key out.');
    }
    case 'set': {
      const next = { ...scene, hand: { ...scene.hand, [action.part]: action.setting } };
      return engineAfter(around, bench, next, `${action.part} ${action.setting}.`);
    }
    case 'look':
      return lookedAt(around, bench, action.load);
    case 'ask':
      return answered(around, action.about);
    case 'walk':
      return walked(around, bench);
    case 'unplug':
      return engineAfter(
        around,
        bench,
        { ...scene, apart: [...new Set([...scene.apart, action.part])] },
        `${action.part} is out of circuit.`,
      );
    case 'refit':
      return engineAfter(around, bench, { ...scene, apart: scene.apart.filter((p) => p !== action.part) }, `${action.part} is in again.`);
    case 'unbridge':
      return engineAfter(around, bench, { ...scene, bridged: [] }, 'The bridge is off.');
    case 'bridge':
      return bridged(around, bench, action);
    case 'wiggle':
      return wiggled(around, bench, action.part);
    case 'swap':
    case 'repair':
      return exchanged(around, bench, action.part, action.do);
    case 'jack':
      return { said: `The red lead is in the ${action.to === 'volts' ? 'volt' : '10 A'} jack.`, jack: action.to };
    case 'hint':
      return { said: `A hint was taken: ${action.strength}.` };
    case 'name':
      return { said: action.faults.length === 0 ? 'Given up.' : `Named: ${action.faults.join(' and ')}.` };
    default:
      return measured(around, bench, action);
  }
}

function turned(around: Around, bench: Bench, angle: number): Came {
  const { scene } = bench;
  if (!scene.key) return { said: 'There is no key here.', refused: true };
  const came = angle > scene.key.angle ? 'up' : angle < scene.key.angle ? 'back' : scene.key.came;
  return engineAfter(around, bench, { ...scene, key: { angle, came, in: true } });
}

/** The hand is off: the spring takes the key back, as far as this vehicle's spring does. */
function released(around: Around, bench: Bench): Came {
  const { scene } = bench;
  if (!scene.key) return { said: 'There is no key here.', refused: true };
  const key: KeyPlace = turnedSwitch(netNow(around.hidden, bench))?.model.released(scene.key) ?? scene.key;
  if (key.angle === scene.key.angle) return { said: 'The key stays where it is.', scene: { ...scene, key } };
  return engineAfter(
    around,
    bench,
    { ...scene, key },
    `The key springs back to ${keyText({ ...key, came: 'up' }, around.hidden.circuit)}.`,
  );
}

/** The scene with what the engine does in it now, and what of it is a finding. */
function engineAfter(around: Around, bench: Bench, scene: Scene, before = ''): Came {
  const { circuit } = around.hidden;
  const net = netNow(around.hidden, { ...bench, scene, handled: bench.handled + 1 });
  const seen = circuit.engine && engineSeen(net, scene);
  const where = before !== '' ? before : `${sceneText(scene, circuit)}.`;
  if (!seen) return { said: where, scene };
  const wasTurning = bench.scene.engine !== 'stopped';
  const engine = engineNext(net, scene);
  const word: EngineWord | undefined = seen.cranks
    ? seen.alive
      ? 'fires'
      : seen.slowly
        ? 'cranks slowly'
        : 'cranks'
    : wasTurning
      ? engine === 'running'
        ? 'runs'
        : 'dies'
      : isStart(around, scene)
        ? 'still'
        : undefined;
  const standing: Scene = { ...scene, engine: 'stopped' };
  const fits = scene.apart.length === 0 && scene.bridged.length === 0 && (seen.cranks || word === 'still' || scene.key?.came === 'back');
  // An engine that goes on running while something is switched tells nothing new.
  const tells = scene.key !== bench.scene.key || word !== 'runs';
  const findings = word && fits && tells ? [findingOf(circuit, standing, { of: 'engine' }, { engine: word })] : [];
  const chock = seen.cranks && !bench.chocked ? { more: { minutes: chocks_min, money: 0 }, chocked: true as const } : {};
  const home = keySwitchOf(circuit)?.model.positions[0]?.angle;
  const runsOn = engine === 'running' && scene.key?.angle === home && scene.key?.came === 'back';
  const said = [
    where,
    seen.cranks && !bench.chocked ? 'Out of gear, wheels chocked, hands clear.' : '',
    word ? `The engine ${engineSaid[word] ?? word}.` : '',
    runsOn ? 'You stall it.' : '',
  ];
  return { said: said.filter((s) => s !== '').join(' '), scene: { ...scene, engine: runsOn ? 'stopped' : engine }, findings, ...chock };
}

const engineSaid: Readonly<Partial<Record<EngineWord, string>>> = {
  fires: 'turns over and fires',
  cranks: 'turns over and does not fire',
  'cranks slowly': 'turns over slowly',
  still: 'does nothing',
};

/** A sprung position of the key, where a starter is asked for. */
function isStart({ hidden }: Around, scene: Scene): boolean {
  const here = keySwitchOf(hidden.circuit)?.model.positions.find((p) => p.angle === scene.key?.angle);
  return here?.springsTo !== undefined;
}

function bridged(around: Around, bench: Bench, { ends, fused }: Action & { do: 'bridge' }): Came {
  if (!around.hidden.tools.includes('jumper')) return { said: 'There is no jumper lead at hand.', refused: true };
  if (!fused) return { said: `${traps['unfused-bridge'].happens} ${traps['unfused-bridge'].why}`, trap: 'unfused-bridge', refused: true };
  const scene: Scene = { ...bench.scene, bridged: [ends] };
  const at = operatingPoint(netNow(around.hidden, { ...bench, scene }), scene);
  const amperes = Math.abs(amperesThrough(at, 'jumper1'));
  if (amperes > jumperFuse_A)
    return { said: `${traps['bridge-short'].happens} ${traps['bridge-short'].why}`, trap: 'bridge-short', more: fuse };
  return engineAfter(
    around,
    bench,
    scene,
    `${ends[0]} and ${ends[1]} are joined by a fused jumper, which carries ${amperes.toFixed(1)} A.`,
  );
}
