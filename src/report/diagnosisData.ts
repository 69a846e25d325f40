import type { DiagnosisView } from './diagnosisView.ts';

/** The search as outsiders read it: `diagnose --json`. */
export function diagnosisData(view: DiagnosisView): unknown {
  return {
    stage: view.stage,
    verdict: view.verdict,
    findings: view.findings,
    suspects: view.suspects.map(({ faults, probability, text, fits, against }) => ({ faults, probability, text, fits, against })),
    groups: view.groups.map((g) => g.suspects),
    groupTexts: view.groups.map((g) => ({ text: g.text, ...(g.by && { by: g.by }) })),
    next: view.next.map((r) => ({
      reading: r.reading,
      scene: r.scene,
      steps: r.steps,
      minutes: r.minutes,
      price: r.price,
      bits: r.bits,
      outcomes: r.outcomes.map(({ seen, probability, leaves, finding }) => ({ seen, probability, leaves, finding })),
      cautions: r.cautions,
    })),
    unexplained: view.unexplained,
    ways: view.ways,
  };
}
