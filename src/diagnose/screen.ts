import type { Scene, State } from '../circuit/scene.ts';
import { eliminationPattern, type Pattern } from '../solve/eliminationPattern.ts';
import { atRest, type Member, type Network } from '../solve/network.ts';
import { conditionOf, type OperatingPoint, operatingPoint, readingOf, type States } from '../solve/operatingPoint.ts';
import { sameState } from '../solve/partValues.ts';
import { type Felt, type Settled, settled } from '../solve/settled.ts';
import { eliminate, nodeVoltages } from '../solve/starMesh.ts';
import { cutEdges } from './cutEdges.ts';
import { type Port, Ports } from './ports.ts';
import { lawsIn, type Stateful, statefulIn } from './sceneParts.ts';
import { Updated, UpdatedPoint } from './updated.ts';

/** Conductance from every node to the reference, S, as of a voltmeter: what opens leaves an island on it. It touches only what changes, never the healthy numbers. */
const tie_S = 1e-9;
/** Currents that differ by less are the same, A: ground points that lie millivolts apart drive such currents through dead loads. */
const same_A = 2e-6;
/** When no node moves by more, laws keep to their tangents and relays to their states: the update itself is the answer, V. */
const slight_V = 0.02;
/** A node that moves by less leaves the relays and fuses on it as they are, V: what leads is solved whole. */
const stir_V = 0.05;
/** What a law may miss of its tangent and still be taken for it, A, and as a share of its own current: under a tenth of what a workshop meter tells apart. */
const bend_A = 2e-6;
const bend = 5e-5;
/** A pulled relay whose volts move by more may hold where it would not pull, V. */
const hold_V = 0.3;

/** Patterns of healthy networks with every node tied to the reference. */
const patterns = new WeakMap<Pattern, Pattern>();

/** A wire's end that is fastened elsewhere: the branch of the wire, and the node where it ought to end and where it does. */
export type Moved = { readonly branch: number; readonly end: 1 | 2; readonly node: number };

/**
 * One scene of the healthy vehicle, factored, so that a vehicle with some branches changed is solved by an update of
 * low rank: Δvolts = −Z·Δamperes at the changed branches and at the few laws that leave their tangents, Z being the
 * inverse of the conductances. Laws are followed by Newton on those ports alone; relays and fuses by the solver's own
 * rounds of settling, each round one more update. Where that does not work out the answer is `undefined`, and the whole
 * solver has to be asked.
 *
 * Cost: once a scene, one elimination; a vehicle whose changes touch nothing that carries current or volts costs only
 * the look at its changed branches and is given the healthy numbers themselves, exactly.
 * Source: W. W. Hager, Updating the inverse of a matrix, SIAM Review 31 (1989) 221-239 (from memory).
 */
export class ScreenedScene {
  readonly at: OperatingPoint;
  private readonly sound: Network;
  private readonly scene: Scene;
  private readonly start: States | undefined;
  private readonly done: ReturnType<typeof eliminate>;
  private readonly columns: (Float64Array | undefined)[];
  private readonly feeds: Float64Array;
  private readonly laws: readonly Port[];
  private readonly ports: Ports;
  private readonly taken: Uint8Array;
  /** Laws that left their tangents in the last instant of the vehicle at hand; in its next one they will again. */
  private bent: readonly Port[] = [];
  /** Nodes tied to nothing. */
  private readonly loose: readonly number[];
  private readonly stateful: readonly Stateful[];
  private readonly statefulAt: ReadonlyMap<number, Stateful>;
  /** The first instant, before any relay has moved or any alternator is excited; where none has, there is no other. */
  private readonly beginning: ScreenedScene | undefined;
  private graph: ReturnType<typeof cutEdges> | undefined;

  /**
   * @param at     the healthy vehicle in this scene, solved
   * @param start  states in which that solve began; what is missing began as never switched on
   * @param isBeginning  it holds the first instant, with the states in which it began
   */
  constructor(at: OperatingPoint, start?: States, isBeginning = false) {
    this.at = at;
    this.sound = at.network;
    this.scene = at.scene;
    this.start = start;
    const { nodes } = at.network.pattern;
    let tied = patterns.get(at.network.pattern);
    if (!tied) {
      const pairs = [...at.network.pairs];
      for (let n = 1; n < nodes; n++) pairs.push(n, 0);
      tied = eliminationPattern(nodes, pairs);
      patterns.set(at.network.pattern, tied);
    }
    const siemens = new Float64Array(at.siemens.length + nodes - 1).fill(tie_S);
    siemens.set(at.siemens);
    this.done = eliminate(tied, siemens);
    this.columns = new Array<Float64Array | undefined>(nodes);
    this.feeds = new Float64Array(nodes);
    this.laws = lawsIn(at);
    this.ports = new Ports((node) => this.column(node));
    this.taken = new Uint8Array(at.siemens.length);
    this.loose = [...at.floats.keys()].filter((n) => at.floats[n] === 1);
    this.stateful = statefulIn(at, start);
    this.statefulAt = new Map(this.stateful.map((s) => [s.index, s]));
    // Whoever is pulled may keep himself fed.
    if (isBeginning || this.stateful.every((s) => !s.differs)) return;
    this.beginning = new ScreenedScene(operatingPoint(at.network, at.scene, start, false), start, true);
  }

  /** The vehicle with these changes in this scene; undefined where the whole solver has to be asked. */
  solved(net: Network, moved: readonly Moved[] = []): OperatingPoint | undefined {
    if (net === this.sound && moved.length === 0) return this.at;
    if (net.nodeOf !== this.sound.nodeOf || this.at.chatters.length > 0) return undefined;
    // A moved wire that is faulty besides would be counted from its healthy conductance twice.
    if (moved.some(({ branch }) => net.other?.some((i) => isWithin(net.members[i]!, branch)))) return undefined;
    this.bent = [];
    return this.fromHealthy(net, moved) ?? this.fromRest(net, moved);
  }

  /** Settled from where the healthy vehicle came to rest; undefined where it would have come to rest elsewhere, or never does. */
  private fromHealthy(net: Network, moved: readonly Moved[]): OperatingPoint | undefined {
    const states = this.statesOf(net);
    const first = this.instant(net, moved, states);
    if (!first) return undefined;
    const start = this.newStart(net, first, states);
    const end = start ? this.settledFrom(net, moved, start) : { instant: first, states, chatters: [] };
    if (!end || end.chatters.length > 0 || !this.wasSetOff(net, moved, end)) return undefined;
    return new UpdatedPoint(this.at, net, end.instant, end.states);
  }

  /** Settled from where the whole solver begins: every relay at rest or as the scene found it. Many rounds, each still an update. */
  private fromRest(net: Network, moved: readonly Moved[]): OperatingPoint | undefined {
    const states = new Map(this.at.states);
    for (const { index } of this.stateful) states.set(net.members[index]!.part.id, this.begun(net, index));
    const end = this.settledFrom(net, moved, states);
    return end && new UpdatedPoint(this.at, net, end.instant, end.states, end.chatters, end.alternate);
  }

  /** State of a part in which the whole solver begins. */
  private begun(net: Network, index: number): State {
    const { part } = net.members[index]!;
    return this.start?.get(part.id) ?? atRest(part, net.circuit.ambient).state;
  }

  /** The solver's own rounds of settling, each an update; undefined where one of them does not work out. */
  private settledFrom(net: Network, moved: readonly Moved[], start: States): Settled<Updated> | undefined {
    let last: Updated | undefined;
    let failed = false;
    const go = (wanted: States): Updated => {
      const next = failed ? undefined : this.instant(net, moved, wanted);
      failed ||= next === undefined;
      last = next ?? last ?? new Updated(this.at, net, this.at.nodeVolts, this.at.floats, { edits: [], laws: [] }, true);
      return last;
    };
    const end = settled(net, this.scene, start, go, (index, now, wanted) => !failed && this.isStirred(net, index, now, wanted));
    return failed ? undefined : end;
  }

  /** Whether a part can want another state than it has in the healthy vehicle: what feels no difference stays as it is there. */
  private isStirred(net: Network, index: number, { volts }: Felt, states: States): boolean {
    const own = this.statefulAt.get(index);
    if (own === undefined || net.members[index] !== this.sound.members[index]) return true;
    const id = net.members[index]!.part.id;
    const before = this.at.nodeVolts;
    if (states.get(id) !== this.at.states.get(id)) return true;
    for (const n of own.nodes) if (Math.abs(volts[n]! - before[n]!) >= stir_V) return true;
    return false;
  }

  /** The healthy states, but for parts that begin in another one themselves: a flat battery, a blown fuse. */
  private statesOf(net: Network): States {
    let states: Map<string, State> | undefined;
    for (const i of net.other ?? []) {
      const [part, base] = [net.members[i]!.part, this.sound.members[i]?.part];
      if (!base || part === base || !part.kind.initial) continue;
      const began = atRest(part, net.circuit.ambient).state;
      if (sameState(began, atRest(base, net.circuit.ambient).state)) continue;
      states ??= new Map(this.at.states);
      states.set(part.id, began);
    }
    return states ?? this.at.states;
  }

  /** The vehicle at one instant, all states given; undefined where Newton does not get there. */
  private instant(net: Network, moved: readonly Moved[], states: States): Updated | undefined {
    const edits = this.edits(net, moved, states);
    const { at } = this;
    if (!edits.live)
      return new Updated(at, net, at.nodeVolts, this.floatsAfter(edits, at.floats), { edits: edits.ports, laws: none }, true);
    const volts = this.updated(edits.ports);
    if (!volts) return undefined;
    const slight = this.isSlight(volts);
    const floats = this.floatsAfter(edits, slight ? at.floats : this.stillFloating(volts));
    return new Updated(at, net, volts, floats, { edits: edits.ports, laws: slight ? none : this.laws });
  }

  private isSlight(volts: Float64Array): boolean {
    const before = this.at.nodeVolts;
    for (let n = 1; n < volts.length; n++) {
      const d = volts[n]! - before[n]!;
      if (d > slight_V || d < -slight_V) return false;
    }
    return true;
  }

  /** What open joints without current leave tied to nothing, and what new branches tie to something. */
  private floatsAfter({ ports, cuts }: Edits, before: Uint8Array): Uint8Array {
    const ties = ports.filter((p) => p.g1 > 0 && p.g0 === 0 && before[p.from] !== before[p.to]);
    if (cuts.length === 0 && ties.length === 0) return before;
    this.graph ??= cutEdges(this.at);
    const floats = before.slice();
    for (const { from, to } of ties) for (const node of this.graph.island(floats[from] === 1 ? from : to)) floats[node] = 0;
    for (const branch of cuts) {
      // Two joints of one loop may cut it together; that is left to the whole solver, once such a vehicle leads.
      for (const node of this.graph.beyond(branch) ?? []) floats[node] = 1;
    }
    return floats;
  }

  /**
   * Whoever is pulled here as in the healthy vehicle was set off: from where it began it would be pulled by the volts
   * that it has in the end, which is asked where it feels another voltage; and the first instant sets off the same parts
   * as there, which is asked where a voltage has fallen, where a branch was opened that carried something in the
   * beginning (an alternator's exciter lamp, a pull-in winding), or where its current found another way.
   */
  private wasSetOff(net: Network, moved: readonly Moved[], end: { readonly instant: Updated; readonly states: States }): boolean {
    const { beginning } = this;
    if (!beginning) return true;
    const pulled = this.stateful.filter(({ index, differs }) => {
      const { id } = net.members[index]!.part;
      return differs && sameState(end.states.get(id), this.at.states.get(id));
    });
    const { edits, volts } = end.instant;
    const doubtful = pulled.filter(
      ({ index, nodes }) => net.members[index] !== this.sound.members[index] || this.stirred(nodes, volts) > hold_V,
    );
    const at = new UpdatedPoint(this.at, net, end.instant, end.states);
    if (!doubtful.every((s) => this.wishesAlike(net, s, at))) return false;
    const opened = () => edits.filter((p) => !p.law && p.g1 < 0.05 * p.g0);
    const nodes = () => pulled.flatMap((s) => s.nodes);
    const hasFallen = doubtful.some((s) => s.nodes.some((n) => Math.abs(this.at.nodeVolts[n]!) - Math.abs(volts[n]!) > hold_V));
    if (!hasFallen && !opened().some((p) => isReplaced(p, volts) || beginning.isFelt(p.branch, nodes()))) return true;
    const first = beginning.instant(net, moved, beginning.at.states);
    if (!first) return false;
    const began = new UpdatedPoint(beginning.at, net, first, beginning.at.states);
    return pulled.every((s) => beginning.wishesAlike(net, s, began));
  }

  /** Whether a part that stands where it began would want the same here as in the healthy vehicle. */
  private wishesAlike(net: Network, { index, began }: Stateful, at: OperatingPoint): boolean {
    const [member, sound] = [net.members[index]!, this.sound.members[index]!];
    const wish = (m: Member, point: OperatingPoint) =>
      m.part.kind.settle!(m.part, { ...conditionOf(net, m, this.scene, point.states), state: began }, readingOf(point, m.part.id));
    return sameState(wish(member, at), wish(sound, this.at));
  }

  /** The most that one of these nodes has moved from the healthy vehicle, V. */
  private stirred(nodes: readonly number[], volts: Float64Array): number {
    const before = this.at.nodeVolts;
    let most = 0;
    for (const n of nodes) most = Math.max(most, Math.abs(volts[n]! - before[n]!));
    return most;
  }

  /** Whether opening a branch that carries a current moves one of these nodes by what a relay may feel, by the update of that branch alone. */
  private isFelt(branch: number, nodes: readonly number[]): boolean {
    const { at } = this;
    const current = branch < 0 ? 0 : at.amperes[branch]!;
    if (Math.abs(current) <= 0.005) return false;
    const { from, to } = at.network.branches[branch]!;
    const [up, down] = [this.column(from), this.column(to)];
    const left = 1 - (up[from]! - up[to]! - down[from]! + down[to]!) * at.siemens[branch]!;
    const most = Math.abs((hold_V * left) / current);
    return nodes.some((n) => Math.abs(up[n]! - down[n]!) >= most);
  }

  /** What hung on nothing and still does: a node that a fault ties to something has moved. */
  private stillFloating(volts: Float64Array): Uint8Array {
    const { floats, nodeVolts } = this.at;
    const tied = this.loose.filter((n) => Math.abs(volts[n]! - nodeVolts[n]!) >= 1e-6);
    if (tied.length === 0) return floats;
    const after = floats.slice();
    for (const n of tied) after[n] = 0;
    return after;
  }

  private edits(net: Network, moved: readonly Moved[], states: States): Edits {
    const { sound } = this;
    const edits: Edits = { live: false, ports: [], cuts: [] };
    for (const i of net.other ?? []) this.edit(edits, net, i, states);
    if (states !== this.at.states)
      for (const { index } of this.stateful) {
        const { part } = sound.members[index]!;
        if (net.members[index] === sound.members[index] && !sameState(states.get(part.id), this.at.states.get(part.id)))
          this.edit(edits, net, index, states);
      }
    for (const { branch, end, node } of moved) this.move(edits, net, branch, end, node);
    return edits;
  }

  private edit(edits: Edits, net: Network, index: number, states: States): void {
    const { at, sound } = this;
    const member = net.members[index]!;
    const known = sound.members[index] !== undefined;
    const values = member.values(conditionOf(net, member, this.scene, states));
    for (let e = 0; e < member.count; e++) {
      const k = member.first + e;
      const b = net.branches[k]!;
      const law = values.laws?.[e];
      const [g0, p0, i0] = known ? [at.siemens[k]!, at.push[k]!, at.amperes[k]!] : [0, 0, 0];
      const [g1, p1] = [values.siemens[e]!, values.push[e]!];
      if (!law && g1 === g0 && p1 === p0) continue;
      const apart = at.nodeVolts[b.from]! - at.nodeVolts[b.to]! + b.offset;
      // Where a branch conducts well, its current knows its volts to more digits than the nodes do.
      const v0 = g0 > 1e-6 ? (i0 - p0) / g0 : apart;
      const now = law ? law(v0).ampere : g1 * v0 + p1;
      const opens = known && g0 > 0 && !law && g1 === 0 && p1 === 0;
      if (opens && Math.abs(i0) <= same_A) edits.cuts.push(k);
      else if (Math.abs(now - i0) > same_A) edits.live = true;
      edits.ports.push({ branch: known ? k : -1, index: k, from: b.from, to: b.to, offset: b.offset, v0, g0, p0, g1, p1, law });
    }
  }

  /** A wire taken off where it belongs and put on elsewhere. */
  private move(edits: Edits, net: Network, branch: number, end: 1 | 2, node: number): void {
    const { at } = this;
    const b = net.branches[branch]!;
    const [g, i0] = [at.siemens[branch]!, at.amperes[branch]!];
    const own = { offset: 0, p0: 0, p1: 0, law: undefined };
    edits.live = true;
    edits.ports.push({ ...own, branch, index: branch, from: b.from, to: b.to, v0: i0 / g, g0: g, g1: 0 });
    const [from, to] = end === 1 ? [node, b.to] : [b.from, node];
    edits.ports.push({ ...own, branch: -1, index: -1, from, to, v0: at.nodeVolts[from]! - at.nodeVolts[to]!, g0: 0, g1: g });
  }

  /** Node voltages with the edits in, every law followed. */
  private updated(edits: readonly Port[]): Float64Array | undefined {
    const { ports, taken, at } = this;
    taken.fill(0);
    for (const { branch } of edits) if (branch >= 0) taken[branch] = 1;
    const expected = this.bent.filter((p) => taken[p.branch] === 0);
    for (const { branch } of expected) taken[branch] = 1;
    ports.begin([...edits, ...expected]);
    for (let round = 0; round < 8; round++) {
      if (!ports.solve()) return undefined;
      const before = ports.list.length;
      let slight = round === 0;
      for (const port of this.laws) {
        if (taken[port.branch] === 1) continue;
        const moved = ports.moves(port.from, port.to);
        if (Math.abs(moved) < 1e-5) continue;
        if (Math.abs(moved) > slight_V) slight = false;
        const v = port.v0 + moved;
        const { ampere } = port.law!(v);
        if (Math.abs(ampere - port.g0 * v - port.p0) <= bend_A + bend * Math.abs(ampere)) continue;
        ports.list.push(port);
        taken[port.branch] = 1;
      }
      if (ports.list.length > before && !slight) continue;
      const volts = at.nodeVolts.slice();
      ports.takeOff(volts, before);
      if (ports.list.length > before && !this.isSlight(volts)) continue;
      this.bent = ports.list.slice(edits.length, before);
      return volts;
    }
    return undefined;
  }

  /** States to begin again from, where a relay, fuse or solenoid feels a difference and may not stay as it is; undefined when all stay. */
  private newStart(net: Network, now: Updated, states: States): States | undefined {
    let start: Map<string, State> | undefined;
    let wants = false;
    const before = this.at.nodeVolts;
    const at = new UpdatedPoint(this.at, net, now, states);
    const slight = now.volts === before || this.isSlight(now.volts);
    for (const { index, nodes, differs } of this.stateful) {
      const member = net.members[index]!;
      const same = member === this.sound.members[index];
      if (slight && same) continue;
      if (same && this.stirred(nodes, now.volts) < stir_V) continue;
      const { part } = member;
      if (differs && !same) {
        start ??= new Map(states);
        start.set(part.id, this.begun(net, index));
      } else if (!wants) {
        const condition = conditionOf(net, member, this.scene, states);
        wants = !sameState(part.kind.settle!(part, condition, readingOf(at, part.id)), condition.state);
      }
    }
    return start ?? (wants ? states : undefined);
  }

  /** Volts of every node for one ampere fed into a node. */
  private column(node: number): Float64Array {
    const known = this.columns[node];
    if (known) return known;
    const column = new Float64Array(this.columns.length);
    if (node !== 0) {
      this.feeds.fill(0);
      this.feeds[node] = 1;
      nodeVoltages(this.done, this.feeds, column);
    }
    this.columns[node] = column;
    return column;
  }
}

/** An opened branch that carried a current, between points that are still at one potential: it found another way, perhaps through a relay that would never have pulled without the branch. */
const isReplaced = ({ from, to, offset, v0, g0, p0 }: Port, volts: Float64Array): boolean =>
  Math.abs(g0 * v0 + p0) > 0.02 && Math.abs(volts[from]! - volts[to]! + offset) < 0.5;

const isWithin = ({ first, count }: Member, branch: number): boolean => branch >= first && branch < first + count;

const none: readonly Port[] = [];

/** `live`: at least one changed branch carries another current at the healthy voltages. `cuts`: branches opened that carry none. */
type Edits = { live: boolean; readonly ports: Port[]; readonly cuts: number[] };
