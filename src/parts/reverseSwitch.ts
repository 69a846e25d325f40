import { sensingSwitch } from './shared/sensingSwitch.ts';

/** Contact of the gearbox for the reversing lamps. */
export const reverseSwitch = sensingSwitch({
  kind: 'reverse-switch',
  title: 'reverse switch',
  about: 'contact of the gearbox, closed in reverse',
  settings: ['forward', 'reverse'],
  closedWhen: 'reverse',
  minutes: 8,
  where: 'at the gearbox',
});
