import { definePart } from '../circuit/part.ts';
import { accessOf } from './shared/access.ts';
import { constantTorque, motorKind, motorParameters } from './shared/motorModel.ts';

/** A small direct-current motor: fan, window, lock, trim, or a starter without a solenoid of its own (with its own `draws`). */
export const motor = definePart({
  kind: 'motor',
  title: 'motor',
  about: 'a direct-current motor; its back-EMF keeps the running current nearly steady, held fast it draws a multiple',
  letter: 'M',
  serves: 'body',
  driver: { works: 'runs', weak: 'runs slowly', dead: 'does not move' },
  parameters: motorParameters(
    4,
    'wiper, slow, at most 2 A bare and 3 to 7.5 A on wet glass (load lists, secondary); the choice is an estimate',
  ),
  ...motorKind(constantTorque, 'the motor'),
  access: () => accessOf(10, 'at the motor', undefined, 90),
});
