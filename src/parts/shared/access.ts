import type { Access } from '../../circuit/part.ts';

/** Minutes of an experienced hand to reach a part for the first time. All such figures are estimates; a file may say its own (`minutes`). */
export function accessOf(minutes: number, where: string, caution?: string, price?: number): Access {
  return { minutes, where, ...(caution !== undefined && { caution }), ...(price !== undefined && { price }), source: 'estimate' };
}
