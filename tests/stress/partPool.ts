import type { Part } from '../../src/circuit/part.ts';
import { partKinds } from '../../src/parts/index.ts';
import { exampleOf, examplePart } from '../parts/examples.ts';

const kindOf = (name: string) => partKinds.find((k) => k.kind === name)!;
const some = (kind: string, parameters: readonly string[]): readonly Part[] => parameters.map((text) => exampleOf(kindOf(kind), text));

/** One of every kind, as its own tests use it. */
export const everyKind: readonly Part[] = partKinds.map(examplePart);

const decades = ['1 mΩ', '3.3 mΩ', '0.02 Ω', '0.5 Ω', '4.7 Ω', '47 Ω', '1 kΩ', '33 kΩ', '1 MΩ', '10 MΩ', '1 GΩ'];
/** Resistances from 1 mΩ to 1 GΩ. */
export const resistors: readonly Part[] = some(
  'resistor',
  decades.map((ohm) => `resistance: ${ohm}`),
);
export const extremeResistors: readonly Part[] = some('resistor', ['resistance: 1 mΩ', 'resistance: 1 GΩ']);

const volts = [2, 6, 12, 24].flatMap((volt) => ['1 mΩ', '0.01 Ω', '2 Ω'].map((ohm) => `voltage: ${volt} V, resistance: ${ohm}`));
export const supplies: readonly Part[] = some('supply', volts);
export const exactSupply: Part = exampleOf(kindOf('supply'), 'voltage: 12 V, resistance: 0 Ω');
export const batteries: readonly Part[] = some('battery', ['capacity: 50 Ah', 'capacity: 10 Ah', 'capacity: 200 Ah']);
export const relays: readonly Part[] = some('relay', [
  'form: make',
  'form: break',
  'form: changeover',
  'form: changeover, suppression: diode',
]);
export const lamps: readonly Part[] = some('lamp', ['power: 2 W', 'power: 21 W', 'power: 55 W']);
export const diodes: readonly Part[] = [...some('diode', ['']), ...some('zener', ['']).slice(0, 1)];
/** The same wiring part under a name of its own. */
export const named = (part: Part, id: string): Part => ({ ...part, id });
