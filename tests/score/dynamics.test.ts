import { describe, expect, it } from 'vitest';
import { dynamicsOf } from '../../src/score/dynamics';
import { figuresOf } from '../../src/score/figures';
import { answer, due, type NoteParts } from './cases';

const hits = (velocities: readonly number[], parts: NoteParts) =>
  velocities.map((velocity, i) => answer(due(i * 250, parts), { offsetMs: 0, velocity }));

describe('dynamics', () => {
  const snare = [
    ...hits([112, 112], { level: 'accent', limb: 'R' }),
    ...hits([32, 32], { level: 'ghost', limb: 'L' }),
    ...hits([70], { level: 'tap', limb: 'L' }),
  ];

  // GM volume law, computed elsewhere [C]: 112 over 32 is 21.76 dB, 100 over 80 is 3.88 dB.
  it('tells contrast and separation overall, by voice and by limb', () => {
    const tom = [
      ...hits([100], { level: 'accent', limb: 'R', voice: 'floor tom' }),
      ...hits([80], { level: 'ghost', limb: 'R', voice: 'floor tom' }),
    ];
    const { overall, byVoice, byLimb } = dynamicsOf([...snare, ...tom]);
    expect(overall).toMatchObject({ separation: 1, accents: 3, ghosts: 3 });
    expect(byVoice.get('snare')!.contrastDb).toBeCloseTo(21.76, 2);
    expect(byVoice.get('floor tom')!.contrastDb).toBeCloseTo(3.88, 2);
    expect([...byLimb.keys()]).toEqual(['R']);
    expect(byLimb.get('R')!.ghosts).toBe(1);
  });

  it('has no answer without both levels', () => {
    const { overall, byVoice } = dynamicsOf(hits([112], { level: 'accent' }));
    expect([overall.contrastDb, overall.separation, byVoice.size]).toEqual([
      undefined,
      undefined,
      0,
    ]);
  });

  it('leaves out wrong voices, missed notes and the hi-hat pedal', () => {
    const aside = [
      answer(due(0, { level: 'ghost' }), { offsetMs: 0, velocity: 127, voice: 'crash' }),
      answer(due(0, { level: 'ghost' }), undefined),
      ...hits([127], { level: 'ghost', voice: 'hi-hat pedal', limb: 'F' }),
    ];
    expect(dynamicsOf([...snare, ...aside]).overall).toEqual(dynamicsOf(snare).overall);
  });

  // mir_eval 0.8.2 transcription_velocity, run [C]: its free fit of played to written velocity
  // scores inverted accents 1.0. Here they must come out as the opposite of what is written.
  it('does not forgive inverted accents', () => {
    const inverted = [
      ...hits([20, 20], { level: 'accent' }),
      ...hits([100, 100], { level: 'ghost' }),
    ];
    const { overall } = dynamicsOf(inverted);
    expect(overall.separation).toBe(0);
    expect(overall.contrastDb).toBeLessThan(-20);
    expect(figuresOf(inverted).asWritten).toBe(0);
  });

  it('hears one flat level as no separation', () => {
    const flat = [...hits([60, 60], { level: 'accent' }), ...hits([60, 60], { level: 'ghost' })];
    expect(dynamicsOf(flat).overall).toMatchObject({ contrastDb: 0, separation: 0.5 });
  });
});
