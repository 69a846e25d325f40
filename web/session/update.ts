import type { EngineState, KeyPlace, Scene } from '../../src/circuit/scene.ts';
import type { CircuitChoice, Job, Look, Meter, Notes, Session, View } from './session.ts';

/** Everything that can happen to a session. */
export type Message =
  | { readonly do: 'view'; readonly view: View }
  | { readonly do: 'circuit'; readonly circuit: CircuitChoice; readonly faults?: readonly string[] }
  /** The rest scene of a circuit that was just read. */
  | { readonly do: 'settle'; readonly scene: Scene }
  | { readonly do: 'scene'; readonly scene: Scene }
  /** `gesture` joins the steps of one drag into one step of undo. */
  | { readonly do: 'key'; readonly key: KeyPlace; readonly gesture?: string | undefined }
  /** A moment of a played story. */
  | { readonly do: 'instant'; readonly key: KeyPlace | undefined; readonly engine: EngineState }
  | { readonly do: 'engine'; readonly engine: EngineState }
  | { readonly do: 'hand'; readonly part: string; readonly setting: string | undefined }
  | { readonly do: 'faults'; readonly faults: readonly string[]; readonly gesture?: string | undefined }
  | { readonly do: 'look'; readonly look: Partial<Look> }
  | { readonly do: 'meter'; readonly meter: Partial<Meter> }
  | { readonly do: 'notes'; readonly notes: Partial<Notes>; readonly gesture?: string | undefined }
  /** What a view keeps for itself with the job. */
  | { readonly do: 'more'; readonly name: string; readonly value: unknown; readonly gesture?: string | undefined }
  | { readonly do: 'beside'; readonly beside: Job['beside'] }
  /** Another job takes the desk: opened, begun, or followed from another tab. */
  | { readonly do: 'job'; readonly job: Job };

/** The session after a message. Pure; the same session when nothing changes. */
export function update(session: Session, message: Message): Session {
  const { job } = session;
  const withJob = (changed: Partial<Job>): Session => ({ ...session, job: { ...job, ...changed } });
  const scene = job.scene;
  switch (message.do) {
    case 'view':
      return session.view === message.view ? session : { ...session, view: message.view };
    case 'circuit': {
      const look: Look = { ...job.look, load: undefined, part: undefined, only: false, functions: undefined };
      return withJob({
        circuit: message.circuit,
        scene: undefined,
        beside: undefined,
        faults: message.faults ?? [],
        look,
        meter: { instrument: 'volts', open: false },
      });
    }
    case 'settle':
      return scene === undefined ? withJob({ scene: message.scene }) : session;
    case 'scene':
      return withJob({ scene: message.scene });
    case 'key':
      return scene ? withJob({ scene: { ...scene, key: message.key } }) : session;
    case 'instant':
      return scene ? withJob({ scene: { ...scene, engine: message.engine, ...(message.key && { key: message.key }) } }) : session;
    case 'engine':
      return scene && scene.engine !== message.engine ? withJob({ scene: { ...scene, engine: message.engine } }) : session;
    case 'hand':
      return scene ? withJob({ scene: { ...scene, hand: withSetting(scene.hand, message.part, message.setting) } }) : session;
    case 'faults':
      return withJob({ faults: message.faults });
    case 'look':
      return withJob({ look: { ...job.look, ...message.look } });
    case 'meter':
      return withJob({ meter: { ...job.meter, ...message.meter } });
    case 'notes':
      return withJob({ notes: { ...job.notes, ...message.notes } });
    case 'more':
      return withJob({ more: { ...job.more, [message.name]: message.value } });
    case 'beside':
      return withJob({ beside: message.beside });
    case 'job':
      return { ...session, job: message.job };
  }
}

function withSetting(hand: Scene['hand'], part: string, setting: string | undefined): Scene['hand'] {
  const rest = Object.fromEntries(Object.entries(hand).filter(([id]) => id !== part));
  return setting === undefined ? rest : { ...rest, [part]: setting };
}
