import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { ownerOf } from '../circuit/ownerOf.ts';
import { network } from '../solve/network.ts';
import { operatingPoint } from '../solve/operatingPoint.ts';
import { currentPaths } from '../solve/paths.ts';
import type { Around, Bench, Step } from './bench.ts';
import type { Debrief } from './debrief.ts';

/** A belief that actions show, never a person: the condition is stated beside it. */
export type Misconception = {
  readonly id: string;
  readonly belief: string;
  /** When it is said to have shown. */
  readonly condition: string;
  /** What exposes it. */
  readonly task: string;
  readonly source: string;
};

type Facts = Omit<Debrief, 'marks' | 'misconceptions'>;
type Rule = Misconception & { readonly shows: (around: Around, bench: Bench, facts: Facts) => boolean };

const cp = 'common practice, no source';
const dc37 = 'Physics Teacher 61(1) 10, abstract: https://pubs.aip.org/aapt/pte/article-abstract/61/1/10/2868845/';
const dc38 = 'Engelhardt, Beichner (2004): https://core.ac.uk/works/1123252';
const dc40 = 'Arnold, Millar (1987): https://spark.iop.org/arnold-and-millar-1987';

const hiddenHas = (facts: Facts, test: (c: ReturnType<Facts['hidden'][number]['mode']['changes']>[number]) => boolean) =>
  facts.hidden.some((f) => f.mode.changes(f.detail).some(test));
const resists = (facts: Facts) => hiddenHas(facts, (c) => c.do === 'series' && Number.isFinite(c.ohm));
const wasted = (facts: Facts) => facts.bought.filter((b) => !b.needed);
const volts = (bench: Bench): readonly Step[] => bench.steps.filter((s) => s.action.do === 'volts' && !s.trap);

const rules: readonly Rule[] = [
  {
    id: 'volts-are-current',
    belief: 'voltage is current: 12 V is there, so it must work',
    condition:
      'a resistance was hidden, nothing was read under load (test lamp, or a drop while current flowed), and another part was bought or named',
    task: 'a 1 Ω joint: 12.6 V with the load off, 5.7 V with it on',
    source: dc38,
    shows: (_a, bench, facts) =>
      resists(facts) &&
      !bench.steps.some((s) => s.action.do === 'lamp' || (s.action.do === 'volts' && s.action.black !== 'ground' && !s.idle)) &&
      wrongWay(facts),
  },
  {
    id: 'one-wire',
    belief: 'one wire is enough: the return does not matter',
    condition:
      'the fault sat in the return of a dead load, and nothing on the return side was read before a part was bought or the search was lost',
    task: 'a lamp dead with 12.6 V on BOTH pins',
    source: dc40,
    shows: (around, bench, facts) => wrongWay(facts) && inReturn(around, facts) && !volts(bench).some((s) => readsReturn(around, s)),
  },
  {
    id: 'continuity-is-good',
    belief: 'continuity means good',
    condition: 'a resistance was hidden, its part was read with an ohmmeter, and another part was bought or named',
    task: '0.1 Ω in a contact: reads as good, loses 1.2 V at 12 A',
    source: cp,
    shows: (_a, bench, facts) =>
      resists(facts) &&
      wrongWay(facts) &&
      bench.steps.some(
        (s) =>
          (s.action.do === 'ohms' &&
            facts.hidden.some((f) => s.action.do === 'ohms' && [ownerOf(s.action.red), ownerOf(s.action.black)].includes(f.part))) ||
          (s.action.do === 'bench' && facts.hidden.some((f) => s.action.do === 'bench' && f.part === s.action.part)),
      ),
  },
  {
    id: 'zero-is-dead',
    belief: '0 V means no supply',
    condition: '0 V was read across a part that carried its current, and that part was bought all the same',
    task: 'read across a closed and an open contact, and explain both',
    source: cp,
    shows: (_a, bench, facts) =>
      wasted(facts).some(({ part }) =>
        volts(bench).some(
          (s) => s.action.do === 'volts' && ownerOf(s.action.red) === part && ownerOf(s.action.black) === part && !s.idle && smallVolts(s),
        ),
      ),
  },
  {
    id: 'complaint-is-cause',
    belief: 'the part named in the complaint is guilty',
    condition: 'the part named in the complaint, or the key switch, was bought before the cause was proved, and was sound',
    task: 'a feed fault with the same position table',
    source: cp,
    shows: ({ hidden }, _b, facts) =>
      wasted(facts).some(
        ({ part, proved }) =>
          !proved &&
          (hidden.circuit.parts.get(part)?.kind.key !== undefined ||
            hidden.complaint.told.some((f) => f.observable.of === 'load' && f.observable.load === part)),
      ),
  },
  {
    id: 'key-is-switch',
    belief: 'the key position is the switch position',
    condition: 'the switch did not follow the key, the key was never stopped between two detents, and no cause was named',
    task: 'a lock with lost motion: creep between the detents',
    source: cp,
    shows: ({ hidden }, bench, facts) =>
      facts.outcome !== 'named' &&
      facts.hidden.some((f) => f.mode.detail?.dimension === 'angle' && hidden.circuit.parts.get(f.part)?.kind.key !== undefined) &&
      !bench.steps.some((s) => s.action.do === 'turn' && isBetween(around(hidden), s.action.angle)),
  },
  {
    id: 'off-is-none',
    belief: 'OFF means no current',
    condition: 'the battery went flat, no current was ever read, and the cause was not named',
    task: 'the staircase of a vehicle that falls asleep, logged at the battery',
    source: cp,
    shows: ({ hidden }, bench, facts) =>
      hidden.complaint.drain && facts.outcome !== 'named' && !bench.steps.some((s) => s.action.do === 'clamp' || s.action.do === 'amps'),
  },
  {
    id: 'meter-is-nothing',
    belief: 'a meter never changes what it measures',
    condition: 'a joint of kilohms was hidden, volts were read with a meter, no test lamp was hung on, and the cause was not named',
    task: 'a 10 MΩ meter against a lamp on a wire that is nearly open',
    source: cp,
    shows: (_a, bench, facts) =>
      facts.outcome !== 'named' &&
      hiddenHas(facts, (c) => c.do === 'series' && Number.isFinite(c.ohm) && c.ohm >= 1000) &&
      volts(bench).length > 0 &&
      !bench.steps.some((s) => s.action.do === 'lamp'),
  },
  {
    id: 'ground-is-ground',
    belief: 'ground is ground everywhere',
    condition: 'a ground point was bad, and every reading had its black lead on body metal',
    task: '0.8 V from the block to the body',
    source: cp,
    shows: ({ hidden }, bench, facts) =>
      facts.outcome !== 'named' &&
      facts.hidden.some((f) => hidden.circuit.parts.get(f.part)?.kind.letter === 'XE') &&
      volts(bench).length > 1 &&
      volts(bench).every((s) => s.action.do === 'volts' && s.action.black === 'ground'),
  },
  {
    id: 'only-downstream',
    belief: 'only what lies downstream changes',
    condition: 'several loads had failed together, none of the others was looked at or asked about, and the search was lost',
    task: 'a ground resistance that dims all its sharers',
    source: dc37,
    shows: ({ hidden }, bench, facts) => {
      const complained = new Set(hidden.complaint.told.flatMap((f) => (f.observable.of === 'load' ? [f.observable.load] : [])));
      const looked = bench.steps.flatMap((s) => s.findings.flatMap((f) => (f.observable.of === 'load' ? [f.observable.load] : [])));
      return facts.outcome === 'wrong' && complained.size > 1 && looked.every((l) => complained.has(l));
    },
  },
];

const around = (hidden: Around['hidden']) => hidden.circuit;
/** What was bought or named was not it. */
const wrongWay = (facts: Facts): boolean => wasted(facts).length > 0 || facts.outcome === 'wrong';
const smallVolts = (s: Step): boolean => s.findings.some((f) => 'value' in f.seen && Math.abs(f.seen.value) < 0.1);

function isBetween(circuit: Around['hidden']['circuit'], angle: number): boolean {
  const lock = keySwitchOf(circuit);
  return lock !== undefined && !lock.model.positions.some((p) => Math.abs(p.angle - angle) < 1);
}

/** Terminals and pieces of the healthy return path of the loads complained of. */
function returnOf({ hidden }: Around): ReadonlySet<string> {
  const found = new Set<string>();
  for (const { observable, scene } of hidden.complaint.told) {
    const load = observable.of === 'load' ? hidden.circuit.parts.get(observable.load) : undefined;
    if (!load) continue;
    const paths = currentPaths(operatingPoint(network(hidden.circuit, [], scene), scene), load);
    for (const t of paths.return.terminals) found.add(ownerOf(t));
    for (const e of paths.return.elements) found.add(e.id.split('.')[0]!);
    found.delete(load.id);
  }
  return found;
}
const inReturn = (a: Around, facts: Facts): boolean => facts.hidden.some((f) => returnOf(a).has(f.part));
const readsReturn = (a: Around, s: Step): boolean =>
  s.action.do === 'volts' && [s.action.red, s.action.black].some((t) => returnOf(a).has(ownerOf(t)));

/** The beliefs that this search showed; usually none. */
export function misconceptionsShown(a: Around, bench: Bench, facts: Facts): readonly Misconception[] {
  return rules
    .filter((r) => r.shows(a, bench, facts))
    .map(({ id, belief, condition, task, source }) => ({ id, belief, condition, task, source }));
}
