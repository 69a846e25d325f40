import type { PartKind } from '../circuit/part.ts';
import { connector } from './connector.ts';
import { currentSupply } from './currentSupply.ts';
import { groundPoint } from './groundPoint.ts';
import { keySwitch } from './keySwitch.ts';
import { lamp } from './lamp.ts';
import { resistor } from './resistor.ts';
import { splice } from './splice.ts';
import { supply } from './supply.ts';
import { handSwitch } from './switch.ts';
import { wire } from './wire.ts';

/** Every kind of part that Detent knows. A new kind is one new file and one line here. */
export const partKinds: readonly PartKind[] = [
  // sources
  supply,
  currentSupply,
  // switches
  keySwitch,
  handSwitch,
  // joints and wires
  connector,
  splice,
  groundPoint,
  wire,
  // loads
  lamp,
  resistor,
];
