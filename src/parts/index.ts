import type { PartKind } from '../circuit/part.ts';
import { alternator } from './alternator.ts';
import { ballast } from './ballast.ts';
import { battery } from './battery.ts';
import { blower } from './blower.ts';
import { brakeSwitch } from './brakeSwitch.ts';
import { buzzer } from './buzzer.ts';
import { circuitBreaker } from './circuitBreaker.ts';
import { clock } from './clock.ts';
import { clutchSwitch } from './clutchSwitch.ts';
import { coil } from './coil.ts';
import { connector } from './connector.ts';
import { currentSupply } from './currentSupply.ts';
import { diode } from './diode.ts';
import { doorSwitch } from './doorSwitch.ts';
import { doubleLamp } from './doubleLamp.ts';
import { dynamo } from './dynamo.ts';
import { flasher } from './flasher.ts';
import { fuse } from './fuse.ts';
import { fusibleLink } from './fusibleLink.ts';
import { gauge } from './gauge.ts';
import { glowPlug } from './glowPlug.ts';
import { glowTimer } from './glowTimer.ts';
import { groundPoint } from './groundPoint.ts';
import { heater } from './heater.ts';
import { hoodSwitch } from './hoodSwitch.ts';
import { horn } from './horn.ts';
import { ignitionModule } from './ignitionModule.ts';
import { inertiaSwitch } from './inertiaSwitch.ts';
import { isolator } from './isolator.ts';
import { keySwitch } from './keySwitch.ts';
import { lamp } from './lamp.ts';
import { ledLamp } from './ledLamp.ts';
import { magneto } from './magneto.ts';
import { electronicModule } from './module.ts';
import { motor } from './motor.ts';
import { multiSwitch } from './multiSwitch.ts';
import { neutralSwitch } from './neutralSwitch.ts';
import { oilSwitch } from './oilSwitch.ts';
import { points } from './points.ts';
import { pump } from './pump.ts';
import { radio } from './radio.ts';
import { relay } from './relay.ts';
import { resistor } from './resistor.ts';
import { reverseSwitch } from './reverseSwitch.ts';
import { seatSwitch } from './seatSwitch.ts';
import { sender } from './sender.ts';
import { socket } from './socket.ts';
import { solenoid } from './solenoid.ts';
import { splice } from './splice.ts';
import { stabiliser } from './stabiliser.ts';
import { starter } from './starter.ts';
import { stopSolenoid } from './stopSolenoid.ts';
import { supply } from './supply.ts';
import { handSwitch } from './switch.ts';
import { temperatureSwitch } from './temperatureSwitch.ts';
import { timedRelay } from './timedRelay.ts';
import { unknownLoad } from './unknownLoad.ts';
import { wiperMotor } from './wiperMotor.ts';
import { wire } from './wire.ts';
import { zener } from './zener.ts';

/** Every kind of part that Detent knows. A new kind is one new file and one line here. */
export const partKinds: readonly PartKind[] = [
  // sources
  supply,
  currentSupply,
  battery,
  // switches
  keySwitch,
  handSwitch,
  multiSwitch,
  isolator,
  // sensing switches
  doorSwitch,
  brakeSwitch,
  neutralSwitch,
  clutchSwitch,
  seatSwitch,
  inertiaSwitch,
  reverseSwitch,
  hoodSwitch,
  oilSwitch,
  temperatureSwitch,
  // machines
  alternator,
  dynamo,
  starter,
  // fuses and breakers
  fuse,
  fusibleLink,
  circuitBreaker,
  // relays
  relay,
  timedRelay,
  flasher,
  // joints and wires
  connector,
  splice,
  groundPoint,
  wire,
  // loads
  lamp,
  resistor,
  doubleLamp,
  ledLamp,
  heater,
  glowPlug,
  motor,
  blower,
  wiperMotor,
  pump,
  solenoid,
  stopSolenoid,
  horn,
  buzzer,
  radio,
  clock,
  gauge,
  socket,
  unknownLoad,
  // ignition and glowing
  coil,
  ballast,
  points,
  ignitionModule,
  magneto,
  glowTimer,
  // electronics and senders
  diode,
  zener,
  sender,
  stabiliser,
  electronicModule,
];
