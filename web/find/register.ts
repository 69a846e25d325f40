import { define } from '../define.ts';
import { FindingList } from './FindingList.ts';
import { FindView } from './FindView.ts';
import { NextCard } from './NextCard.ts';
import { ProofScale } from './ProofScale.ts';
import { ReadingEntry } from './ReadingEntry.ts';
import { SeenSheet } from './SeenSheet.ts';
import { SuspectList } from './SuspectList.ts';

export function registerFindView(): void {
  define({
    'detent-find': FindView,
    'detent-findings': FindingList,
    'detent-suspects': SuspectList,
    'detent-next': NextCard,
    'detent-proof': ProofScale,
    'detent-seen': SeenSheet,
    'detent-reading-entry': ReadingEntry,
  });
}
