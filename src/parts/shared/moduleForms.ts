import * as v from 'valibot';
import { issueText } from '../../circuit/issueText.ts';
import { writtenQuantity, writtenText, writtenWord } from '../../circuit/written.ts';
import { type ModuleCondition, readCondition } from '../moduleCondition.ts';

/** One pin of a module: what it draws by state, in A, or how it feels whether it is live. */
export type ModulePin =
  | { readonly is: 'draw'; readonly awake: number; readonly afterRun: number; readonly asleep: number }
  | { readonly is: 'sense' }
  | { readonly is: 'pull-up' };

/** An output: closes to 31 or to a pin while its condition is met. */
export type ModuleOutput = { readonly to: string; readonly when: ModuleCondition; readonly carries?: number | undefined };

const ampere = writtenQuantity('current', { min: 0, max: 1000 });

const pinName = v.pipe(v.string(), v.regex(/^[^\s.~()]+$/, 'a pin is one word without points or brackets'));

/** A condition in plain words; the message says what is wrong and how to mend it. */
export const conditionForm = writtenText<ModuleCondition>(
  'a condition such as `15 and (50 or engine turning)`',
  { type: ['string', 'number'], examples: ['15 and (50 or engine turning)'] },
  (text) => {
    const read = readCondition(text);
    if (read.ok) return { ok: true, value: read.condition };
    const { at, what, mend } = read.problem;
    return { ok: false, code: 'unreadable-condition', what: `${what} (character ${at + 1} of \`${text}\`)`, mend: [mend] };
  },
);

const drawByState = v.pipe(
  v.strictObject({ awake: ampere, 'after-run': v.optional(ampere), asleep: v.optional(ampere) }),
  v.transform(
    (draw): ModulePin => ({
      is: 'draw',
      awake: draw.awake,
      // Without a figure of its own the after-run draws as much as awake, and asleep nothing.
      afterRun: draw['after-run'] ?? draw.awake,
      asleep: draw.asleep ?? 0,
    }),
  ),
);

const pinForm = v.union(
  [
    v.pipe(
      writtenWord(['sense', 'pull-up']),
      v.transform((is): ModulePin => ({ is })),
    ),
    v.pipe(
      ampere,
      v.transform((draw): ModulePin => ({ is: 'draw', awake: draw, afterRun: draw, asleep: draw })),
    ),
    drawByState,
  ],
  issueText('wrong-form', 'a current, `sense`, `pull-up` or currents by state are wanted here', [
    'write `450 mA`, or `{ awake: 450 mA, after-run: 120 mA, asleep: 9 mA }`',
  ]),
);

export const pinsForm = v.pipe(
  v.record(pinName, pinForm),
  v.check((pins) => Object.values(pins).some((pin) => pin.is === 'draw'), 'at least one pin needs a current: a module lives on something'),
  v.check((pins) => !Object.hasOwn(pins, '31'), '31 is the ground of the module and is there already'),
);

export const outputsForm = v.record(
  pinName,
  v.pipe(
    v.strictObject({
      to: v.optional(pinName, '31'),
      when: conditionForm,
      carries: v.optional(writtenQuantity('current', { min: 1e-3, max: 200 })),
    }),
    v.transform((output): ModuleOutput => output),
  ),
);
