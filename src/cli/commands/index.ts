import type { Command } from '../command.ts';
import { check } from './check.ts';
import { draw } from './draw.ts';
import { faults } from './faults.ts';
import { open } from './open.ts';
import { parts } from './parts.ts';
import { table } from './table.ts';
import { trace } from './trace.ts';

/** Every command, in the order of the help. A new one is one file here, one import and one entry. */
export const commands: readonly Command[] = [parts, check, table, trace, draw, faults, open];
