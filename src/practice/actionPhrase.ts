import { BLOCK, type Circuit, GROUND } from '../circuit/circuit.ts';
import { readHand } from '../circuit/handPhrase.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { nearNames } from '../circuit/nearNames.ts';
import { keyText, readKeyPlace } from '../circuit/scenePhrase.ts';
import type { Action, HintStrength } from './action.ts';

export type ReadAction = { readonly ok: true; readonly value: Action } | { readonly ok: false; readonly why: string };

const no = (why: string): ReadAction => ({ ok: false, why });
const yes = (value: Action): ReadAction => ({ ok: true, value });
const verbs = [
  'turn',
  'ease',
  'hold',
  'release',
  'key',
  'look',
  'ask',
  'walk',
  'unplug',
  'pull',
  'plug',
  'wiggle',
  'swap',
  'repair',
  'replace',
  'bridge',
  'unbridge',
  'unfused',
  'volts',
  'lamp',
  'ohms',
  'clamp',
  'amps',
  'off',
  'jack',
  'hint',
  'name',
  'give',
];

/** What can be typed, with an example each: the help of the dialogue. */
export const actionHelp: readonly (readonly [phrase: string, does: string])[] = [
  ['ON   turn 75°   ease to 77°   hold START', 'turn the key; ease goes slowly'],
  ['release   key out   key in', 'let the key spring back; take it out'],
  ['S5 on   door open   M2 switch on', 'switch something'],
  ['look   look M2', 'what works now; 1 min or less'],
  ['ask engine   ask A1   ask history', 'ask the customer'],
  ['walk', 'run the whole position table, 4 min'],
  ['volts S1.15   volts S1.30 S1.15', 'voltmeter, to ground or between two points'],
  ['lamp S1.15', 'filament test lamp'],
  ['clamp G1.-   amps F3', 'current: clamp, or ammeter in line'],
  ['ohms X1.1 X2.1   off S1.30 S1.15 at ON', 'ohmmeter on the dead circuit; on the part off the vehicle'],
  ['jack volts', 'put the red lead back after an ammeter reading'],
  ['unplug X2   pull F3   plug X2', 'out of circuit, and in again'],
  ['bridge S1.30 S1.15   unbridge', 'fused jumper'],
  ['wiggle X2   swap S1   repair S1', 'move it; try a known good one; repair or replace it for good'],
  ['hint   hint narrow   hint show', 'a question, a place, the reading; costs 1, 3, 6 points'],
  ['name S1.30-15 open at ON', 'name the fault and end; several with "and"'],
  ['give up', 'end without naming'],
];

/**
 * Reads one line of the bench: the words of hand phrases and findings, as commands. A key position alone turns the key.
 * Whatever cannot be read is answered with what could be meant; nothing is guessed.
 */
export function readAction(line: string, circuit: Circuit): ReadAction {
  const text = line.trim().replace(/\s+/g, ' ');
  const [first = '', ...rest] = text.split(' ');
  const verb = first.toLowerCase();
  const tail = rest.join(' ');
  switch (verb) {
    case '':
      return no('Type what you do, or `help`.');
    case 'turn':
    case 'hold':
    case 'ease':
      return keyAction(tail.replace(/^to /i, ''), circuit, verb === 'ease');
    case 'release':
      return yes({ do: 'release' });
    case 'key':
      if (tail === 'in' || tail === 'out') return yes({ do: 'key', is: tail });
      return tail === '' ? no('Write `key out`, `key in`, or a place of the key.') : keyAction(tail.replace(/^to /i, ''), circuit, false);
    case 'look':
      return tail === '' ? yes({ do: 'look' }) : withPart(tail, circuit, (load) => ({ do: 'look', load }));
    case 'ask':
      if (tail === 'history' || tail === 'engine') return yes({ do: 'ask', about: tail });
      return tail === ''
        ? no('Ask about `engine`, `history`, or a load: `ask A1`.')
        : withPart(tail, circuit, (about) => ({ do: 'ask', about }));
    case 'walk':
      return yes({ do: 'walk' });
    case 'unplug':
    case 'pull':
      return withPart(tail, circuit, (part) => ({ do: 'unplug', part }));
    case 'plug':
    case 'refit':
      return withPart(tail.replace(/^in /, ''), circuit, (part) => ({ do: 'refit', part }));
    case 'wiggle':
    case 'swap':
      return withPart(tail, circuit, (part) => ({ do: verb, part }));
    case 'repair':
    case 'replace':
      return withPart(tail, circuit, (part) => ({ do: 'repair', part }));
    case 'unbridge':
      return yes({ do: 'unbridge' });
    case 'bridge':
      return withTerminals(rest, circuit, 2, ([a, b]) => ({ do: 'bridge', ends: [a!, b!], fused: true }));
    case 'unfused':
      return withTerminals(rest.slice(1), circuit, 2, ([a, b]) => ({ do: 'bridge', ends: [a!, b!], fused: false }));
    case 'volts':
    case 'lamp':
    case 'ohms':
      return withTerminals(
        rest.filter((w) => w.toLowerCase() !== 'to' && w.toLowerCase() !== 'from' && w.toLowerCase() !== 'at'),
        circuit,
        verb === 'ohms' ? 2 : 1,
        ([red, black]) => ({ do: verb, red: red!, black: black ?? GROUND }),
      );
    case 'clamp':
    case 'amps': {
      const part = partNamed(tail, circuit);
      if (part !== undefined) return yes({ do: verb, at: part });
      return withTerminals([tail], circuit, 1, ([at]) => ({ do: verb, at: at! }));
    }
    case 'off': {
      // Many key switches have a position OFF, and it is typed more often than a part is taken off.
      const key = tail === '' ? keyAction(text, circuit, false) : undefined;
      return key?.ok ? key : offVehicle(tail, circuit);
    }
    case 'jack':
      return /^volts?$/i.test(tail)
        ? yes({ do: 'jack', to: 'volts' })
        : /^amp/i.test(tail)
          ? yes({ do: 'jack', to: 'amperes' })
          : no('Write `jack volts` or `jack amperes`.');
    case 'hint': {
      const strength = tail === '' ? 'ask' : (['ask', 'narrow', 'show'] as const).find((s) => s === tail);
      return strength
        ? yes({ do: 'hint', strength: strength satisfies HintStrength })
        : no('Hints are `hint`, `hint narrow`, `hint show`.');
    }
    case 'name':
      return tail === ''
        ? no('Name the fault as `name S1.30-15 open at ON`; `faults S1` lists those of a part.')
        : yes({ do: 'name', faults: tail.split(/\s+and\s+|\s*\+\s*/i) });
    case 'give':
      return yes({ do: 'name', faults: [] });
    default:
      return sceneAction(text, verb, circuit);
  }
}

function sceneAction(text: string, verb: string, circuit: Circuit): ReadAction {
  const key = keyAction(text, circuit, false);
  if (key.ok) return key;
  const hand = readHand(text, circuit, 'bench');
  if (hand.ok && hand.value.does === 'set') {
    const [setting] = hand.value.settings;
    if (setting) return yes({ do: 'set', ...setting });
  }
  const near = nearNames(verb, verbs);
  return no(`\`${text}\` is nothing that can be done here. ${near.length > 0 ? `Near: ${near.join(', ')}. ` : ''}\`help\` lists what can.`);
}

function keyAction(text: string, circuit: Circuit, slowly: boolean): ReadAction {
  if (!keySwitchOf(circuit)) return no('This circuit has no key switch.');
  const read = readKeyPlace(text, circuit, 'bench');
  if (!read.ok) return no(read.problems[0]?.what ?? `\`${text}\` is no place of the key`);
  if (!read.value.in) return yes({ do: 'key', is: 'out' });
  return yes({ do: 'turn', angle: read.value.angle, ...(slowly && { slowly: true as const }) });
}

function partNamed(word: string, circuit: Circuit): string | undefined {
  const lower = word.toLowerCase();
  const parts = [...circuit.parts.values()];
  return (parts.find((p) => p.id.toLowerCase() === lower) ?? only(parts.filter((p) => p.name?.toLowerCase() === lower)))?.id;
}
const only = <T>(list: readonly T[]): T | undefined => (list.length === 1 ? list[0] : undefined);

function withPart(word: string, circuit: Circuit, made: (part: string) => Action): ReadAction {
  const part = partNamed(word, circuit);
  if (part !== undefined) return yes(made(part));
  const near = nearNames(word, [...circuit.parts.keys()]);
  return no(`There is no part \`${word}\`.${near.length > 0 ? ` Near: ${near.join(', ')}.` : ''}`);
}

function withTerminals(
  words: readonly string[],
  circuit: Circuit,
  least: number,
  made: (terminals: readonly string[]) => Action,
): ReadAction {
  if (words.length < least || words.length > 2 || words[0] === '')
    return no(`${least === 1 ? 'A terminal is' : 'Two terminals are'} wanted, as \`S1.30\`; \`terminals S1\` lists those of a part.`);
  const all = [...circuit.parts.values()].flatMap((p) => p.kind.terminals(p).map((t) => `${p.id}.${t.name}`)).concat(GROUND, BLOCK);
  const found: string[] = [];
  for (const word of words) {
    const terminal = all.find((t) => t.toLowerCase() === word.toLowerCase());
    if (terminal === undefined) {
      const near = nearNames(word, all);
      return no(`There is no terminal \`${word}\`.${near.length > 0 ? ` Near: ${near.join(', ')}.` : ''}`);
    }
    found.push(terminal);
  }
  return yes(made(found));
}

function offVehicle(text: string, circuit: Circuit): ReadAction {
  const m = /^(\S+) (?:to )?(\S+)(?: at (.+))?$/i.exec(text);
  if (!m) return no('Write `off S1.30 S1.15 at ON`: two terminals of one part, and where its switch stands.');
  const place = m[3] === undefined ? undefined : readKeyPlace(m[3], circuit, 'bench');
  if (place && !place.ok) return no(place.problems[0]?.what ?? 'no such place');
  return withTerminals([m[1]!, m[2]!], circuit, 2, ([at, to]) => ({
    do: 'bench',
    part: at!.slice(0, at!.lastIndexOf('.')),
    at: at!,
    to: to!,
    ...(place?.ok && { angle: place.value.angle }),
  }));
}

/** The action as it would be typed. */
export function actionText(action: Action, circuit: Circuit): string {
  switch (action.do) {
    case 'turn': {
      const place = keyText({ angle: action.angle, came: 'up', in: true }, circuit);
      return action.slowly ? `ease to ${place}` : place;
    }
    case 'release':
    case 'walk':
    case 'unbridge':
      return action.do;
    case 'key':
      return `key ${action.is}`;
    case 'set':
      return `${action.part} ${action.setting}`;
    case 'look':
      return action.load === undefined ? 'look' : `look ${action.load}`;
    case 'ask':
      return `ask ${action.about}`;
    case 'refit':
      return `plug ${action.part}`;
    case 'unplug':
    case 'wiggle':
    case 'swap':
    case 'repair':
      return `${action.do} ${action.part}`;
    case 'bridge':
      return `${action.fused ? 'bridge' : 'unfused bridge'} ${action.ends.join(' ')}`;
    case 'volts':
    case 'lamp':
    case 'ohms':
      return `${action.do} ${action.red}${action.black === GROUND ? '' : ` ${action.black}`}`;
    case 'clamp':
    case 'amps':
      return `${action.do} ${action.at}`;
    case 'bench':
      return `off ${action.at} ${action.to}${action.angle === undefined ? '' : ` at ${keyText({ angle: action.angle, came: 'up', in: true }, circuit)}`}`;
    case 'jack':
      return `jack ${action.to}`;
    case 'hint':
      return action.strength === 'ask' ? 'hint' : `hint ${action.strength}`;
    case 'name':
      return action.faults.length === 0 ? 'give up' : `name ${action.faults.join(' and ')}`;
  }
}
