import type { FaultMode } from '../../circuit/part.ts';
import { type ModuleHeld, mainPin } from './moduleState.ts';
import { seriesFaults } from './seriesFaults.ts';
import { estimate, practice } from './sources.ts';

/** Faults of a module: awake, dead, drawing, one output or one feed of it. */
export function moduleFaults(
  id: string,
  held: ModuleHeld & { readonly closed: number },
  outputId: (name: string, to: string) => string,
): readonly FaultMode[] {
  const main = mainPin(held.pins);
  const sleeps = Object.values(held.pins).some((pin) => pin.is === 'draw' && pin.asleep < pin.awake);
  const feeds = Object.entries(held.pins).filter(([, pin]) => pin.is === 'draw');
  return [
    ...(sleeps
      ? [
          kept(id, 'stays awake', 'awake', 'the module never goes to sleep', 1.5),
          kept(id, 'stays in after-run', 'after-run', 'the module stops half-way to sleep', 0.5),
        ]
      : []),
    {
      subject: id,
      words: 'dead',
      text: 'the module does nothing, although it is fed',
      weight: 0.4,
      source: estimate,
      changes: () => [{ do: 'params', patch: { needs: 1e6 } }],
    },
    {
      subject: id,
      words: 'draws',
      detail: { dimension: 'current', default: 0.1, grades: [0.05, 0.3], min: 1e-4, max: 20, optional: false },
      text: `the module takes more current from ${main} than it should, all the time`,
      weight: 0.5,
      source: estimate,
      excludes: `${id} draws`,
      changes: (ampere) => [{ do: 'draw', from: `${id}.${main}`, to: `${id}.31`, ampere }],
    },
    ...feeds.flatMap(([name]) =>
      seriesFaults(`${id}.${name}`, name, `pin ${name} of the module`, { open: 0.6, resistance: 0, comesAndGoes: 0.5 }, practice),
    ),
    ...Object.entries(held.outputs).flatMap(([name, { to }]) => outputFaults(`${id}.${name}`, outputId(name, to), name, held.closed)),
  ];
}

function outputFaults(subject: string, element: string, name: string, closed_ohm: number): readonly FaultMode[] {
  return [
    {
      subject,
      words: 'dead',
      text: `output ${name} never closes`,
      weight: 0.6,
      source: estimate,
      changes: () => [{ do: 'series', element, ohm: Number.POSITIVE_INFINITY }],
    },
    {
      subject,
      words: 'stuck on',
      text: `output ${name} stays closed`,
      weight: 0.4,
      source: estimate,
      changes: () => [{ do: 'fix', element, ohm: closed_ohm }],
    },
  ];
}

function kept(subject: string, words: string, state: string, text: string, weight: number): FaultMode {
  return {
    subject,
    words,
    text,
    weight,
    source: practice,
    excludes: `${subject} sleep`,
    changes: () => [{ do: 'params', patch: { 'kept-awake': state } }],
  };
}
