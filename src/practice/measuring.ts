import { ownerOf } from '../circuit/ownerOf.ts';
import type { Finding, Observable } from '../diagnose/finding.ts';
import { bareOhms } from '../solve/bareOhms.ts';
import { ammeter, clamp, type InstrumentReading, isClampable, lineAt, ohmmeter, testLamp, voltmeter } from '../solve/instruments.ts';
import { network } from '../solve/network.ts';
import { operatingPoint, voltsAt } from '../solve/operatingPoint.ts';
import type { Action } from './action.ts';
import { type Around, type Bench, changesNow } from './bench.ts';
import { fuse } from './cost.ts';
import { findingOf } from './noticed.ts';
import { type Trap, traps } from './trap.ts';
import type { Came } from './update.ts';

type Measure = Extract<Action, { do: 'volts' | 'lamp' | 'ohms' | 'clamp' | 'amps' | 'bench' }>;

/** Volts between two points above which a meter on its ampere jack would bang, V. */
const bang_V = 0.5;
/** Volts lost over a piece under which it is asked whether anything flows there at all, V; and the current that counts as none, A. */
const lost_V = 0.05;
const none_A = 0.02;

const caught = (id: Trap['id']): Came => ({ said: `${traps[id].happens} ${traps[id].why}`, trap: id, refused: true });
const missing = (what: string): Came => ({ said: `There is no ${what} at hand.`, refused: true });

/** One reading of an instrument, as it really behaves on this vehicle now. */
export function measured(around: Around, bench: Bench, action: Action): Came {
  const { hidden } = around;
  const { tools, circuit } = hidden;
  const m = action as Measure;
  const on = { circuit, changes: changesNow(hidden, bench), scene: bench.scene };
  switch (m.do) {
    case 'volts': {
      if (!tools.includes('meter')) return missing('meter');
      const read = voltmeter(on, m.red, m.black);
      if (read.shows !== 'volts') return { said: 'Nothing was read.', refused: true };
      if (bench.jack === 'amperes' && Math.abs(read.volts) > bang_V) return caught('ampere-jack');
      const value = Math.round(read.volts * 1000) / 1000;
      const idle = isIdle(around, bench, m.red, m.black, value);
      return {
        ...said(around, bench, { of: 'volts', at: m.red, to: m.black, instrument: 'meter' }, value, `${figureV(value)}`),
        ...(idle && { idle: true as const }),
        ...(read.floating && { floating: true as const }),
      };
    }
    case 'lamp': {
      if (!tools.includes('lamp')) return missing('test lamp');
      const read = testLamp(on, m.red, m.black);
      if (read.shows !== 'lamp') return { said: 'Nothing was seen.', refused: true };
      const value = Math.round(read.volts * 100) / 100;
      return said(around, bench, { of: 'volts', at: m.red, to: m.black, instrument: 'test lamp' }, value, `lamp ${read.brightness}`);
    }
    case 'clamp': {
      if (!tools.includes('clamp')) return missing('clamp');
      if (!isClampable(circuit, m.at))
        return { said: `More than one way leads through ${m.at}: name the terminal or the wire.`, refused: true };
      const read = clamp(on, m.at);
      if (read.shows !== 'amperes') return { said: 'Nothing was read.', refused: true };
      const value = Math.round(Math.abs(read.amperes) * 1000) / 1000;
      if (circuit.parts.has(m.at)) return { said: `${m.at}: ${figureA(value)}.`, figure: figureA(value) };
      return said(around, bench, { of: 'amperes', at: m.at, instrument: 'clamp' }, value, figureA(value));
    }
    case 'amps': {
      if (!tools.includes('meter')) return missing('meter');
      const line = lineAt(circuit, m.at);
      if (line === undefined) return { said: 'An ammeter goes in line: name the wire or fuse that it opens.', refused: true };
      const read = ammeter(on, line);
      if (read.shows === 'amperes' && read.blown)
        return {
          said: `${traps['ammeter-overload'].happens} ${traps['ammeter-overload'].why}`,
          trap: 'ammeter-overload',
          more: fuse,
          jack: 'amperes',
        };
      const value = read.shows === 'amperes' ? Math.round(Math.abs(read.amperes) * 1000) / 1000 : 0;
      if (circuit.parts.has(m.at)) return { said: `${m.at}: ${figureA(value)}.`, figure: figureA(value), jack: 'amperes' };
      return { ...said(around, bench, { of: 'amperes', at: m.at, instrument: 'ammeter' }, value, figureA(value)), jack: 'amperes' };
    }
    case 'ohms': {
      if (!tools.includes('ohmmeter')) return missing('ohmmeter');
      const read = ohmmeter(on, m.red, m.black);
      if (read.shows === 'refusal') return caught('live-ohms');
      const figure = ohmsText(read);
      return {
        said: `${m.red} to ${m.black}: ${figure}. Other ways through the vehicle are in it, and a meter's small current does not load a joint.`,
        figure,
      };
    }
    case 'bench': {
      if (!tools.includes('ohmmeter')) return missing('ohmmeter');
      const part = circuit.parts.get(m.part);
      if (!part || ownerOf(m.at) !== m.part || ownerOf(m.to) !== m.part)
        return { said: 'Both terminals have to be of the part.', refused: true };
      const ohm = bareOhms(
        part,
        bench.scene.swapped.includes(m.part) ? [] : on.changes,
        m.at,
        m.to,
        m.angle === undefined ? {} : { angle: m.angle },
      );
      const observable: Observable = { of: 'ohms', part: m.part, at: m.at, to: m.to, ...(m.angle !== undefined && { angle: m.angle }) };
      const value = ohm > 40e6 ? Number.POSITIVE_INFINITY : Math.round(ohm * 100) / 100;
      return said(around, bench, observable, value, ohmsText({ shows: 'ohms', ohm }));
    }
  }
}

function said(around: Around, bench: Bench, observable: Observable, value: number, figure: string): Came {
  const finding: Finding = findingOf(around.hidden.circuit, bench.scene, observable, { value });
  return { said: `${finding.phrase}.`, figure, findings: [finding] };
}

/** No drop between two ends of one part, and no current in it either: the reading says nothing of the part. */
function isIdle({ hidden }: Around, bench: Bench, red: string, black: string, value: number): boolean {
  const part = ownerOf(red);
  if (part === '' || part !== ownerOf(black) || Math.abs(value) > lost_V) return false;
  const at = operatingPoint(network(hidden.circuit, changesNow(hidden, bench), bench.scene), bench.scene);
  if (voltsAt(at, red) === null) return true;
  return at.network.branches.every((b, k) => b.part !== part || Math.abs(at.amperes[k]!) < none_A);
}

const figureV = (v: number): string => (Math.abs(v) < 0.6 ? `${(v * 1000).toFixed(0).replace(/^-0$/, '0')} mV` : `${v.toFixed(2)} V`);
const figureA = (a: number): string => (a < 1 ? `${(a * 1000).toFixed(0)} mA` : `${a.toFixed(2)} A`);
function ohmsText(read: InstrumentReading): string {
  if (read.shows !== 'ohms') return '';
  if (read.ohm > 40e6) return 'open';
  return read.ohm < 1000 ? `${read.ohm.toFixed(2)} Ω` : `${(read.ohm / 1000).toPrecision(3)} kΩ`;
}
