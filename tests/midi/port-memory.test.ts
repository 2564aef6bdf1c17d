import { describe, expect, it } from 'vitest';
import { isThroughPort, plainName, portMemory, recallPort } from '../../src/midi/port-memory';

const port = (name: string | null, manufacturer: string | null = 'Pier') => ({
  name,
  manufacturer,
});

describe('remembering a port', () => {
  // forms of names: ALSA client and port numbers as told in alsa-project/alsa-lib#442
  it.each([
    ['Drums 20:0', 'Drums'],
    ['Drums MIDI 1 128:12', 'Drums MIDI 1'],
    ['3- Drums', 'Drums'],
    ['Drums 17', 'Drums 17'],
    [null, ''],
  ])('calls %s plainly %s', (name, plain) => {
    expect(plainName(name)).toBe(plain);
  });

  it('finds it under another number, not under another maker', () => {
    const memory = portMemory([port('Keys'), port('Drums 20:0')], port('Drums 20:0'));
    const back = port('Drums 28:0');
    expect(recallPort([port('Drums 24:0', 'Quay'), back], memory)).toBe(back);
    expect(recallPort([port('Drums 24:0', 'Quay')], memory)).toBeUndefined();
  });

  it('tells ports of one name by their place, and asks when their number changed', () => {
    const ports = [port('Drums 20:0'), port('Drums 20:1')];
    const memory = portMemory(ports, ports[1]!);
    const later = [port('Drums 24:0'), port('Drums 24:1')];
    expect(recallPort(later, memory)).toBe(later[1]);
    expect(recallPort([...later, port('Drums 24:2')], memory)).toBeUndefined();
    expect(recallPort([later[0]!], memory)).toBe(later[0]);
  });

  it('knows the loop-back port', () => {
    expect(isThroughPort(port('Midi Through Port-0'))).toBe(true);
    expect(isThroughPort(port('Drums'))).toBe(false);
  });
});
