import { sensingSwitch } from './shared/sensingSwitch.ts';

/** Contact of the brake pedal. */
export const brakeSwitch = sensingSwitch({
  kind: 'brake-switch',
  title: 'brake switch',
  about: 'contact of the brake pedal, closed while it is pressed',
  settings: ['released', 'pressed'],
  closedWhen: 'pressed',
  minutes: 6,
  where: 'above the brake pedal',
});
