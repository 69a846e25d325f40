import type { Circuit } from '../circuit/circuit.ts';
import { readKeyPlace } from '../circuit/keyPhrase.ts';
import { keyStretches } from '../circuit/keyStretches.ts';
import { keySwitchOf } from '../circuit/keySwitchOf.ts';
import { mostVolts } from '../circuit/mostVolts.ts';
import { done, failed, type Piece, part, problemAt } from '../circuit/phrasePiece.ts';
import { partAt, terminalAt } from '../circuit/placePhrase.ts';
import type { Problem, Read } from '../circuit/problem.ts';
import { quantityText, readQuantity } from '../circuit/quantity.ts';
import { settingNamed } from '../circuit/switchesOf.ts';
import { duringWords, type Instrument, type Observable, type Seen } from './finding.ts';
import { examplesOf } from './findingExamples.ts';
import { offVehicle, usualFor } from './findingText.ts';

/** What was looked at or read, and what was seen of it. */
export type Noticed = { readonly observable: Observable; readonly seen: Seen };

const instruments: readonly Instrument[] = ['meter', 'test lamp', 'clamp', 'ammeter'];

/** `0.4 V at S1.15 with test lamp`, `11.8 V from S1.30 to S1.15`, `320 mA at G1.-`; `0 V at B1.1 while B1 dead`. */
export const readingAt = (piece: Piece, circuit: Circuit): Read<Noticed> => meanwhileAt(piece, circuit, plainReadingAt);

/** What was noticed, and how a load was at that moment, if that is said. */
export function meanwhileAt(piece: Piece, circuit: Circuit, plainAt: (piece: Piece, circuit: Circuit) => Read<Noticed>): Read<Noticed> {
  const held = /\s+while\s+(\S+)\s+(works|weak|dead)$/i.exec(piece.text);
  if (!held) return plainAt(piece, circuit);
  const [whole, name = '', word = ''] = held;
  const from = held.index + whole.indexOf(name);
  const load = watchedAt(part(piece, from, from + name.length), circuit);
  const reading = plainAt(part(piece, 0, held.index), circuit);
  if (!load.ok || !reading.ok) return failed(...(load.ok ? [] : load.problems), ...(reading.ok ? [] : reading.problems));
  const { observable, seen } = reading.value;
  const was = duringWords.find((w) => w === word.toLowerCase())!;
  return done({ observable: { ...observable, during: { load: load.value, word: was } } as Observable, seen });
}

/** A part that works or fails by itself, so that it can be watched meanwhile. */
function watchedAt(piece: Piece, circuit: Circuit): Read<string> {
  const read = partAt(piece, circuit);
  if (!read.ok) return read;
  if (read.value.kind.judge !== undefined) return done(read.value.id);
  return failed(
    problemAt(
      piece,
      'not-a-load',
      `${read.value.id} (${read.value.name ?? read.value.kind.title}) does not work or fail by itself`,
      'what is watched during a reading is a load',
      [...circuit.parts.values()]
        .filter((p) => p.isLoad)
        .slice(0, 3)
        .map((p) => p.id),
    ),
  );
}

function plainReadingAt(piece: Piece, circuit: Circuit): Read<Noticed> {
  const form = /^(.+?)\s+(at|on|from|between|across)\s+(\S+)(?:\s+(?:to|and)\s+(\S+))?(?:\s+(?:with|by)\s+(?:a\s+|an\s+)?(.+))?$/i.exec(
    piece.text,
  );
  if (!form)
    return failed(
      problemAt(
        piece,
        'unknown-seen',
        `\`${piece.text}\` does not say where it was read`,
        'a reading is a figure and the terminals that the leads were on',
        [examplesOf(circuit).volts, examplesOf(circuit).between, examplesOf(circuit).amperes],
      ),
    );
  const [, figure = '', , first = '', second, instrument] = form;
  const at = terminalAt(
    part(piece, piece.text.indexOf(first, figure.length), piece.text.indexOf(first, figure.length) + first.length),
    circuit,
  );
  const to =
    second === undefined
      ? done('ground')
      : terminalAt(part(piece, piece.text.lastIndexOf(second), piece.text.lastIndexOf(second) + second.length), circuit);
  const figurePiece = part(piece, 0, figure.length);
  const volts = readQuantity(figure, 'voltage');
  const amperes = readQuantity(figure, 'current');
  const problems: Problem[] = [...at.problems, ...to.problems];
  const by = instrument === undefined ? undefined : instruments.find((i) => i === instrument.toLowerCase());
  if (instrument !== undefined && by === undefined)
    problems.push(
      problemAt(
        part(piece, piece.text.length - instrument.length),
        'unknown-seen',
        `\`${instrument}\` is no instrument that Detent knows`,
        'each instrument loads the circuit in its own way',
        instruments.map((i) => `with ${i}`),
      ),
    );
  if (!volts.ok && !amperes.ok) {
    const ohms = readQuantity(figure, 'resistance').ok;
    problems.push(
      ohms
        ? problemAt(
            figurePiece,
            'reading-quantity',
            `\`${figure}\` was read with an ohmmeter`,
            'an ohmmeter needs a dead circuit and a part that hangs on nothing else',
            [`${offVehicle}: ${benchPlace(at, to, circuit) ?? examplesOf(circuit).bench} ${figure.replace(/^[-−+]\s*/, '')}`],
          )
        : problemAt(figurePiece, 'reading-quantity', volts.why, 'the unit says what was measured', volts.mend),
    );
  }
  const limits = mostVolts(circuit);
  if (volts.ok && limits && Math.abs(volts.value) > limits.most)
    problems.push(
      problemAt(
        figurePiece,
        'reading-quantity',
        `${quantityText(volts.value, 'voltage')} cannot be where the highest supply has ${quantityText(limits.supply, 'voltage')}`,
        'one figure with its point or unit slipped leads the whole search astray',
        [quantityText(slipMended(volts.value, limits.supply), 'voltage')],
      ),
    );
  if (at.ok && to.ok && second !== undefined && at.value === to.value)
    problems.push(
      problemAt(piece, 'unknown-terminal', `both leads were on ${at.value}`, 'volts are read between two terminals', [
        `${figure} at ${at.value}`,
      ]),
    );
  if (amperes.ok && second !== undefined)
    problems.push(
      problemAt(
        piece,
        'reading-quantity',
        'a current is read at one terminal, not between two',
        'the same current goes in at one and out at the other',
        [`${figure} at ${first}`],
      ),
    );
  if (amperes.ok && at.ok && !at.value.includes('.'))
    problems.push(
      problemAt(
        piece,
        'unknown-terminal',
        `a current cannot be read at ${at.value} as a whole`,
        'a clamp goes round the wires of one terminal',
        [examplesOf(circuit).amperes],
      ),
    );
  const wrong = volts.ok ? by === 'clamp' || by === 'ammeter' : by === 'test lamp';
  if (wrong && (volts.ok || amperes.ok))
    problems.push(
      problemAt(
        piece,
        'reading-quantity',
        `a ${by} does not read ${volts.ok ? 'volts' : 'amperes'}`,
        'each instrument loads the circuit in its own way',
        volts.ok ? ['with meter', 'with test lamp'] : ['with clamp', 'with ammeter'],
      ),
    );
  if (problems.length > 0 || !at.ok || !to.ok) return failed(...problems);
  if (volts.ok)
    return done({
      observable: { of: 'volts', at: at.value, to: to.value, instrument: by === 'test lamp' ? by : 'meter' },
      seen: { value: volts.value },
    });
  const ampere = amperes.ok ? amperes.value : 0;
  return done({
    observable: {
      of: 'amperes',
      at: at.value,
      instrument: by === 'clamp' || by === 'ammeter' ? by : by === 'meter' ? 'ammeter' : usualFor(ampere),
    },
    seen: { value: ampere },
  });
}

/** The same digits with the point where the circuit can have them: 12000 V is 12 V. */
function slipMended(volts: number, supply: number): number {
  const tens = Math.ceil(Math.log10(Math.abs(volts) / (1.5 * supply)));
  return Number((volts / 10 ** tens).toPrecision(4));
}

/** Two terminals of one part as they are read on the bench: `S1.30 to S1.15 at ON`. */
function benchPlace(at: Read<string>, to: Read<string>, circuit: Circuit): string | undefined {
  if (!at.ok || !to.ok || at.value === to.value) return undefined;
  const [[id, one], [other, two]] = [at.value, to.value].map((t) => t.split('.')) as [string[], string[]];
  if (id === undefined || id !== other || !circuit.parts.has(id)) return undefined;
  const lock = keySwitchOf(circuit);
  if (lock?.part.id !== id) return `${at.value} to ${to.value}`;
  const contact = lock.model.contacts.find((c) => c.id === `${one}-${two}` || c.id === `${two}-${one}`);
  const closed = lock.model.positions.find((p) => contact?.sectors.some(([a, b]) => p.angle >= a && p.angle <= b));
  return `${at.value} to ${to.value} at ${(closed ?? lock.model.positions[0]!).name}`;
}

/** `S1.30 to S1.15 at ON open`, `S2.30 to S2.58 at 2 0.1 Ω`: a part on the bench. */
export function benchAt(piece: Piece, circuit: Circuit): Read<Noticed> {
  const shownWord = /^(\S+)\s+(?:to|and)\s+(\S+)\s+(?:(.*?)\s+)??(open|closed)$/i;
  const shownFigure = /^(\S+)\s+(?:to|and)\s+(\S+)\s+(?:(.*?)\s+)??([-+]?[\d.,]+\s*\S+)$/;
  const form = shownWord.exec(piece.text) ?? shownFigure.exec(piece.text);
  if (!form)
    return failed(
      problemAt(
        piece,
        'unknown-seen',
        `\`${piece.text}\` does not say what the ohmmeter showed`,
        'on the bench a part is read between two of its terminals',
        [`${examplesOf(circuit).bench} open`, `${examplesOf(circuit).bench} 0.2 Ω`],
      ),
    );
  const [, first = '', second = '', place = '', shown = ''] = form;
  const secondAt = piece.text.indexOf(second, first.length);
  const at = terminalAt(part(piece, 0, first.length), circuit);
  const to = terminalAt(part(piece, secondAt, secondAt + second.length), circuit);
  const ohms = shown.toLowerCase() === 'open' ? Number.POSITIVE_INFINITY : shown.toLowerCase() === 'closed' ? 0 : undefined;
  const read = ohms === undefined ? readQuantity(shown, 'resistance') : ({ ok: true, value: ohms } as const);
  const problems: Problem[] = [...at.problems, ...to.problems];
  if (!read.ok)
    problems.push(
      problemAt(part(piece, piece.text.length - shown.length), 'reading-quantity', read.why, 'off the vehicle only an ohmmeter is used', [
        'open',
        ...read.mend.slice(0, 1),
      ]),
    );
  else if (read.value < 0)
    problems.push(
      problemAt(
        part(piece, piece.text.length - shown.length),
        'reading-quantity',
        'an ohmmeter shows nothing below 0 Ω',
        'volts left in the circuit spoil the reading',
        ['0 Ω'],
      ),
    );
  if (!at.ok || !to.ok || !read.ok) return failed(...problems);
  const [owner, other] = [at.value, to.value].map((t) => circuit.parts.get(t.slice(0, t.indexOf('.'))));
  if (!owner || owner !== other || at.value === to.value)
    problems.push(
      problemAt(
        piece,
        'unknown-terminal',
        `${at.value} and ${to.value} are not two terminals of one part`,
        'a part taken off the vehicle hangs on nothing else',
        [`${offVehicle}: ${examplesOf(circuit).bench} ${shown}`],
      ),
    );
  const placeAt = place === '' ? -1 : piece.text.indexOf(place, secondAt + second.length);
  const where =
    place === '' ? undefined : part(piece, placeAt + (/^(at|when|with|in)\s+/i.exec(place)?.[0].length ?? 0), placeAt + place.length);
  const stand = owner ? standOf(where, owner.id, piece, circuit) : done({});
  if (!stand.ok) problems.push(...stand.problems);
  if (problems.length > 0 || !owner || !stand.ok) return failed(...problems);
  return done({ observable: { of: 'ohms', part: owner.id, at: at.value, to: to.value, ...stand.value }, seen: { value: read.value } });
}

/** How the part stood on the bench: the key's angle for a key switch, else one of its settings. */
function standOf(
  where: Piece | undefined,
  id: string,
  whole: Piece,
  circuit: Circuit,
): Read<{ readonly angle?: number; readonly setting?: string }> {
  const owner = circuit.parts.get(id)!;
  if (keySwitchOf(circuit)?.part === owner) {
    if (!where)
      return failed(
        problemAt(
          whole,
          'unknown-key-place',
          `\`${whole.text}\` does not say how ${id} was turned`,
          'the key place decides which contacts are closed',
          keySwitchOf(circuit)!.model.positions.map((p) => `at ${p.name}`),
        ),
      );
    const key = readKeyPlace(where.text, circuit, where.file, where.column);
    if (!key.ok) return key;
    // On the bench the switch is turned itself: no lock with lost motion stands between.
    const stretch = keyStretches(keySwitchOf(circuit)!.model).find((s) => s.keyAngle === key.value.angle);
    return done({ angle: stretch?.angle ?? key.value.angle });
  }
  if (!where) return done({});
  const setting = settingNamed(owner, where.text)[0];
  if (setting !== undefined) return done({ setting });
  const settings = owner.kind.settings?.(owner) ?? [];
  return failed(
    problemAt(
      where,
      'unknown-setting',
      settings.length === 0 ? `${id} has nothing to set` : `${id} has no setting \`${where.text}\``,
      'on the bench a part stands as it was set',
      settings.map((s) => `at ${s}`),
    ),
  );
}
