import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { constantTorque, motorKind, motorParameters } from './shared/motorModel.ts';

/** A fuel, washer or bilge pump. */
export const pump = definePart({
  kind: 'pump',
  title: 'pump',
  about: 'an electric pump: fuel, washer, bilge',
  letter: 'M',
  serves: 'body',
  parameters: motorParameters(5, 'fuel pump for injection 4 to 8 A (repair text, secondary), for a carburettor 1 to 2 A (from memory)'),
  ...motorKind(constantTorque, 'the pump', 'pump'),
  access: () => accessOf(12, 'at the pump', 'fuel: no sparks, no smoking, ventilate', 90),
});
