/** Where the key stands and how it came there. A switch with lost motion or a weak spring follows differently on the way back. */
export type KeyPlace = {
  /** Degrees of key travel, as written in `positions`. */
  readonly angle: number;
  /** `up`: turned on from a smaller angle; `back`: sprung or turned back from a larger one. */
  readonly came: 'up' | 'back';
  /** False when the key has been taken out. */
  readonly in: boolean;
};

export type EngineState = 'stopped' | 'cranking' | 'running';

/** What a person has set up at the vehicle: the question to the solver. Plain data. */
export type Scene = {
  /** Absent in a circuit without a key switch. */
  readonly key?: KeyPlace;
  /** Part id -> one of its settings (`on`, `2`, `open`); what is not named is at rest. */
  readonly hand: Readonly<Record<string, string>>;
  readonly engine: EngineState;
  /** Parts out of circuit: unplugged connectors or parts, pulled fuses and relays. The wires' ends stay where they are. */
  readonly apart: readonly string[];
  /** Pairs of terminals joined by a fused jumper. */
  readonly bridged: readonly (readonly [string, string])[];
  /** Parts exchanged for one known to be good: their own faults do not count. */
  readonly swapped: readonly string[];
};

/** A vehicle that stands, without a key in any place, that nobody has touched. */
export const untouched: Scene = { hand: {}, engine: 'stopped', apart: [], bridged: [], swapped: [] };

/** Discrete and slow quantities that a part carries along: relay pulled, fuse blown, charge, heat. Plain data. */
export type State = Readonly<Record<string, number | boolean | string>>;

/** What one instant asks of one part. */
export type Condition = {
  readonly key: KeyPlace | undefined;
  /** The hand's setting of this part, one of its kind's `settings`; the rest setting when nobody touched it. */
  readonly setting: string;
  readonly engine: EngineState;
  /** °C around the part. */
  readonly ambient: number;
  readonly state: State;
};
