import { sensingSwitch } from './shared/sensingSwitch.ts';

/** Contact under the seat of a machine. */
export const seatSwitch = sensingSwitch({
  kind: 'seat-switch',
  title: 'seat switch',
  about: 'contact under the seat, closed while somebody sits there',
  settings: ['empty', 'occupied'],
  closedWhen: 'occupied',
  minutes: 5,
  where: 'under the seat',
  caution: 'bridged, the machine does not stop when the driver leaves it',
});
