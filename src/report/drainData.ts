import type { BatteryTime } from '../drain/batteryTime.ts';
import type { DrainAnswer } from '../drain/drainAnswer.ts';
import type { Draw } from '../drain/keyOff.ts';
import type { PlanStep } from '../drain/plan.ts';

/** What `drain --json` gives: A, V, Ω, Ah, hours, minutes. */
export function drainData(answer: DrainAnswer): object {
  const { keyOff, healthy, hypothesis: h, stairs, log } = answer;
  return {
    amperes: keyOff.amperes,
    healthyAmperes: healthy.amperes,
    insideBattery: keyOff.inside,
    readAmperes: answer.read_A ?? null,
    draws: keyOff.draws.map(drawData),
    battery: batteryData(answer.battery),
    readBattery: batteryData(answer.readBattery),
    staircase: (stairs?.treads ?? []).map((t) => ({
      seconds: t.from_s,
      amperes: t.amperes,
      asleep: t.events.map((e) => `${e.part} ${e.what}`),
    })),
    hypothesis: h
      ? {
          fault: h.fault,
          predicts: {
            amperes: h.predicts.amperes,
            amperesWithout: h.predicts.without,
            insideBattery: h.predicts.inside,
            draws: h.predicts.draws.map(drawData),
            alive: h.predicts.alive.map((l) => l.id),
            warm: h.predicts.warm.map((w) => w.part),
            positions: h.predicts.positions,
            hoursToNoStart: answer.supposedBattery?.hoursToNoStart ?? null,
            decides: h.predicts.decides ? stepData(h.predicts.decides) : null,
          },
          verdict: h.verdict,
          probability: h.probability,
          rivals: h.rivals,
          held: h.held,
          text: h.text,
        }
      : null,
    suspects: answer.suspects
      .slice(0, 12)
      .map((s) => ({ faults: s.faults.map((f) => f.phrase), probability: s.probability, text: s.text })),
    procedure: answer.procedure,
    plan: answer.plan.map(stepData),
    fuseDrops: answer.fuseDrops,
    log: log
      ? {
          rows: log.log.seconds.length,
          skipped: log.log.skipped,
          turned: log.log.turned,
          noise: log.noise,
          levels: log.levels,
          steps: log.matched.map(({ step, by }) => ({ ...step, by })),
          beats: log.beating.map(({ beat, by }) => ({ ...beat, by })),
          gaps: log.gaps,
          over: log.over,
          finding: log.finding?.phrase ?? null,
        }
      : null,
  };
}

const drawData = ({ part, amperes, feed, fuse, expected }: Draw): object => ({ part, amperes, feed, fuse: fuse ?? null, expected });

function batteryData(b: BatteryTime | undefined): object | null {
  if (!b) return null;
  const { ampereHours, hoursToNoStart, spread, byRule, noStartCharge, charge, capacity_Ah, amperes, own_A, ambient } = b;
  return { ampereHours, hoursToNoStart, spread, byRule, noStartCharge, charge, capacity: capacity_Ah, amperes, ownLoss: own_A, ambient };
}

const stepData = ({ reading, healthy, supposed, minutes, bits, cautions }: PlanStep): object => ({
  reading,
  expect: supposed === undefined || supposed === healthy ? healthy : `${healthy} healthy; ${supposed} as supposed`,
  minutes,
  bits,
  healthy,
  supposed: supposed ?? null,
  cautions,
});
