import { battery } from './battery.ts';
import { blower } from './blower.ts';
import { breaker } from './breaker.ts';
import { buzzer } from './buzzer.ts';
import { clock } from './clock.ts';
import { coil } from './coil.ts';
import { contact } from './contact.ts';
import { currentSupply } from './currentSupply.ts';
import { diode } from './diode.ts';
import { flasher } from './flasher.ts';
import { fuse } from './fuse.ts';
import { gauge } from './gauge.ts';
import { generator } from './generator.ts';
import { glowPlug } from './glowPlug.ts';
import { groundPoint } from './groundPoint.ts';
import { heater } from './heater.ts';
import { horn } from './horn.ts';
import { lamp } from './lamp.ts';
import { led } from './led.ts';
import { link } from './link.ts';
import { load } from './load.ts';
import { magneto } from './magneto.ts';
import { module } from './module.ts';
import { motor } from './motor.ts';
import { pin } from './pin.ts';
import { pressure } from './pressure.ts';
import { pump } from './pump.ts';
import { radio } from './radio.ts';
import { relayCoil } from './relayCoil.ts';
import { resistor } from './resistor.ts';
import { sender } from './sender.ts';
import type { PartSymbol } from './shape.ts';
import { socket } from './socket.ts';
import { solenoid } from './solenoid.ts';
import { stabiliser } from './stabiliser.ts';
import { starter } from './starter.ts';
import { supply } from './supply.ts';
import { temperature } from './temperature.ts';
import { wire } from './wire.ts';
import { zener } from './zener.ts';

/** Every symbol by the name that a pole gives. After IEC 60617, in our own drawing. */
export const symbols: Readonly<Record<string, PartSymbol>> = {
  alternator: generator,
  battery,
  blower,
  breaker,
  ballast: resistor,
  box: load,
  buzzer,
  'circuit-breaker': breaker,
  clock,
  coil,
  contact,
  'current-supply': currentSupply,
  diode,
  dynamo: generator,
  flasher,
  fuse,
  gauge,
  generator,
  'glow-plug': glowPlug,
  'ground-point': groundPoint,
  heater,
  horn,
  lamp,
  led,
  link,
  load,
  magneto,
  module,
  motor,
  pin,
  plug: pin,
  points: contact,
  pressure,
  pump,
  radio,
  'relay-coil': relayCoil,
  resistor,
  sender,
  socket,
  solenoid,
  stabiliser,
  starter,
  supply,
  temperature,
  wire,
  zener,
};

/** The symbol of that name; an empty box for a name that nobody drew. */
export function symbolOf(name: string): PartSymbol {
  return symbols[name] ?? load;
}
