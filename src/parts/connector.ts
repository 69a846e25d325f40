import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { seriesFaults } from './shared/seriesFaults.ts';
import { bridged } from './shared/shortFaults.ts';
import { estimate, practice } from './shared/sources.ts';

const pinsOf = (count: number): readonly string[] => Array.from({ length: count }, (_, k) => `${k + 1}`);

/** A plug and socket: pin n has side `na` and side `nb`. Unplugging the whole is a hand action, not a fault. */
export const connector = definePart({
  kind: 'connector',
  title: 'connector',
  about: 'a plug and socket; pin n has the terminals na and nb',
  letter: 'X',
  parameters: {
    pins: { as: 'count', about: 'number of pins', required: true, min: 1, max: 200 },
    contact: {
      as: 'quantity',
      dimension: 'resistance',
      about: 'one pair of pins',
      default: 0.005,
      min: 1e-9,
      max: 1e3,
      source: 'estimate: new 2 to 5 mΩ by a calculator’s note (secondary), corroded 50 to 200 mΩ',
    },
  },
  terminals: ({ params }) =>
    pinsOf(params.pins).flatMap((pin) => [
      { name: `${pin}a`, optional: true },
      { name: `${pin}b`, optional: true },
    ]),
  elements: ({ params }) => pinsOf(params.pins).map((pin) => ({ id: pin, from: `${pin}a`, to: `${pin}b`, ohm: params.contact })),
  poles: ({ params }) => pinsOf(params.pins).map((pin) => ({ id: pin, from: `${pin}a`, to: `${pin}b`, symbol: 'plug', label: pin })),
  faults: (part) => {
    const pins = pinsOf(part.params.pins);
    return [
      ...pins.flatMap((pin) =>
        seriesFaults(`${part.id}.${pin}`, pin, `pin ${pin} of ${part.id}`, { open: 0.7, resistance: 1, comesAndGoes: 1 }, practice).map(
          (m) => (m.words === 'open' ? { ...m, text: `pin ${pin} of ${part.id} is backed out or broken` } : m),
        ),
      ),
      ...pins.slice(1).map((pin, k) => {
        const mode = bridged(part.id, `${k + 1}a`, `${pin}a`, 'water or tracking:', 0.1, estimate);
        const subject = `${part.id}.${k + 1}-${pin}`;
        return { ...mode, subject, excludes: `${subject} bridged`, text: `pins ${k + 1} and ${pin} are joined by water or tracking` };
      }),
    ];
  },
  access: () => accessOf(4, 'at the plug'),
});
