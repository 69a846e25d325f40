import { sensingSwitch } from './shared/sensingSwitch.ts';

/** Contact of a door: the interior lamp and the module that must wake. */
export const doorSwitch = sensingSwitch({
  kind: 'door-switch',
  title: 'door switch',
  about: 'contact in the door frame, closed while the door is open',
  settings: ['shut', 'open'],
  closedWhen: 'open',
  minutes: 5,
  where: 'at the door pillar',
});
