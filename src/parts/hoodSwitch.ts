import { sensingSwitch } from './shared/sensingSwitch.ts';

/** Contact under the bonnet: lamp, alarm. */
export const hoodSwitch = sensingSwitch({
  kind: 'hood-switch',
  title: 'hood switch',
  about: 'contact under the bonnet, closed while it is open',
  settings: ['shut', 'open'],
  closedWhen: 'open',
  minutes: 3,
  where: 'at the bonnet edge',
});
